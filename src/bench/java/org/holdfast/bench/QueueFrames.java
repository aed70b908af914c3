package org.holdfast.bench;

import java.io.PrintStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.holdfast.desktop.render.CutPainter;
import org.holdfast.desktop.render.CutQueue;
import org.holdfast.desktop.render.CutRequest;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.volume.Cut;
import org.holdfast.volume.CutPlane;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.Reslicer;
import org.holdfast.volume.VolumeGrid;

/**
 * Times a frame of the review: five exams of 512 × 512 × 400 voxels, two cuts each, from the request to the last picture
 * handed over, while stepping along the normal and while windowing. The exams lie in different poses, so that most cuts run
 * obliquely through the voxels. For comparison the same frame with one cut after the other, each on all processors.
 */
final class QueueFrames {

    private static final int EXAMS = 5;
    private static final int ROWS = 2;
    private static final int SIDE = 512;
    private static final int SLICES = 400;
    private static final double SPACING_MM = 0.45;
    private static final double PITCH_MM = 0.6;
    private static final int WARM = 120;
    private static final int FRAMES = 200;

    private final PrintStream out = System.out;
    private final List<HuVolume> volumes = new ArrayList<>();
    private final ExecutorService windowThread = Executors.newSingleThreadExecutor();
    private final CutQueue queue = new CutQueue(windowThread, (failure, cell) -> {
        throw new IllegalStateException("cell " + cell, failure);
    });

    /** What a frame changes. */
    private enum Gesture {
        STEPPING,
        WINDOWING,
        BOTH
    }

    private QueueFrames() {
        Random random = new Random(53);
        short[][] slices = new short[SLICES][SIDE * SIDE];
        List<PatientPoint> origins = new ArrayList<>();
        for (int k = 0; k < SLICES; k++) {
            origins.add(new PatientPoint(-SPACING_MM * SIDE / 2, -SPACING_MM * SIDE / 2, PITCH_MM * k));
            for (int n = 0; n < slices[k].length; n++) {
                slices[k][n] = (short) (random.nextInt(3000) - 1000);
            }
        }
        VolumeGrid grid = new VolumeGrid(
                SIDE, SIDE, SPACING_MM, SPACING_MM, PatientVector.LEFT, PatientVector.POSTERIOR, origins);
        for (int exam = 0; exam < EXAMS; exam++) {
            volumes.add(HuVolume.ofHu(grid, slices));
        }
    }

    static void report() throws InterruptedException {
        new QueueFrames().run();
    }

    private void run() throws InterruptedException {
        out.println("cells              gesture     queue ms: median   95th   one after the other ms: median   95th");
        for (int[] size : new int[][] {{231, 180}, {300, 240}}) {
            for (Gesture gesture : Gesture.values()) {
                report(size[0], size[1], gesture);
            }
        }
        queue.close();
        windowThread.shutdown();
    }

    private void report(int width, int height, Gesture gesture) throws InterruptedException {
        double[] queued = new double[FRAMES];
        double[] plain = new double[FRAMES];
        for (int frame = -WARM; frame < FRAMES; frame++) {
            List<CutRequest> requests = frame(frame, width, height, gesture);
            double first = queued(requests);
            double second = oneAfterTheOther(requests);
            if (frame >= 0) {
                queued[frame] = first;
                plain[frame] = second;
            }
        }
        out.printf(
                Locale.ROOT,
                "%d x %d of %d x %d  %-9s %16.1f %6.1f %31.1f %6.1f%n",
                EXAMS,
                ROWS,
                width,
                height,
                gesture.name().toLowerCase(Locale.ROOT),
                Times.quantile(queued, 0.5),
                Times.quantile(queued, 0.95),
                Times.quantile(plain, 0.5),
                Times.quantile(plain, 0.95));
    }

    private List<CutRequest> frame(int frame, int width, int height, Gesture gesture) {
        double depthMm = gesture == Gesture.WINDOWING ? 0 : 0.3 * (frame % 60);
        HuWindow window = new HuWindow(650, gesture == Gesture.STEPPING ? 2700 : 1500 + 5 * Math.floorMod(frame, 200));
        List<CutRequest> requests = new ArrayList<>();
        for (int exam = 0; exam < EXAMS; exam++) {
            RigidTransform pose = RigidTransform.rotation(
                    new PatientVector(1, 0.5, 0.3), 2.0 * exam, new PatientPoint(0, 0, PITCH_MM * SLICES / 2));
            for (int row = 0; row < ROWS; row++) {
                PatientVector right = pose.apply(row == 0 ? PatientVector.LEFT : PatientVector.POSTERIOR);
                PatientVector down = pose.apply(PatientVector.CRANIAL.times(-1));
                PatientPoint centre = new PatientPoint(0, 0, PITCH_MM * SLICES / 2).along(right.cross(down), depthMm);
                CutPlane plane = CutPlane.centredOn(centre, right, down, 60.0 / width, width, height);
                requests.add(new CutRequest(volumes.get(exam), plane, Optional.empty(), window));
            }
        }
        return requests;
    }

    private double queued(List<CutRequest> requests) throws InterruptedException {
        CountDownLatch open = new CountDownLatch(requests.size());
        long start = System.nanoTime();
        for (int cell = 0; cell < requests.size(); cell++) {
            queue.request(cell, requests.get(cell), picture -> open.countDown());
        }
        open.await();
        return 1e-6 * (System.nanoTime() - start);
    }

    private static double oneAfterTheOther(List<CutRequest> requests) {
        long start = System.nanoTime();
        for (CutRequest request : requests) {
            Cut cut = Reslicer.cut(request.volume(), request.plane(), request.slab());
            CutPainter.paint(cut, request.volume().grid(), request.window());
        }
        return 1e-6 * (System.nanoTime() - start);
    }
}
