package org.holdfast.volume;

/**
 * Rows of pixels that run along the columns or the rows of a grid. For a slice, the two voxel lines beside the row are
 * weighted into one line of HU, kept for the next row; two such lines of neighbouring slices are weighted into one;
 * that one is interpolated along the row. Lines hold NaN where a voxel that counts carries no tissue.
 */
final class VoxelLines implements AffineRows.GridRow {

    /** Rows whose coordinates across differ by less share a line: rounding, in voxels. */
    private static final double SAME = 1e-9;
    /** A kept line reaches this many voxels further than needed, for the next row of a sheared grid. */
    private static final int MARGIN = 16;

    /** One line of HU of a slice, known for voxels from..to − 1. */
    private static final class Line {
        private final float[] hu;
        private int slice = -1;
        private double across;
        private int from;
        private int to;

        Line(int length) {
            this.hu = new float[length];
        }

        boolean holds(int wantedSlice, double wantedAcross, int wantedFrom, int wantedTo) {
            return slice == wantedSlice
                    && Math.abs(across - wantedAcross) < SAME
                    && from <= wantedFrom
                    && to >= wantedTo;
        }
    }

    private final HuVolume volume;
    private final boolean alongJ;
    private final double step;
    private final int acrossSize;
    private final int length;
    private final int stride;
    private final int gap;
    private final float[] between;
    private Line lower;
    private Line upper;

    /**
     * @param alongJ whether the lines run along j, with i across them; else along i, with j across
     * @param step voxels along the line from pixel to pixel
     */
    VoxelLines(HuVolume volume, boolean alongJ, double step) {
        this.volume = volume;
        this.alongJ = alongJ;
        this.step = step;
        int nx = volume.grid().columns();
        int ny = volume.grid().rows();
        this.length = alongJ ? ny : nx;
        this.acrossSize = alongJ ? nx : ny;
        this.stride = alongJ ? nx : 1;
        this.gap = alongJ ? 1 : nx;
        this.between = new float[length];
        this.lower = new Line(length);
        this.upper = new Line(length);
    }

    @Override
    public void fill(double i, double j, double k, int from, int to, float[] hu, int at) {
        double start = alongJ ? j : i;
        double across = alongJ ? i : j;
        double one = start + from * step;
        double other = start + (to - 1) * step;
        int first = Math.min((int) Math.min(one, other), length - 2);
        int end = Math.min((int) Math.max(one, other), length - 2) + 2;
        int slice = HuVolume.cell(k, volume.grid().slices());
        double fraction = HuVolume.clip(k - slice);
        float[] line;
        if (fraction == 0 || fraction == 1) {
            line = single(fraction == 0 ? slice : slice + 1, across, first, end);
        } else {
            line = mixed(slice, (float) fraction, across, first, end);
        }
        interpolate(line, start, from, to, hu, at);
    }

    private float[] single(int slice, double across, int from, int to) {
        if (upper.holds(slice, across, from, to)) {
            return upper.hu;
        }
        return known(lower, slice, across, from, to).hu;
    }

    private float[] mixed(int slice, float fraction, double across, int from, int to) {
        if (upper.slice == slice || lower.slice == slice + 1) {
            Line line = lower;
            lower = upper;
            upper = line;
        }
        float[] a = known(lower, slice, across, from, to).hu;
        float[] b = known(upper, slice + 1, across, from, to).hu;
        for (int v = from; v < to; v++) {
            between[v] = a[v] + fraction * (b[v] - a[v]);
        }
        return between;
    }

    private Line known(Line line, int slice, double across, int from, int to) {
        if (!line.holds(slice, across, from, to)) {
            line.slice = slice;
            line.across = across;
            line.from = Math.max(0, from - MARGIN);
            line.to = Math.min(length, to + MARGIN);
            combine(line);
        }
        return line;
    }

    private void combine(Line line) {
        int cell = HuVolume.cell(line.across, acrossSize);
        double f = HuVolume.clip(line.across - cell);
        double slope = volume.slope(line.slice);
        double intercept = volume.intercept(line.slice);
        short[] codes = volume.codes(line.slice);
        int first = gap * cell + stride * line.from;
        if (f == 0 || f == 1) {
            one(codes, f == 0 ? first : first + gap, slope, intercept, line);
        } else {
            two(codes, first, slope * (1 - f), slope * f, intercept, line);
        }
    }

    private void one(short[] codes, int first, double slope, double intercept, Line line) {
        float[] hu = line.hu;
        int p = first;
        for (int v = line.from; v < line.to; v++) {
            short a = codes[p];
            hu[v] = a == HuVolume.INVALID ? Float.NaN : (float) (slope * a + intercept);
            p += stride;
        }
    }

    private void two(short[] codes, int first, double wa, double wb, double intercept, Line line) {
        float[] hu = line.hu;
        int p = first;
        for (int v = line.from; v < line.to; v++) {
            short a = codes[p];
            short b = codes[p + gap];
            boolean empty = a == HuVolume.INVALID || b == HuVolume.INVALID;
            hu[v] = empty ? Float.NaN : (float) (wa * a + wb * b + intercept);
            p += stride;
        }
    }

    private void interpolate(float[] line, double start, int from, int to, float[] hu, int at) {
        int lastCell = line.length - 2;
        for (int n = from; n < to; n++) {
            double place = start + n * step;
            int cell = Math.min((int) place, lastCell);
            float f = (float) (place - cell);
            float a = line[cell];
            float b = line[cell + 1];
            float value = a + f * (b - a);
            if (value != value) {
                // A voxel of weight 0 does not count, even if it carries no tissue.
                double clipped = HuVolume.clip(place - cell);
                value = clipped == 0 ? a : clipped == 1 ? b : Float.NaN;
            }
            hu[at + n] = value;
        }
    }
}
