package org.holdfast.volume;

import java.util.Arrays;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * Rows of pixels on a regular grid, where voxel coordinates are linear along a row.
 *
 * <p>A row that runs along the grid's columns or rows is made from one voxel line: the neighbouring lines are weighted
 * together once (and kept for the next row, which often needs them again), then interpolated along the row. Any other
 * row takes the eight voxels of each place. The part of a row inside the grid is found beforehand, so that the loops
 * test no bounds of their own.
 */
final class AffineRows implements PixelRows {

    /** A coordinate that changes by less than this over a whole row counts as constant, in voxels. */
    private static final double CONSTANT = 1e-7;
    /** Steps wider than this leave most of a voxel line unused; taking eight voxels a place is then cheaper. */
    private static final double WIDEST_STEP = 2;

    /** Pixels of a row that are filled before the rows below: their voxels then lie near each other. */
    private static final int PATCH = 64;

    private final int nx;
    private final int ny;
    private final int nz;

    private final double[] toVoxel;
    private final double di;
    private final double dj;
    private final double dk;
    private final boolean alongLine;
    private final GridRow row;

    /** One way to fill a row whose places are known in voxel coordinates. */
    interface GridRow {

        /** Fills pixels from..to − 1 of a row that starts at voxel coordinates (i, j, k); all of them inside the grid. */
        void fill(double i, double j, double k, int from, int to, float[] hu, int at);
    }

    /** Whether the mapping from patient space to voxels is affine, without holes, and every axis has two voxels. */
    static boolean suits(HuVolume volume) {
        VolumeGrid grid = volume.grid();
        return !grid.isIrregular()
                && grid.holesAfter().isEmpty()
                && grid.columns() > 1
                && grid.rows() > 1
                && grid.slices() > 1
                && VoxelCells.suits(volume);
    }

    AffineRows(HuVolume volume, PatientVector step, int count) {
        VolumeGrid grid = volume.grid();
        this.nx = grid.columns();
        this.ny = grid.rows();
        this.nz = grid.slices();
        this.toVoxel = patientToVoxel(grid);
        double i = toVoxel[0] * step.x() + toVoxel[1] * step.y() + toVoxel[2] * step.z();
        double j = toVoxel[4] * step.x() + toVoxel[5] * step.y() + toVoxel[6] * step.z();
        double k = toVoxel[8] * step.x() + toVoxel[9] * step.y() + toVoxel[10] * step.z();
        boolean sameI = Math.abs(i) * count < CONSTANT;
        boolean sameJ = Math.abs(j) * count < CONSTANT;
        boolean sameK = Math.abs(k) * count < CONSTANT;
        this.di = sameI ? 0 : i;
        this.dj = sameJ ? 0 : j;
        this.dk = sameK ? 0 : k;
        boolean alongI = !sameI && sameJ && sameK && Math.abs(i) <= WIDEST_STEP;
        boolean alongJ = sameI && !sameJ && sameK && Math.abs(j) <= WIDEST_STEP;
        this.alongLine = alongI || alongJ;
        this.row = alongLine ? new VoxelLines(volume, alongJ, alongJ ? j : i) : new VoxelCells(volume, di, dj, dk);
    }

    /** The affine map as three rows of four numbers. */
    private static double[] patientToVoxel(VolumeGrid grid) {
        VoxelCoord zero = grid.patientToVoxel(PatientPoint.ORIGIN);
        double[] map = new double[12];
        PatientVector[] axes = {PatientVector.LEFT, PatientVector.POSTERIOR, PatientVector.CRANIAL};
        int last = grid.slices() - 1;
        PatientVector slice = grid.sliceOrigin(last).minus(grid.sliceOrigin(0)).times(1.0 / last);
        double pitch = slice.dot(grid.normal());
        for (int axis = 0; axis < 3; axis++) {
            double k = axes[axis].dot(grid.normal()) / pitch;
            PatientVector inSlice = axes[axis].minus(slice.times(k));
            map[axis] = inSlice.dot(grid.rowDirection()) / grid.columnSpacingMm();
            map[4 + axis] = inSlice.dot(grid.columnDirection()) / grid.rowSpacingMm();
            map[8 + axis] = k;
        }
        map[3] = zero.i();
        map[7] = zero.j();
        map[11] = zero.k();
        return map;
    }

    @Override
    public int patch() {
        return alongLine ? Integer.MAX_VALUE : PATCH;
    }

    @Override
    public void fill(double x, double y, double z, int count, float[] hu, int at) {
        double i = toVoxel[0] * x + toVoxel[1] * y + toVoxel[2] * z + toVoxel[3];
        double j = toVoxel[4] * x + toVoxel[5] * y + toVoxel[6] * z + toVoxel[7];
        double k = toVoxel[8] * x + toVoxel[9] * y + toVoxel[10] * z + toVoxel[11];
        int from = 0;
        int to = count;
        from = Math.max(from, firstInside(i, di, nx, count));
        from = Math.max(from, firstInside(j, dj, ny, count));
        from = Math.max(from, firstInside(k, dk, nz, count));
        to = Math.min(to, endInside(i, di, nx, count));
        to = Math.min(to, endInside(j, dj, ny, count));
        to = Math.min(to, endInside(k, dk, nz, count));
        if (from >= to) {
            Arrays.fill(hu, at, at + count, Float.NaN);
            return;
        }
        Arrays.fill(hu, at, at + from, Float.NaN);
        Arrays.fill(hu, at + to, at + count, Float.NaN);
        row.fill(i, j, k, from, to, hu, at);
    }

    /** The first n ≥ 0 from which on start + n·step may be inside [0, size − 1]; count if none. */
    private static int firstInside(double start, double step, int size, int count) {
        if (HuVolume.isInside(start, size)) {
            return 0;
        }
        if (step == 0) {
            return count;
        }
        double border = step > 0 ? -HuVolume.SLACK : size - 1 + HuVolume.SLACK;
        double n = Math.ceil((border - start) / step);
        if (!(n >= 0 && n < count)) {
            return count;
        }
        int first = (int) n;
        while (first > 0 && HuVolume.isInside(start + (first - 1) * step, size)) {
            first--;
        }
        while (first < count && !HuVolume.isInside(start + first * step, size)) {
            first++;
        }
        return first;
    }

    /** One more than the last n &lt; count at which start + n·step is inside [0, size − 1]; 0 if none. */
    private static int endInside(double start, double step, int size, int count) {
        return count - firstInside(start + (count - 1) * step, -step, size, count);
    }
}
