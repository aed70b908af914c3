package org.holdfast.bench;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.Set;
import org.holdfast.app.ExamImages;
import org.holdfast.app.ReviewSubject;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;

/**
 * How long an exam of 400 slices of 512 × 512 that was given up takes to be back, its files in the system's cache. Prints
 * the median of five and the goal. Argument: number of slices (default 400).
 */
public final class ReloadBenchmark {

    private static final int RUNS = 5;
    private static final double GOAL_SECONDS = 1.5;

    private ReloadBenchmark() {}

    /** Runs it; exit code 1 if the goal is missed. */
    public static void main(String[] arguments) throws Exception {
        int slices = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 400;
        Path folder = Files.createTempDirectory("holdfast-reload");
        try {
            LoadBenchmark.writeSeries(Files.createDirectory(folder.resolve("exam")), slices);
            Files.copy(Path.of("sample-images/demo-subject/construct.json"), folder.resolve("construct.json"));
            Files.writeString(
                    folder.resolve("subject.json"),
                    """
                    {"code": "BENCHMARK", "surgeryDate": "2024-03-11", "construct": "construct.json",
                     "exams": [{"label": "surgery", "folder": "exam"}]}
                    """);
            System.exit(reload(folder) ? 0 : 1);
        } finally {
            LoadBenchmark.delete(folder);
        }
    }

    private static boolean reload(Path folder) throws Exception {
        try (ExamImages images = new ExamImages(ReviewSubject.open(folder), 0)) {
            long start = System.nanoTime();
            long bytes = show(images).voxelBytes();
            double first = secondsSince(start);
            double[] seconds = new double[RUNS];
            for (int run = 0; run < RUNS; run++) {
                images.onScreen(Set.of());
                if (images.loaded(0).isPresent()) {
                    throw new IllegalStateException("the volume was not given up");
                }
                start = System.nanoTime();
                show(images);
                seconds[run] = secondsSince(start);
            }
            Arrays.sort(seconds);
            say("volume                          %.0f MB", bytes / 1e6);
            say("first time, headers included    %.3f s", first);
            say(
                    "back after it was given up      %.3f s, %.3f to %.3f (goal ≤ %.1f)",
                    seconds[RUNS / 2], seconds[0], seconds[RUNS - 1], GOAL_SECONDS);
            return seconds[RUNS / 2] <= GOAL_SECONDS;
        }
    }

    private static HuVolume show(ExamImages images) throws Exception {
        images.onScreen(Set.of(0));
        return images.volume(0, Progress.NONE);
    }

    private static double secondsSince(long nanos) {
        return (System.nanoTime() - nanos) / 1e9;
    }

    private static void say(String format, Object... values) {
        System.out.println(String.format(Locale.ROOT, format, values));
    }
}
