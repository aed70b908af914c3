package org.holdfast.volume;

import java.util.stream.IntStream;

/** Distribution of the values of a radiograph that carry an image, exactly: each value with its count. Immutable. */
public final class FilmStatistics {

    private final float[] values;
    private final long[] upTo;

    private FilmStatistics(float[] values, long[] upTo) {
        this.values = values;
        this.upTo = upTo;
    }

    /**
     * @param counts how often each word occurs
     * @param values value of each word; NaN carries no image
     */
    static FilmStatistics of(int[] counts, float[] values) {
        int[] order = IntStream.range(0, counts.length)
                .filter(n -> counts[n] > 0 && !Float.isNaN(values[n]))
                .boxed()
                .sorted((a, b) -> Float.compare(values[a], values[b]))
                .mapToInt(Integer::intValue)
                .toArray();
        float[] sorted = new float[order.length];
        long[] upTo = new long[order.length];
        long sum = 0;
        for (int n = 0; n < order.length; n++) {
            sum += counts[order[n]];
            sorted[n] = values[order[n]];
            upTo[n] = sum;
        }
        return new FilmStatistics(sorted, upTo);
    }

    /** Pixels that carry an image. */
    public long count() {
        return upTo.length == 0 ? 0 : upTo[upTo.length - 1];
    }

    /**
     * The smallest value that at least a share of the pixels do not exceed (the inverse of the empirical distribution);
     * share 0 gives the smallest, 1 the largest value.
     *
     * @param share 0 to 1
     * @throws IllegalStateException if no pixel carries an image
     */
    public double quantile(double share) {
        if (!(share >= 0 && share <= 1)) {
            throw new IllegalArgumentException("share must lie in [0, 1], got " + share);
        }
        if (count() == 0) {
            throw new IllegalStateException("no pixel carries an image");
        }
        long rank = Math.max(1, (long) Math.ceil(share * count()));
        int n = 0;
        while (upTo[n] < rank) {
            n++;
        }
        return values[n];
    }

    /** Share of the pixels, 0 to 1, that a window draws neither black nor white; NaN where no pixel carries an image. */
    public double shareShown(VoiTransform window) {
        long shown = 0;
        for (int n = 0; n < values.length; n++) {
            double grey = window.grey(values[n]);
            shown += grey > 0 && grey < 1 ? upTo[n] - (n == 0 ? 0 : upTo[n - 1]) : 0;
        }
        return count() == 0 ? Double.NaN : (double) shown / count();
    }
}
