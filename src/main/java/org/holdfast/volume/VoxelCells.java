package org.holdfast.volume;

/**
 * Rows of pixels in any direction on a regular grid: trilinear interpolation in the cell of eight voxels around each
 * place.
 *
 * <p>Coordinates run along a row as whole numbers of 2^−40 voxel, so that cell and fraction are a shift and a mask and
 * a row of any length stays exact within 10^−8 voxel; the interpolation is done in whole numbers with fractions of
 * 2^−20 voxel (0.03 HU on a step of 30,000 HU from voxel to voxel). Only for volumes whose slices share one line from
 * code to HU, with fewer than 2^22 voxels a side.
 */
final class VoxelCells implements AffineRows.GridRow {

    private static final int FRACTION_BITS = 40;
    private static final int WEIGHT_BITS = 20;
    private static final long WEIGHT_MASK = (1L << WEIGHT_BITS) - 1;
    private static final int MOST_VOXELS = 1 << 22;
    /** Every such pixel of a row is visited beforehand, which brings several far voxels on their way at a time. */
    private static final int AHEAD = 3;

    private final HuVolume volume;
    private final short[][] codes;
    private final int nx;
    private final int ny;
    private final int nz;
    private final double di;
    private final double dj;
    private final double dk;
    private final long stepI;
    private final long stepJ;
    private final long stepK;
    private final double huPerUnit;
    private final double intercept;
    /** Keeps the visits beforehand from being left out as without effect. */
    private int visited;

    /** Whether the volume keeps to what this class needs. */
    static boolean suits(HuVolume volume) {
        VolumeGrid grid = volume.grid();
        return volume.isUniform()
                && grid.columns() < MOST_VOXELS
                && grid.rows() < MOST_VOXELS
                && grid.slices() < MOST_VOXELS;
    }

    VoxelCells(HuVolume volume, double di, double dj, double dk) {
        this.volume = volume;
        this.codes = volume.codes();
        this.nx = volume.grid().columns();
        this.ny = volume.grid().rows();
        this.nz = volume.grid().slices();
        this.di = di;
        this.dj = dj;
        this.dk = dk;
        this.stepI = fixed(di);
        this.stepJ = fixed(dj);
        this.stepK = fixed(dk);
        this.huPerUnit = volume.slope(0) / (1L << 2 * WEIGHT_BITS);
        this.intercept = volume.intercept(0);
    }

    @Override
    public void fill(double i, double j, double k, int from, int to, float[] hu, int at) {
        long fixedI = start(i + from * di, stepI, nx);
        long fixedJ = start(j + from * dj, stepJ, ny);
        long fixedK = start(k + from * dk, stepK, nz);
        int first = 0;
        int end = to - from;
        while (first < end && !isInCell(fixedI, fixedJ, fixedK, first)) {
            first++;
        }
        while (end > first && !isInCell(fixedI, fixedJ, fixedK, end - 1)) {
            end--;
        }
        slowly(i, j, k, from, from + first, hu, at);
        slowly(i, j, k, from + end, to, hu, at);
        fixedI += first * stepI;
        fixedJ += first * stepJ;
        fixedK += first * stepK;
        visit(fixedI, fixedJ, fixedK, end - first);
        interpolate(fixedI, fixedJ, fixedK, end - first, hu, at + from + first);
        for (int n = from + first; n < from + end; n++) {
            if (hu[at + n] != hu[at + n]) {
                slowly(i, j, k, n, n + 1, hu, at);
            }
        }
    }

    /** By the rules of {@link HuVolume#sampleAt}: on the grid's far faces and beside voxels without tissue. */
    private void slowly(double i, double j, double k, int from, int to, float[] hu, int at) {
        for (int n = from; n < to; n++) {
            hu[at + n] = (float) volume.sampleAt(i + n * di, j + n * dj, k + n * dk);
        }
    }

    private void visit(long startI, long startJ, long startK, int count) {
        long i = startI;
        long j = startJ;
        long k = startK;
        int sum = 0;
        for (int n = 0; n < count; n += AHEAD) {
            int cell = (int) (k >> FRACTION_BITS);
            short[] lower = codes[cell];
            short[] upper = codes[cell + 1];
            int p = (int) (i >> FRACTION_BITS) + nx * (int) (j >> FRACTION_BITS);
            sum += lower[p] + upper[p] + lower[p + nx] + upper[p + nx];
            i += AHEAD * stepI;
            j += AHEAD * stepJ;
            k += AHEAD * stepK;
        }
        visited = sum;
    }

    /** NaN where one of the eight voxels carries no tissue, whatever its weight. */
    private void interpolate(long startI, long startJ, long startK, int count, float[] hu, int at) {
        long i = startI;
        long j = startJ;
        long k = startK;
        int columns = nx;
        for (int n = 0; n < count; n++) {
            int cell = (int) (k >> FRACTION_BITS);
            short[] lower = codes[cell];
            short[] upper = codes[cell + 1];
            int p = (int) (i >> FRACTION_BITS) + columns * (int) (j >> FRACTION_BITS);
            int q = p + columns;
            int a = lower[p];
            int b = lower[p + 1];
            int c = lower[q];
            int d = lower[q + 1];
            int e = upper[p];
            int f = upper[p + 1];
            int g = upper[q];
            int h = upper[q + 1];
            if (isEmpty(a, b, c, d) || isEmpty(e, f, g, h)) {
                hu[at + n] = Float.NaN;
            } else {
                long fi = weight(i);
                long fj = weight(j);
                long low =
                        mixed(((long) a << WEIGHT_BITS) + fi * (b - a), ((long) c << WEIGHT_BITS) + fi * (d - c), fj);
                long high =
                        mixed(((long) e << WEIGHT_BITS) + fi * (f - e), ((long) g << WEIGHT_BITS) + fi * (h - g), fj);
                long value = (low << WEIGHT_BITS) + weight(k) * (high - low);
                hu[at + n] = (float) (huPerUnit * value + intercept);
            }
            i += stepI;
            j += stepJ;
            k += stepK;
        }
    }

    private static long mixed(long a, long b, long weight) {
        return a + (weight * (b - a) >> WEIGHT_BITS);
    }

    private static long weight(long fixed) {
        return (fixed >>> FRACTION_BITS - WEIGHT_BITS) & WEIGHT_MASK;
    }

    private static boolean isEmpty(int a, int b, int c, int d) {
        return a == HuVolume.INVALID || b == HuVolume.INVALID || c == HuVolume.INVALID || d == HuVolume.INVALID;
    }

    private static long fixed(double voxels) {
        return Math.round(voxels * (1L << FRACTION_BITS));
    }

    /** A coordinate that stays constant is kept inside the last cell; others leave it to the slow way. */
    private static long start(double voxels, long step, int size) {
        long at = fixed(voxels);
        return step == 0 ? Math.max(0, Math.min(at, ((long) (size - 1) << FRACTION_BITS) - 1)) : at;
    }

    private boolean isInCell(long i, long j, long k, int n) {
        return isInCell(i + n * stepI, nx) && isInCell(j + n * stepJ, ny) && isInCell(k + n * stepK, nz);
    }

    private static boolean isInCell(long at, int size) {
        return at >= 0 && at < (long) (size - 1) << FRACTION_BITS;
    }
}
