package org.holdfast.bench;

import com.sun.management.OperatingSystemMXBean;
import java.io.IOException;
import java.io.PrintStream;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.phantom.HuScale;
import org.holdfast.phantom.PointSpread;
import org.holdfast.progress.Progress;
import org.holdfast.registration.MetalRegistration;
import org.holdfast.registration.MetalScene;
import org.holdfast.registration.PoseResult;
import org.holdfast.registration.RegistrationSettings;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;

/**
 * Registers a pair of 512 × 512 × 300 voxels by metal and, on the same pair in the same run, by elastix (Euler transform,
 * mutual information, 4 levels of 500 iterations), and prints time and corner error of both: the largest error at the
 * corners of the construct's box. Goals: at most elastix's corner error, half its time, 6 s. Without elastix the
 * comparison is left out, and said so.
 */
public final class RegisterBenchmark {

    private static final int SIDE = 512;
    private static final int SLICES = 300;
    private static final double VOXEL_MM = 0.6;
    private static final int NOISE_HU = 60;
    private static final double TRUNK_HALF_LEFT_MM = 140;
    private static final double TRUNK_HALF_POSTERIOR_MM = 105;
    private static final double LONGEST_SECONDS = 6;
    private static final int ROUNDS = 3;

    private static final RigidTransform SCENE_TO_REFERENCE =
            RigidTransform.translation(new PatientVector(10, -120, 30));

    /** An easy pair: a usual difference between two positions on the table. */
    private static final RigidTransform TRUTH = RigidTransform.rotation(
                    new PatientVector(1, 2, -1), 6, new PatientPoint(10, -120, 30))
            .then(RigidTransform.translation(new PatientVector(7, -6, 4)));

    private RegisterBenchmark() {}

    /** Takes no arguments. */
    public static void main(String[] arguments) throws IOException, InterruptedException {
        PrintStream out = System.out;
        out.printf(
                Locale.ROOT, "%d processors, Java %s%n", Runtime.getRuntime().availableProcessors(), Runtime.version());
        MetalScene scene =
                MetalScene.asImplanted().scanned(VOXEL_MM, new PointSpread(0.4, 0.35), 25, HuScale.EXTENDED_30710);
        HuVolume reference = inATrunk(scene.scan(SCENE_TO_REFERENCE, 1), SCENE_TO_REFERENCE, 1);
        RigidTransform sceneToExam = SCENE_TO_REFERENCE.then(TRUTH);
        HuVolume exam = inATrunk(scene.scan(sceneToExam, 2), sceneToExam, 2);
        double[] seconds = new double[ROUNDS];
        double ours = 0;
        for (int round = 0; round < ROUNDS; round++) {
            long processor = processorNanos();
            long start = System.nanoTime();
            PoseResult result = MetalRegistration.register(
                    reference, exam, Optional.empty(), RegistrationSettings.withDefaults(), Progress.NONE);
            seconds[round] = 1e-3 * Times.millisSince(start);
            ours = corner(result.found().orElseThrow().referenceToExam());
            out.printf(
                    Locale.ROOT,
                    "Holdfast %s: %.2f s (%.2f s of processor time), corner error %.4f mm%n",
                    round == 0 ? "cold" : "warm",
                    seconds[round],
                    1e-9 * (processorNanos() - processor),
                    ours);
        }
        out.printf(
                Locale.ROOT,
                "goal, at most %.0f s cold: %s%n",
                LONGEST_SECONDS,
                seconds[0] <= LONGEST_SECONDS ? "reached" : "missed");
        Optional<ElastixPeer.Answer> peer = ElastixPeer.register(reference, exam);
        if (peer.isEmpty()) {
            out.println("no /usr/bin/elastix here: no comparison");
            return;
        }
        double theirs = corner(peer.get().fixedToMoving());
        out.printf(
                Locale.ROOT,
                "elastix: %.2f s, corner error %.4f mm%n",
                peer.get().seconds(),
                theirs);
        out.printf(
                Locale.ROOT,
                "goal, at most its corner error and half its time, cold: %s%n",
                ours <= theirs && seconds[0] <= 0.5 * peer.get().seconds() ? "reached" : "missed");
    }

    /** Time of all threads: what the machine did, whatever else kept it busy. */
    private static long processorNanos() {
        return ManagementFactory.getPlatformMXBean(OperatingSystemMXBean.class).getProcessCpuTime();
    }

    private static double corner(RigidTransform pose) {
        return MetalScene.cornerErrorMm(pose, TRUTH, SCENE_TO_REFERENCE);
    }

    /** The scan in the middle of a larger one: soft tissue with noise round it, air outside the trunk, all in one pose. */
    private static HuVolume inATrunk(HuVolume scan, RigidTransform sceneToExam, long seed) {
        VolumeGrid small = scan.grid();
        int left = (SIDE - small.columns()) / 2;
        int front = (SIDE - small.rows()) / 2;
        int below = (SLICES - small.slices()) / 2;
        VolumeGrid grid = larger(small, left, front, below);
        Random random = new Random(seed);
        short[][] hu = new short[SLICES][SIDE * SIDE];
        float[] slice = new float[small.columns() * small.rows()];
        for (int k = 0; k < SLICES; k++) {
            paintTrunk(hu[k], grid, k, sceneToExam.inverse(), random);
            if (k >= below && k < below + small.slices()) {
                scan.copySlice(k - below, slice);
                for (int v = 0; v < slice.length; v++) {
                    int i = left + v % small.columns();
                    int j = front + v / small.columns();
                    hu[k][i + SIDE * j] = (short) Math.round(slice[v]);
                }
            }
        }
        return HuVolume.ofHu(grid, hu);
    }

    private static void paintTrunk(short[] hu, VolumeGrid grid, int k, RigidTransform examToScene, Random random) {
        PatientPoint corner = examToScene.apply(grid.sliceOrigin(k));
        PatientVector column = examToScene.apply(grid.rowDirection()).times(VOXEL_MM);
        PatientVector row = examToScene.apply(grid.columnDirection()).times(VOXEL_MM);
        for (int v = 0; v < hu.length; v++) {
            int i = v % SIDE;
            int j = v / SIDE;
            double x = corner.x() + i * column.x() + j * row.x();
            double y = corner.y() + i * column.y() + j * row.y();
            boolean isTrunk = Math.hypot(x / TRUNK_HALF_LEFT_MM, y / TRUNK_HALF_POSTERIOR_MM) < 1;
            hu[v] = (short) ((isTrunk ? 40 : -1000) + random.nextInt(NOISE_HU) - NOISE_HU / 2);
        }
    }

    private static VolumeGrid larger(VolumeGrid small, int left, int front, int below) {
        PatientVector step = small.sliceOrigin(1).minus(small.sliceOrigin(0));
        PatientPoint corner = small.sliceOrigin(0)
                .along(small.rowDirection(), -left * small.columnSpacingMm())
                .along(small.columnDirection(), -front * small.rowSpacingMm())
                .plus(step.times(-below));
        List<PatientPoint> origins = new ArrayList<>();
        for (int k = 0; k < SLICES; k++) {
            origins.add(corner.plus(step.times(k)));
        }
        return new VolumeGrid(
                SIDE,
                SIDE,
                small.columnSpacingMm(),
                small.rowSpacingMm(),
                small.rowDirection(),
                small.columnDirection(),
                origins);
    }

    /** Deletes what a run has written. */
    static void delete(Path folder) throws IOException {
        try (var files = Files.walk(folder)) {
            for (Path file : files.sorted((a, b) -> b.compareTo(a)).toList()) {
                Files.delete(file);
            }
        }
    }
}
