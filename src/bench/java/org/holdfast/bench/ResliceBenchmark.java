package org.holdfast.bench;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintStream;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.Cut;
import org.holdfast.volume.CutPlane;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.Reslicer;
import org.holdfast.volume.Slab;
import org.holdfast.volume.VolumeGrid;

/**
 * Times 512 × 512 cuts out of 512 × 512 × 400 voxels and prints the ratio to scipy's {@code map_coordinates} of order 1
 * on the same voxels and places, in one run; the goal is at most 0.25 for every plane. Without scipy the ratios are left
 * out, and said so.
 */
public final class ResliceBenchmark {

    private static final int SIDE = 512;
    private static final int SLICES = 400;
    private static final int RUNS = 41;
    private static final int SCIPY_RUNS = 9;
    private static final double GOAL = 0.25;

    private record Plane(String name, double[] origin, double[] right, double[] down) {
        CutPlane cutPlane() {
            return new CutPlane(
                    new PatientPoint(origin[0], origin[1], origin[2]),
                    new PatientVector(right[0], right[1], right[2]),
                    new PatientVector(down[0], down[1], down[2]),
                    SIDE,
                    SIDE);
        }

        String line() {
            StringBuilder line = new StringBuilder(name);
            for (double[] numbers : List.of(origin, right, down)) {
                for (double number : numbers) {
                    line.append(' ').append(number);
                }
            }
            return line.toString();
        }
    }

    private record Timed(double median, double fastest, double sum, long outside) {}

    private ResliceBenchmark() {}

    /** Takes no arguments. */
    public static void main(String[] arguments) throws IOException, InterruptedException {
        PrintStream out = System.out;
        out.printf(
                Locale.ROOT, "%d processors, Java %s%n", Runtime.getRuntime().availableProcessors(), Runtime.version());
        HuVolume volume = volume();
        Map<String, Timed> scipy = scipy(out);
        out.printf("%-10s %26s %26s %16s%n", "", "Holdfast ms", "scipy ms", "ratio");
        out.printf(
                "%-10s %13s %12s %13s %12s %8s %7s%n",
                "plane", "median", "fastest", "median", "fastest", "median", "fastest");
        boolean reached = true;
        for (Plane plane : planes()) {
            Timed ours = time(volume, plane.cutPlane(), Optional.empty());
            Timed theirs = scipy.get(plane.name());
            out.printf(Locale.ROOT, "%-10s %13.2f %12.2f", plane.name(), ours.median(), ours.fastest());
            if (theirs != null) {
                requireSame(plane, ours, theirs);
                double ratio = ours.median() / theirs.median();
                reached &= ratio <= GOAL;
                out.printf(
                        Locale.ROOT,
                        " %13.2f %12.2f %8.3f %7.3f",
                        theirs.median(),
                        theirs.fastest(),
                        ratio,
                        ours.fastest() / theirs.fastest());
            }
            out.println();
        }
        Slab slab = new Slab(10, Slab.Projection.MEAN);
        Timed thick = time(volume, planes().get(3).cutPlane(), Optional.of(slab));
        out.printf(Locale.ROOT, "oblique slab of 10 mm, mean: %.1f ms%n", thick.median());
        if (!scipy.isEmpty()) {
            out.printf(
                    Locale.ROOT,
                    "goal: every ratio of medians at most %.2f: %s%n",
                    GOAL,
                    reached ? "reached" : "missed");
        }
    }

    private static List<Plane> planes() {
        double k = (SLICES - 1) / (double) SIDE;
        return List.of(
                new Plane("axial", new double[] {0.3, 0.4, 200.5}, new double[] {0.998, 0, 0}, new double[] {0, 0.998, 0
                }),
                new Plane(
                        "coronal", new double[] {0.3, 250.5, 0.2}, new double[] {0.998, 0, 0}, new double[] {0, 0, k}),
                new Plane(
                        "sagittal", new double[] {250.5, 0.3, 0.2}, new double[] {0, 0.998, 0}, new double[] {0, 0, k}),
                new Plane("oblique", new double[] {60, 40, 60}, new double[] {0.7, 0.2, 0.3}, new double[] {
                    -0.1, 0.65, 0.25
                }));
    }

    private static HuVolume volume() {
        List<PatientPoint> origins = new ArrayList<>();
        short[][] hu = new short[SLICES][SIDE * SIDE];
        for (int k = 0; k < SLICES; k++) {
            origins.add(new PatientPoint(0, 0, k));
            for (int j = 0; j < SIDE; j++) {
                for (int i = 0; i < SIDE; i++) {
                    hu[k][i + SIDE * j] = (short) ((i * 7 + j * 13 + k * 29) % 2000 - 1000);
                }
            }
        }
        VolumeGrid grid = new VolumeGrid(SIDE, SIDE, 1, 1, PatientVector.LEFT, PatientVector.POSTERIOR, origins);
        return HuVolume.ofHu(grid, hu);
    }

    private static Timed time(HuVolume volume, CutPlane plane, Optional<Slab> slab) {
        int runs = slab.isPresent() ? 5 : RUNS;
        double[] times = new double[runs];
        Cut cut = null;
        for (int warm = 0; warm < runs; warm++) {
            cut = Reslicer.cut(volume, plane, slab);
        }
        for (int n = 0; n < runs; n++) {
            long start = System.nanoTime();
            cut = Reslicer.cut(volume, plane, slab);
            times[n] = 1e-6 * (System.nanoTime() - start);
        }
        Arrays.sort(times);
        double sum = 0;
        long outside = 0;
        for (float hu : cut.toArray()) {
            if (Float.isNaN(hu)) {
                outside++;
            } else {
                sum += hu;
            }
        }
        return new Timed(times[runs / 2], times[0], sum, outside);
    }

    /** A fast wrong answer is no answer: both must give the same picture in sum. */
    private static void requireSame(Plane plane, Timed ours, Timed theirs) {
        if (ours.outside() != theirs.outside() || Math.abs(ours.sum() - theirs.sum()) > 1e-3 * SIDE * SIDE) {
            throw new IllegalStateException(plane.name() + ": " + ours + " differs from " + theirs);
        }
    }

    private static Map<String, Timed> scipy(PrintStream out) throws IOException, InterruptedException {
        Path python = Path.of("/usr/bin/python3");
        Path script = Path.of("src", "bench", "python", "reslice_scipy.py");
        Map<String, Timed> times = new HashMap<>();
        if (!Files.isExecutable(python) || !Files.exists(script)) {
            out.println("no /usr/bin/python3 here: no comparison with scipy");
            return times;
        }
        Process process = new ProcessBuilder(
                        python.toString(),
                        script.toString(),
                        Integer.toString(SIDE),
                        Integer.toString(SIDE),
                        Integer.toString(SLICES),
                        Integer.toString(SIDE),
                        Integer.toString(SCIPY_RUNS))
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        try (Writer planes = process.outputWriter(StandardCharsets.UTF_8)) {
            for (Plane plane : planes()) {
                planes.write(plane.line() + "\n");
            }
        } catch (IOException e) {
            out.println("python3 ended before it read the planes (" + e.getMessage() + ")");
        }
        try (BufferedReader lines = process.inputReader(StandardCharsets.UTF_8)) {
            lines.lines().forEach(line -> {
                String[] words = line.split(" ");
                times.put(
                        words[0],
                        new Timed(
                                Double.parseDouble(words[1]),
                                Double.parseDouble(words[2]),
                                Double.parseDouble(words[3]),
                                Long.parseLong(words[4])));
            });
        }
        if (process.waitFor() != 0) {
            out.println("python3 has no scipy here: no comparison with it");
        }
        return times;
    }
}
