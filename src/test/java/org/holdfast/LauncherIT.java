package org.holdfast;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/** Runs the application folder that the build left, as a person would. */
@DisabledOnOs(value = OS.WINDOWS, disabledReason = "runs the shell launcher")
final class LauncherIT {

    private static final Path LAUNCHER = Path.of(System.getProperty("holdfast.application", "target/holdfast"))
            .toAbsolutePath()
            .resolve("bin/holdfast");

    private static final long LONGEST_SECONDS = 60;

    /** What a run left: its exit code and both streams. */
    private record Run(int code, String result, String messages) {}

    @TempDir
    private Path folder;

    @Test
    void printsHelpToStandardOutput() throws Exception {
        Run run = run(LAUNCHER, Map.of(), "--help");
        assertEquals(0, run.code(), run::messages);
        assertTrue(run.result().startsWith("Usage: holdfast"), run::result);
        assertEquals("", run.messages());
    }

    @Test
    void refusesAnUnknownCommandWithTwo() throws Exception {
        Run run = run(LAUNCHER, Map.of(), "frob");
        assertEquals(2, run.code());
        assertEquals("", run.result());
        assertTrue(run.messages().contains("frob"), run::messages);
    }

    @Test
    void saysInOneSentenceThatThereIsNoWindow() throws Exception {
        Run run = run(LAUNCHER, Map.of("DISPLAY", "", "WAYLAND_DISPLAY", ""));
        assertEquals(1, run.code());
        assertEquals("", run.result());
        assertEquals(1, run.messages().strip().lines().count(), run::messages);
        assertTrue(run.messages().contains("no display"), run::messages);
    }

    @Test
    void findsItsFolderThroughLinksAndSpacesWhereverItIsMoved() throws Exception {
        Path moved = folder.resolve("moved application");
        copyTree(LAUNCHER.getParent().getParent(), moved);
        Path first = Files.createDirectories(folder.resolve("some programs")).resolve("fast hold");
        Files.createSymbolicLink(first, moved.resolve("bin/holdfast"));
        Path second = folder.resolve("again");
        Files.createSymbolicLink(second, Path.of("some programs/fast hold"));
        Run run = run(second, Map.of(), "--version");
        assertEquals(0, run.code(), run::messages);
        assertTrue(run.result().startsWith("holdfast "), run::result);
    }

    @Test
    void saysPlainlyThatThereIsNoJava() throws Exception {
        Run run =
                run(LAUNCHER, Map.of("JAVA_HOME", "", "PATH", toolsWithoutJava().toString()), "--help");
        assertEquals(2, run.code());
        assertEquals(
                "holdfast: there is no Java; install Java 17 or newer, or set JAVA_HOME to it.",
                run.messages().strip());
    }

    @Test
    void saysPlainlyThatJavaHomeHoldsNoJava() throws Exception {
        Run run = run(LAUNCHER, Map.of("JAVA_HOME", folder.toString()), "--help");
        assertEquals(2, run.code());
        assertTrue(run.messages().contains("there is no bin/java in it"), run::messages);
    }

    @Test
    void refusesAnOldJava() throws Exception {
        Run run = run(LAUNCHER, Map.of("JAVA_HOME", javaThatEchoes("1.8.0_392").toString()), "--help");
        assertEquals(2, run.code());
        assertTrue(run.messages().contains("is Java 8; Java 17 or newer is needed"), run::messages);
    }

    @Test
    void givesTheOptionsOfTheEnvironmentLastAndNoHeapSizeOfItsOwn() throws Exception {
        Map<String, String> environment = Map.of(
                "JAVA_HOME", javaThatEchoes("21.0.1").toString(), "HOLDFAST_JAVA_OPTS", "-Xmx64m -Dpattern=*.dcm");
        Run run = run(LAUNCHER, environment, "inspect", "two words");
        assertEquals(0, run.code(), run::messages);
        List<String> arguments = run.result().lines().toList();
        assertEquals(
                List.of(
                        "-XX:MaxRAMPercentage=70",
                        "-Dholdfast.messages.terminal=false",
                        "-Xmx64m",
                        "-Dpattern=*.dcm",
                        "-cp",
                        arguments.get(5),
                        "org.holdfast.Main",
                        "inspect",
                        "two words"),
                arguments);
        assertFalse(arguments.subList(0, 2).stream().anyMatch(argument -> argument.startsWith("-Xm")));
    }

    @Test
    void opensFilesWhoseNamesAreNotAsciiWithoutALocale() throws Exception {
        Files.writeString(folder.resolve("Röntgen.txt"), "no image");
        Run run = run(LAUNCHER, Map.of("LC_ALL", "C"), "inspect", "Röntgen.txt");
        assertEquals(1, run.code(), run::messages);
        assertTrue(run.result().contains("Röntgen.txt: at byte 0: expected a DICOM file"), run::result);
    }

    /** Several at once in half a gigabyte: what asks for too much is refused by name, and the good file is listed. */
    @Test
    void goesOnPastHostileFilesInASmallHeap() throws Exception {
        Path batch = Files.createDirectories(folder.resolve("batch"));
        for (int copy = 0; copy < 4; copy++) {
            // Values of 60 MiB that are there, eight times: more than a header may take.
            try (RandomAccessFile file =
                    new RandomAccessFile(batch.resolve("values-" + copy).toFile(), "rw")) {
                file.write(latin("\b\0\u0060\0CS\2\0CT"));
                for (int n = 0; n < 8; n++) {
                    file.write(latin("\u0011\0" + (char) (0x10 + n) + "\u0010OB\0\0\0\0\u00c0\u0003"));
                    file.seek(file.getFilePointer() + (60 << 20));
                }
                file.write(0);
            }
            Files.write(
                    batch.resolve("empties-" + copy),
                    latin("\b\0\u0060\0CS\2\0CT" + "\u0011\0\u0010\u0010LO\0\0".repeat(1_100_000)));
            Files.write(
                    batch.resolve("nested-" + copy),
                    latin("\b\0\u0060\0CS\2\0CT"
                            + "\b\0\u0040\u0011SQ\0\0\u00ff\u00ff\u00ff\u00ff\u00fe\u00ff\0\u00e0\u00ff\u00ff\u00ff\u00ff"
                                    .repeat(10_000)));
        }
        Files.write(batch.resolve("good"), latin("\b\0\u0060\0CS\2\0CT\u0010\0\u0020\0LO\4\0id-7"));
        long start = System.nanoTime();
        Run run = run(LAUNCHER, Map.of("HOLDFAST_JAVA_OPTS", "-Xmx512m"), "inspect", "--files", "batch");
        double seconds = (System.nanoTime() - start) / 1e9;
        assertEquals(0, run.code(), run::messages);
        assertTrue(run.result().contains("batch/good"), run::result);
        for (int copy = 0; copy < 4; copy++) {
            String result = run.result();
            assertTrue(
                    result.contains("values-" + copy + ": at byte 125829166 (0011,1012): expected a header"), result);
            assertTrue(result.contains("empties-" + copy + ": at byte 8000002 (0011,1010): expected at most"), result);
            assertTrue(result.contains("nested-" + copy + ": at byte 1302 (0008,1140): expected sequences"), result);
        }
        assertFalse(run.messages().contains("Exception") || run.messages().contains("Error"), run::messages);
        // By hand: 13 files of at most two seconds each.
        assertTrue(seconds < 26, seconds + " s");
    }

    private static byte[] latin(String text) {
        return text.getBytes(StandardCharsets.ISO_8859_1);
    }

    private Run run(Path launcher, Map<String, String> environment, String... arguments)
            throws IOException, InterruptedException {
        Path result = folder.resolve("result.txt");
        Path messages = folder.resolve("messages.txt");
        ProcessBuilder builder = new ProcessBuilder(Stream.concat(Stream.of(launcher.toString()), Stream.of(arguments))
                        .toList())
                .directory(folder.toFile())
                .redirectOutput(result.toFile())
                .redirectError(messages.toFile());
        builder.environment().remove("HOLDFAST_JAVA_OPTS");
        builder.environment().remove("JAVA_TOOL_OPTIONS");
        builder.environment().putAll(environment);
        Process process = builder.start();
        try {
            assertTrue(process.waitFor(LONGEST_SECONDS, TimeUnit.SECONDS), "the launcher did not end");
        } finally {
            process.destroyForcibly();
        }
        return new Run(
                process.exitValue(),
                Files.readString(result, StandardCharsets.UTF_8),
                Files.readString(messages, StandardCharsets.UTF_8));
    }

    /** A folder with the few tools that the launcher calls, for a PATH on which there is no Java. */
    private Path toolsWithoutJava() throws IOException {
        Path tools = Files.createDirectories(folder.resolve("tools"));
        for (String tool : List.of("dirname", "readlink", "sed")) {
            writeScript(tools.resolve(tool), "exec /usr/bin/" + tool + " \"$@\"\n");
        }
        return tools;
    }

    /** A Java that tells the given version and otherwise prints its arguments, one a line. */
    private Path javaThatEchoes(String version) throws IOException {
        Path home = folder.resolve("java-" + version);
        Path java = Files.createDirectories(home.resolve("bin")).resolve("java");
        writeScript(
                java,
                """
                if [ "$1" = -version ]; then
                    echo 'openjdk version "%s" 2024-01-16' >&2
                else
                    printf '%%s\\n' "$@"
                fi
                """
                        .formatted(version));
        return home;
    }

    private static void writeScript(Path script, String body) throws IOException {
        Files.writeString(script, "#!/bin/sh\n" + body);
        Files.setPosixFilePermissions(script, PosixFilePermissions.fromString("rwxr-xr-x"));
    }

    private static void copyTree(Path from, Path to) throws IOException {
        try (Stream<Path> paths = Files.walk(from)) {
            for (Path path : (Iterable<Path>) paths::iterator) {
                Files.copy(path, to.resolve(from.relativize(path).toString()), StandardCopyOption.COPY_ATTRIBUTES);
            }
        }
    }
}
