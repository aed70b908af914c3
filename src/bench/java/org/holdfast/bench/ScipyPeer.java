package org.holdfast.bench;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;

/** scipy in a process of its own, which cuts one plane at a time when asked. */
final class ScipyPeer implements AutoCloseable {

    private static final Path PYTHON = Path.of("/usr/bin/python3");
    private static final Path SCRIPT = Path.of("src", "bench", "python", "reslice_scipy.py");

    /** What one cut gave. */
    record Answer(double milliseconds, double sumHu, long outside) {}

    private final Process process;
    private final Writer questions;
    private final BufferedReader answers;

    private ScipyPeer(Process process) {
        this.process = process;
        this.questions = process.outputWriter(StandardCharsets.UTF_8);
        this.answers = process.inputReader(StandardCharsets.UTF_8);
    }

    /** Starts it with a volume of these sizes; empty where python3 or scipy is missing. */
    static Optional<ScipyPeer> start(int columns, int rows, int slices, int side) throws IOException {
        if (!Files.isExecutable(PYTHON) || !Files.exists(SCRIPT)) {
            return Optional.empty();
        }
        Process process = new ProcessBuilder(
                        PYTHON.toString(),
                        SCRIPT.toString(),
                        Integer.toString(columns),
                        Integer.toString(rows),
                        Integer.toString(slices),
                        Integer.toString(side))
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        ScipyPeer peer = new ScipyPeer(process);
        if ("ready".equals(peer.answers.readLine())) {
            return Optional.of(peer);
        }
        peer.close();
        return Optional.empty();
    }

    Answer cut(String plane) throws IOException {
        questions.write(plane + "\n");
        questions.flush();
        String line = answers.readLine();
        if (line == null) {
            throw new IOException("python3 ended early");
        }
        String[] words = line.split(" ");
        return new Answer(Double.parseDouble(words[0]), Double.parseDouble(words[1]), Long.parseLong(words[2]));
    }

    @Override
    public void close() {
        process.destroy();
    }
}
