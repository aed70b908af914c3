package org.holdfast.volume;

import java.util.Arrays;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.holdfast.geometry.PatientPoint;

/**
 * The HU of a CT stack on its grid, with a validity mask: padding and values under −1024 HU carry no tissue and are
 * kept out of every statistic. Immutable once built and safe to read from many threads.
 *
 * <p>One 16-bit code a voxel. Where every HU is a whole number that fits (nearly always), the code is the HU; else it is
 * the stored value and each slice has its own line from code to HU. The lowest code marks an invalid voxel. (Where all
 * 65,536 stored values could occur, one end reads as its neighbour: the highest of unsigned words, the lowest of signed
 * ones.) Index order inside a slice: {@code i + columns·j}.
 */
public final class HuVolume {

    /** HU below this value carry no tissue. */
    public static final int LOWEST_TISSUE_HU = -1024;

    static final short INVALID = Short.MIN_VALUE;

    /** Stored steps by which lossy compression may move a value away from the scale's ceiling (definitions, section 1). */
    private static final int LOSSY_CEILING_SLACK = 8;

    private final VolumeGrid grid;
    private final short[][] codes;
    private final double[] slope;
    private final double[] intercept;
    private final StoredFormat format;
    private final Rescale[] storedRescale;
    private final boolean uniform;
    private final int ceilingSlack;
    private VolumeStatistics statistics;

    private HuVolume(Builder b) {
        this.grid = b.grid;
        this.codes = b.codes;
        this.slope = b.slope;
        this.intercept = b.intercept;
        this.format = b.format;
        this.storedRescale = b.rescale;
        this.ceilingSlack = b.ceilingSlack;
        this.uniform = Arrays.stream(slope).allMatch(s -> s == slope[0])
                && Arrays.stream(intercept).allMatch(c -> c == intercept[0]);
    }

    /**
     * Starts a volume whose slices come as stored 16-bit words.
     *
     * @param grid where the voxels lie
     * @param format how a word is read
     * @param rescale line from stored value to HU of each slice, as many as slices
     */
    public static Builder builder(VolumeGrid grid, StoredFormat format, Rescale[] rescale) {
        return new Builder(grid, format, rescale);
    }

    /**
     * A volume from HU as whole numbers, slice by slice; values under −1024 are invalid. The arrays are copied.
     *
     * @param grid where the voxels lie
     * @param hu [slice][i + columns·j]
     */
    public static HuVolume ofHu(VolumeGrid grid, short[][] hu) {
        Rescale[] rescale = new Rescale[grid.slices()];
        Arrays.fill(rescale, new Rescale(1, 0));
        Builder builder = builder(grid, new StoredFormat(16, true), rescale);
        for (int k = 0; k < grid.slices(); k++) {
            builder.slice(k, hu[k].clone(), null);
        }
        return builder.build();
    }

    /** Whether the images were compressed with loss before: HU may be off, fine detail missing or made up. */
    public boolean isLossy() {
        return ceilingSlack > 0;
    }

    /** Where the voxels lie. */
    public VolumeGrid grid() {
        return grid;
    }

    /** HU of a voxel, or NaN where it carries no tissue; the index must lie in the grid. */
    public double hu(VoxelIndex v) {
        return hu(v.i(), v.j(), v.k());
    }

    /** HU of a voxel given by column, row and slice, or NaN where it carries no tissue; must lie in the grid. */
    public double hu(int i, int j, int k) {
        if (i < 0 || i >= grid.columns()) {
            throw new IndexOutOfBoundsException("column " + i + " outside 0 to " + (grid.columns() - 1));
        }
        short code = codes[k][i + grid.columns() * j];
        return code == INVALID ? Double.NaN : slope[k] * code + intercept[k];
    }

    /**
     * HU at a point by trilinear interpolation between the eight nearest voxel centres.
     *
     * <p>NaN (documented, never silent) where the point lies outside the hull of the voxel centres, in a hole of the
     * stack, or where a voxel that counts (weight > 0) is invalid.
     */
    public double sample(PatientPoint p) {
        return sample(p.x(), p.y(), p.z());
    }

    /** {@link #sample(PatientPoint)} for loops that must not allocate. */
    public double sample(double x, double y, double z) {
        double k = grid.sliceCoordAt(x * grid.normal().x()
                + y * grid.normal().y()
                + z * grid.normal().z());
        int below = (int) Math.floor(k);
        int last = grid.slices() - 1;
        below = Math.min(Math.max(below, 0), Math.max(0, last - 1));
        double f = k - below;
        PatientPoint a = grid.sliceOrigin(below);
        double ox;
        double oy;
        double oz;
        if (last == 0) {
            ox = a.x() + k * grid.normal().x();
            oy = a.y() + k * grid.normal().y();
            oz = a.z() + k * grid.normal().z();
        } else {
            PatientPoint b = grid.sliceOrigin(below + 1);
            ox = a.x() + f * (b.x() - a.x());
            oy = a.y() + f * (b.y() - a.y());
            oz = a.z() + f * (b.z() - a.z());
        }
        double dx = x - ox;
        double dy = y - oy;
        double dz = z - oz;
        double i = (dx * grid.ux + dy * grid.uy + dz * grid.uz) / grid.columnSpacingMm();
        double j = (dx * grid.vx + dy * grid.vy + dz * grid.vz) / grid.rowSpacingMm();
        return sampleAt(i, j, k);
    }

    /**
     * Copies the HU of a whole slice, for scans of all voxels; NaN where there is no tissue.
     *
     * @param k slice, 0-based
     * @param into columns × rows values, index {@code i + columns·j}
     * @return {@code into}
     */
    public float[] copySlice(int k, float[] into) {
        short[] words = codes[k];
        if (into.length != words.length) {
            throw new IllegalArgumentException("a slice has " + words.length + " voxels, got room for " + into.length);
        }
        float a = (float) slope[k];
        float b = (float) intercept[k];
        for (int v = 0; v < words.length; v++) {
            into[v] = words[v] == INVALID ? Float.NaN : a * words[v] + b;
        }
        return into;
    }

    /** Smallest and largest HU, mean, counts and ceiling over the valid voxels; computed once, on first call. */
    public synchronized VolumeStatistics statistics() {
        if (statistics == null) {
            statistics = VolumeStatistics.of(this);
        }
        return statistics;
    }

    /** Bytes held for voxels. */
    public long voxelBytes() {
        return 2L * grid.columns() * grid.rows() * grid.slices();
    }

    /** Trilinear interpolation at continuous voxel coordinates; the rules of {@link #sample(PatientPoint)}. */
    double sampleAt(double i, double j, double k) {
        int nx = grid.columns();
        int i0 = cell(i, nx);
        int j0 = cell(j, grid.rows());
        int k0 = cell(k, grid.slices());
        if (i0 < 0 || j0 < 0 || k0 < 0) {
            return Double.NaN;
        }
        double fi = clip(i - i0);
        double fj = clip(j - j0);
        double fk = clip(k - k0);
        if (fk > 0 && fk < 1 && grid.isHoleAfter(k0)) {
            return Double.NaN;
        }
        double lower = fk < 1 ? bilinear(k0, i0, j0, fi, fj) : 0;
        double upper = fk > 0 ? bilinear(k0 + 1, i0, j0, fi, fj) : 0;
        return (1 - fk) * lower + fk * upper;
    }

    private double bilinear(int k, int i0, int j0, double fi, double fj) {
        short[] s = codes[k];
        int p = i0 + grid.columns() * j0;
        int right = fi > 0 ? 1 : 0;
        int down = fj > 0 ? grid.columns() : 0;
        short a = fi < 1 && fj < 1 ? s[p] : 0;
        short b = fi > 0 && fj < 1 ? s[p + right] : 0;
        short c = fi < 1 && fj > 0 ? s[p + down] : 0;
        short d = fi > 0 && fj > 0 ? s[p + right + down] : 0;
        if (a == INVALID || b == INVALID || c == INVALID || d == INVALID) {
            return Double.NaN;
        }
        double code = (1 - fj) * ((1 - fi) * a + fi * b) + fj * ((1 - fi) * c + fi * d);
        return slope[k] * code + intercept[k];
    }

    /** Rounding slack in voxels: a point computed to lie on the last voxel centre counts as inside. */
    static final double SLACK = 1e-6;

    /** Whether a coordinate lies between the first and the last of n voxel centres, within the slack. */
    static boolean isInside(double at, int n) {
        return at >= -SLACK && at <= n - 1 + SLACK;
    }

    /** Lower corner of the cell that holds a coordinate, or −1 if outside [0, n − 1]. */
    static int cell(double at, int n) {
        if (!isInside(at, n)) {
            return -1;
        }
        return Math.max(0, Math.min((int) at, n - 2));
    }

    /** A fraction within the slack of 0 or 1 is that: its other neighbour does not count. */
    static double clip(double fraction) {
        return fraction < SLACK ? 0 : fraction > 1 - SLACK ? 1 : fraction;
    }

    short[] codes(int k) {
        return codes[k];
    }

    /** All slices; the arrays themselves, to be read only. */
    short[][] codes() {
        return codes;
    }

    /** Whether all slices share one line from code to HU. */
    boolean isUniform() {
        return uniform;
    }

    double slope(int k) {
        return slope[k];
    }

    double intercept(int k) {
        return intercept[k];
    }

    /** Gathers the slices of a volume; slices may be given from several threads, each once. */
    public static final class Builder {
        private final VolumeGrid grid;
        private final StoredFormat format;
        private final Rescale[] rescale;
        private final short[][] codes;
        private final double[] slope;
        private final double[] intercept;
        private final boolean codeIsHu;
        private final int codeOffset;
        private int ceilingSlack;
        private final Map<Object, short[]> tables = new ConcurrentHashMap<>();

        private Builder(VolumeGrid grid, StoredFormat format, Rescale[] rescale) {
            if (rescale.length != grid.slices()) {
                throw new IllegalArgumentException(
                        "one rescale a slice is needed: " + grid.slices() + " slices, " + rescale.length + " rescales");
            }
            this.grid = grid;
            this.format = format;
            this.rescale = rescale.clone();
            this.codes = new short[grid.slices()][];
            this.slope = new double[grid.slices()];
            this.intercept = new double[grid.slices()];
            boolean whole = true;
            for (Rescale r : rescale) {
                double highest = Math.max(r.hu(format.min()), r.hu(format.max()));
                whole &= r.keepsWholeNumbers() && highest <= Short.MAX_VALUE;
            }
            this.codeIsHu = whole;
            this.codeOffset = !whole && !format.signed() && format.bitsStored() == 16 ? -Short.MAX_VALUE : 0;
        }

        /** Tells that the slices were compressed with loss: a ceiling of the scale is then no sharp value. */
        public Builder lossy() {
            ceilingSlack = LOSSY_CEILING_SLACK;
            return this;
        }

        /**
         * Gives the stored words of one slice. The array becomes the volume's own and must not be used afterwards.
         *
         * @param k slice, ascending along the normal
         * @param words rows × columns words in the index order i + columns·j
         * @param padding stored values without tissue, or null for none
         */
        public Builder slice(int k, short[] words, PaddingRange padding) {
            return slice(k, words, padding, words.length);
        }

        /**
         * Gives the stored words of a slice that may be cut short.
         *
         * @param count words that were read; the voxels behind them carry no tissue
         */
        public Builder slice(int k, short[] words, PaddingRange padding, int count) {
            int expected = Math.multiplyExact(grid.columns(), grid.rows());
            if (words.length != expected) {
                throw new IllegalArgumentException(
                        String.format(Locale.ROOT, "slice %d needs %d words, got %d", k, expected, words.length));
            }
            short[] table =
                    tables.computeIfAbsent(Arrays.asList(rescale[k], padding), key -> table(rescale[k], padding));
            for (int v = 0; v < count; v++) {
                words[v] = table[words[v] & 0xFFFF];
            }
            Arrays.fill(words, count, words.length, INVALID);
            codes[k] = words;
            slope[k] = codeIsHu ? 1 : rescale[k].slope();
            intercept[k] = codeIsHu ? 0 : rescale[k].hu(-codeOffset);
            return this;
        }

        /**
         * The finished volume.
         *
         * @throws IllegalStateException if a slice was not given
         */
        public HuVolume build() {
            for (int k = 0; k < codes.length; k++) {
                if (codes[k] == null) {
                    throw new IllegalStateException("slice " + k + " of " + codes.length + " was not given");
                }
            }
            return new HuVolume(this);
        }

        /** Code of each of the 65,536 words. */
        private short[] table(Rescale r, PaddingRange padding) {
            short[] table = new short[1 << 16];
            for (int word = 0; word < table.length; word++) {
                int stored = format.valueOf(word);
                double hu = r.hu(stored);
                boolean empty = hu < LOWEST_TISSUE_HU || padding != null && padding.contains(stored);
                int code = codeIsHu ? (int) hu : Math.min(stored + codeOffset, Short.MAX_VALUE);
                // 65,536 stored values and the mark for no tissue do not fit 16 bits: one end gives up one stored step.
                table[word] = empty ? INVALID : (short) Math.max(code, INVALID + 1);
            }
            return table;
        }
    }

    /** Stored value of a code of a slice; only for valid codes. */
    double storedOf(int k, int code) {
        Rescale r = storedRescale[k];
        return Math.rint((slope[k] * code + intercept[k] - r.intercept()) / r.slope());
    }

    /**
     * The HU at which the scale of a slice is clipped if a code is at a value where scales are: 2^k − 1 stored, k 12 to 16,
     * or the format's limit; with lossy compression within 8 stored steps of one. NaN if it is not.
     */
    double ceilingHu(int k, int code) {
        int stored = (int) storedOf(k, code);
        int nearest = format.max();
        for (int bits = 12; bits <= 16; bits++) {
            int full = (1 << bits) - 1;
            nearest = Math.abs(full - stored) < Math.abs(nearest - stored) ? full : nearest;
        }
        if (Math.abs(nearest - stored) <= ceilingSlack) {
            return storedRescale[k].hu(nearest);
        }
        // The highest code stands for the format's limit, also where that was moved down by a step to fit.
        return code == Short.MAX_VALUE ? slope[k] * code + intercept[k] : Double.NaN;
    }

    /** HU under a slice's ceiling that count as being at it; 0 unless compressed with loss. */
    double ceilingSlackHu(int k) {
        return ceilingSlack * Math.abs(storedRescale[k].slope());
    }
}
