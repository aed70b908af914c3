package org.holdfast.volume;

/**
 * Samples a radiograph at the pixels of a picture, along each axis on its own. Stateless.
 *
 * <p>Where a picture pixel covers more than one film pixel along an axis: the mean over what it covers, each film pixel in
 * proportion to its share, so that fine detail fades and does not turn into false stripes. Else: linear between the two
 * nearest centres; up to half a pixel beyond the outermost centres the outermost value.
 *
 * <p>Film pixels without an image (padding, cut off, beyond the edge) have no weight; a picture pixel of which less than half
 * the weight carries an image is NaN.
 */
public final class FilmSampler {

    private FilmSampler() {}

    /** Film pixels that count for one picture pixel along one axis. */
    private record Taps(int from, double[] weights) {}

    /**
     * Values (outputs of the modality transform) at the pixels of a picture, index x + width·y; NaN without an image.
     *
     * <p>Costs a pass over the part of the film that is seen.
     */
    public static float[] sample(Radiograph film, FilmFrame frame) {
        Taps[] across = taps(
                frame.originColumn(),
                frame.columnsPerPixel(),
                frame.width(),
                film.facts().columns());
        Taps[] down = taps(
                frame.originRow(),
                frame.rowsPerPixel(),
                frame.height(),
                film.facts().rows());
        float[] out = new float[Math.multiplyExact(frame.width(), frame.height())];
        RowCache rows = new RowCache(film, across);
        double[] sum = new double[frame.width()];
        double[] weight = new double[frame.width()];
        for (int y = 0; y < frame.height(); y++) {
            java.util.Arrays.fill(sum, 0);
            java.util.Arrays.fill(weight, 0);
            for (int n = 0; n < down[y].weights.length; n++) {
                rows.add(down[y].from + n, down[y].weights[n], sum, weight);
            }
            for (int x = 0; x < frame.width(); x++) {
                out[x + frame.width() * y] = weight[x] >= 0.5 ? (float) (sum[x] / weight[x]) : Float.NaN;
            }
        }
        return out;
    }

    private static Taps[] taps(double origin, double step, int pixels, int filmPixels) {
        Taps[] all = new Taps[pixels];
        for (int n = 0; n < pixels; n++) {
            double at = origin + n * step;
            all[n] = step > 1 ? covered(at, step, filmPixels) : between(at, filmPixels);
        }
        return all;
    }

    /** Each film pixel's share of the stretch of length {@code step} around a place. */
    private static Taps covered(double at, double step, int filmPixels) {
        double low = at - step / 2 + 0.5;
        double high = at + step / 2 + 0.5;
        int from = (int) Math.max(0, Math.floor(low));
        int to = (int) Math.min(filmPixels, Math.ceil(high));
        double[] weights = new double[Math.max(0, to - from)];
        for (int n = 0; n < weights.length; n++) {
            double left = from + n;
            weights[n] = Math.max(0, Math.min(high, left + 1) - Math.max(low, left)) / step;
        }
        return new Taps(from, weights);
    }

    private static Taps between(double at, int filmPixels) {
        if (!(at >= -0.5 && at <= filmPixels - 0.5)) {
            return new Taps(0, new double[0]);
        }
        double inside = Math.max(0, Math.min(filmPixels - 1, at));
        int from = (int) Math.min(Math.max(0, filmPixels - 2), Math.floor(inside));
        double second = inside - from;
        return second == 0 || filmPixels == 1
                ? new Taps(from, new double[] {1})
                : new Taps(from, new double[] {1 - second, second});
    }

    /** The last two film rows, already sampled across: a magnified picture takes the same two for many of its own. */
    private static final class RowCache {
        private final Radiograph film;
        private final Taps[] across;
        private final int firstColumn;
        private final float[] row;
        private final int[] held = {-1, -1};
        private final double[][] sums;
        private final double[][] weights;

        RowCache(Radiograph film, Taps[] across) {
            this.film = film;
            this.across = across;
            int first = film.facts().columns();
            int end = 0;
            for (Taps taps : across) {
                if (taps.weights.length > 0) {
                    first = Math.min(first, taps.from);
                    end = Math.max(end, taps.from + taps.weights.length);
                }
            }
            this.firstColumn = first;
            this.row = new float[Math.max(0, end - first)];
            this.sums = new double[2][across.length];
            this.weights = new double[2][across.length];
        }

        void add(int filmRow, double share, double[] sum, double[] weight) {
            int slot = filmRow % 2;
            if (held[slot] != filmRow) {
                fill(filmRow, sums[slot], weights[slot]);
                held[slot] = filmRow;
            }
            for (int x = 0; x < sum.length; x++) {
                sum[x] += share * sums[slot][x];
                weight[x] += share * weights[slot][x];
            }
        }

        private void fill(int filmRow, double[] sum, double[] weight) {
            if (row.length > 0) {
                film.values(filmRow, firstColumn, row.length, row);
            }
            for (int x = 0; x < across.length; x++) {
                Taps taps = across[x];
                double s = 0;
                double w = 0;
                for (int n = 0; n < taps.weights.length; n++) {
                    float value = row[taps.from + n - firstColumn];
                    if (value == value) {
                        s += taps.weights[n] * value;
                        w += taps.weights[n];
                    }
                }
                sum[x] = s;
                weight[x] = w;
            }
        }
    }
}
