package org.holdfast.bench;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.holdfast.app.ContactReport;
import org.holdfast.app.ExamArgument;
import org.holdfast.app.Measurement;
import org.holdfast.app.PoseFile;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.phantom.DemoSeries;
import org.holdfast.progress.Progress;
import org.holdfast.volume.VolumeGrid;

/**
 * Time to load, register and measure an exam of two interfaces, four screws and two rods, in the full size of the demo
 * subject; prints seconds and the goal of 20 s on two cores for 512 × 512 × 400 voxels, scaled to the exam's size. The
 * reference exam is measured before and does not count.
 */
public final class MeasureBenchmark {

    private static final double GOAL_S = 20;
    private static final double FULL_VOXELS = 512.0 * 512 * 400;

    private MeasureBenchmark() {}

    /** Runs it; exit code 1 if the goal is missed. */
    public static void main(String[] arguments) throws Exception {
        Path folder = Files.createTempDirectory("holdfast-measure");
        try {
            DemoSeries series = new DemoSeries(DemoSeries.Size.FULL);
            int last = series.exams().size() - 1;
            Path reference = folder.resolve("reference");
            Path later = folder.resolve("later");
            series.write(0, reference, Progress.NONE);
            series.write(last, later, Progress.NONE);
            double one = seconds(series, List.of(reference));
            double processorBefore = processorSeconds();
            double two = seconds(series, List.of(reference, later));
            double processor = processorSeconds() - processorBefore;
            VolumeGrid grid = series.scan(last, Progress.NONE).grid();
            long voxels = (long) grid.columns() * grid.rows() * grid.slices();
            double goal = GOAL_S * voxels / FULL_VOXELS;
            System.out.printf(
                    Locale.ROOT,
                    "exam of %d voxels: %.1f s (reference exam alone %.1f s; both %.1f s of processor time); goal %.1f s at"
                            + " 512 x 512 x 400, %.1f s scaled%n",
                    voxels,
                    two - one,
                    one,
                    processor,
                    GOAL_S,
                    goal);
            System.exit(two - one <= GOAL_S ? 0 : 1);
        } finally {
            delete(folder);
        }
    }

    /** Time that all threads of this process took of the processors, s; what a busy machine does not change much. */
    private static double processorSeconds() {
        return ProcessHandle.current().info().totalCpuDuration().orElseThrow().toMillis() / 1000.0;
    }

    private static double seconds(DemoSeries series, List<Path> folders) throws Exception {
        List<ExamArgument> exams = folders.stream()
                .map(each -> new ExamArgument(each, Optional.empty(), Optional.empty(), Optional.empty()))
                .toList();
        long start = System.nanoTime();
        ContactReport report = new Measurement(
                        series.construct(),
                        MeasurementSettings.withDefaults(),
                        PoseFile.NONE,
                        Measurement.Scope.ALL,
                        Progress.NONE)
                .measure(exams);
        if (report.exams().size() != folders.size()) {
            throw new IllegalStateException("not every exam was measured: " + report.findings());
        }
        return (System.nanoTime() - start) / 1e9;
    }

    private static void delete(Path folder) throws Exception {
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(path);
            }
        }
    }
}
