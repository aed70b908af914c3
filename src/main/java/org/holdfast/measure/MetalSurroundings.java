package org.holdfast.measure;

import java.util.List;
import org.holdfast.construct.Component;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;

/**
 * The metal of an exam and what lies near it, to be left out when bone is matched: voxels of metal's HU, and voxels of at
 * least the implant's lowest HU inside a laid-out part (a porous face averages under metal's HU), both grown by a margin.
 * Kept as cells of 0.8 mm inside a box; the margin is exceeded by at most a cell's diagonal. Immutable once built and safe
 * to share between threads.
 */
final class MetalSurroundings {

    private static final double CELL_MM = 0.8;

    private final double[] low;
    private final int[] cells;
    private final boolean[] near;

    private MetalSurroundings(double[] low, int[] cells) {
        this.low = low;
        this.cells = cells;
        this.near = new boolean[Math.multiplyExact(Math.multiplyExact(cells[0], cells[1]), cells[2])];
    }

    private static int count(double from, double to) {
        return (int) Math.ceil((to - from) / CELL_MM) + 1;
    }

    /** A part and how it is told from patient space of the exam. */
    interface Inside {
        /** Whether a point of the exam's patient space lies in a laid-out part. */
        boolean test(PatientPoint p);
    }

    /**
     * Builds the mask of one exam.
     *
     * @param box lowest and highest corner of what will be asked for, in the exam's patient space
     * @param inParts whether a point lies inside a laid-out part, where it lies in this exam
     * @throws java.util.concurrent.CancellationException if cancelled
     */
    static MetalSurroundings of(
            HuVolume volume, List<PatientPoint> box, Inside inParts, MeasurementSettings settings, Progress progress) {
        PatientPoint a = box.get(0);
        PatientPoint b = box.get(1);
        MetalSurroundings bare = new MetalSurroundings(
                new double[] {a.x(), a.y(), a.z()},
                new int[] {count(a.x(), b.x()), count(a.y(), b.y()), count(a.z(), b.z())});
        bare.mark(volume, inParts, settings, progress);
        return bare.grown(settings.motion().metalMarginMm());
    }

    private void mark(HuVolume volume, Inside inParts, MeasurementSettings settings, Progress progress) {
        VolumeGrid grid = volume.grid();
        float[] slice = new float[Math.multiplyExact(grid.columns(), grid.rows())];
        for (int k = 0; k < grid.slices(); k++) {
            progress.stopIfCancelled();
            volume.copySlice(k, slice);
            for (int v = 0; v < slice.length; v++) {
                if (slice[v] >= settings.implantMinHu()) {
                    PatientPoint p = grid.sliceOrigin(k)
                            .along(grid.rowDirection(), (v % grid.columns()) * grid.columnSpacingMm())
                            .along(grid.columnDirection(), (v / grid.columns()) * grid.rowSpacingMm());
                    int cell = cell(p);
                    if (cell >= 0 && !near[cell] && (slice[v] >= settings.metalHu() || inParts.test(p))) {
                        near[cell] = true;
                    }
                }
            }
        }
    }

    private int cell(PatientPoint p) {
        int i = (int) Math.floor((p.x() - low[0]) / CELL_MM);
        int j = (int) Math.floor((p.y() - low[1]) / CELL_MM);
        int k = (int) Math.floor((p.z() - low[2]) / CELL_MM);
        return i < 0 || j < 0 || k < 0 || i >= cells[0] || j >= cells[1] || k >= cells[2]
                ? -1
                : i + cells[0] * (j + cells[1] * k);
    }

    private MetalSurroundings grown(double marginMm) {
        MetalSurroundings all = new MetalSurroundings(low, cells);
        int reach = (int) Math.ceil(marginMm / CELL_MM);
        for (int cell = 0; cell < near.length; cell++) {
            if (near[cell]) {
                spread(cell, reach, marginMm, all.near);
            }
        }
        return all;
    }

    /** Marks the cells of which a part may lie within the margin of the metal in a cell. */
    private void spread(int cell, int reach, double marginMm, boolean[] into) {
        int i = cell % cells[0];
        int j = cell / cells[0] % cells[1];
        int k = cell / (cells[0] * cells[1]);
        if (isSurrounded(i, j, k)) {
            into[cell] = true;
            return;
        }
        for (int dk = Math.max(-reach, -k); dk <= Math.min(reach, cells[2] - 1 - k); dk++) {
            for (int dj = Math.max(-reach, -j); dj <= Math.min(reach, cells[1] - 1 - j); dj++) {
                for (int di = Math.max(-reach, -i); di <= Math.min(reach, cells[0] - 1 - i); di++) {
                    double apart = CELL_MM * Math.sqrt(square(di) + square(dj) + square(dk));
                    if (apart <= marginMm) {
                        into[cell + di + cells[0] * (dj + cells[1] * dk)] = true;
                    }
                }
            }
        }
    }

    /** Distance between the nearest faces of two cells, in cells, along one axis, squared. */
    private static double square(int steps) {
        double apart = Math.max(0, Math.abs(steps) - 1);
        return apart * apart;
    }

    /** A cell with metal on all six sides need not be spread: its neighbours do it. */
    private boolean isSurrounded(int i, int j, int k) {
        int cell = i + cells[0] * (j + cells[1] * k);
        return i > 0
                && j > 0
                && k > 0
                && i < cells[0] - 1
                && j < cells[1] - 1
                && k < cells[2] - 1
                && near[cell - 1]
                && near[cell + 1]
                && near[cell - cells[0]]
                && near[cell + cells[0]]
                && near[cell - cells[0] * cells[1]]
                && near[cell + cells[0] * cells[1]];
    }

    /** Whether a point is metal or near it; outside the box nothing is. */
    boolean holds(PatientPoint p) {
        int cell = cell(p);
        return cell >= 0 && near[cell];
    }

    /** Lowest and highest corner of a box round points, with a margin. */
    static List<PatientPoint> boxRound(List<PatientPoint> points, double marginMm) {
        PatientPoint low = points.get(0);
        PatientPoint high = points.get(0);
        for (PatientPoint p : points) {
            low = new PatientPoint(Math.min(low.x(), p.x()), Math.min(low.y(), p.y()), Math.min(low.z(), p.z()));
            high = new PatientPoint(Math.max(high.x(), p.x()), Math.max(high.y(), p.y()), Math.max(high.z(), p.z()));
        }
        PatientVector margin = new PatientVector(marginMm, marginMm, marginMm);
        return List.of(low.plus(margin.times(-1)), high.plus(margin));
    }

    /** Whether a point of the reference's patient space lies in one of the parts. */
    static boolean isInside(List<Component> parts, PatientPoint p) {
        for (Component part : parts) {
            if (part.shape().signedDistanceMm(p) <= 0) {
                return true;
            }
        }
        return false;
    }
}
