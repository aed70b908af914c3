package org.holdfast.registration;

import java.util.function.Predicate;
import java.util.stream.IntStream;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;

/**
 * A piece of a volume on a cubic lattice of patient space, blurred; read smoothly, with its gradient. What is left out or
 * carries no tissue is kept out of the blur (its neighbours are weighed without it). Both exams are read in this same way,
 * whatever their own grids, so that neither's interpolation draws the pose to its grid. Immutable.
 */
final class BlurredImage {

    /** HU beyond these say nothing more of bone: gas, what is left of metal. */
    private static final float LOWEST_HU = -200;

    private static final float HIGHEST_HU = 2000;
    /** A place needs this much of its blur's weight to be valid. */
    private static final float LEAST_WEIGHT = 0.6f;

    private final double[] corner;
    private final int[] size;
    private final double spacingMm;
    /** Index i + nx (j + ny k); NaN where invalid. */
    private final float[] hu;

    private BlurredImage(double[] corner, int[] size, double spacingMm, float[] hu) {
        this.corner = corner;
        this.size = size;
        this.spacingMm = spacingMm;
        this.hu = hu;
    }

    /**
     * Reads a box of a volume, not blurred.
     *
     * @param low corner of the box, mm
     * @param high opposite corner, mm
     * @param spacingMm of the lattice
     */
    static BlurredImage read(
            HuVolume volume,
            double[] low,
            double[] high,
            double spacingMm,
            Predicate<PatientPoint> leftOut,
            Progress progress) {
        int[] size = new int[3];
        for (int axis = 0; axis < 3; axis++) {
            size[axis] = Math.max(4, (int) Math.ceil((high[axis] - low[axis]) / spacingMm) + 1);
        }
        float[] hu = new float[Math.multiplyExact(size[0], Math.multiplyExact(size[1], size[2]))];
        IntStream.range(0, size[2]).parallel().forEach(k -> {
            progress.stopIfCancelled();
            int v = k * size[0] * size[1];
            for (int j = 0; j < size[1]; j++) {
                for (int i = 0; i < size[0]; i++) {
                    PatientPoint p =
                            new PatientPoint(low[0] + i * spacingMm, low[1] + j * spacingMm, low[2] + k * spacingMm);
                    float value = (float) volume.sample(p);
                    boolean isUsed = !Float.isNaN(value) && !leftOut.test(p);
                    hu[v++] = isUsed ? Math.max(LOWEST_HU, Math.min(HIGHEST_HU, value)) : Float.NaN;
                }
            }
        });
        return new BlurredImage(low.clone(), size, spacingMm, hu);
    }

    /**
     * Blurred by a Gaussian and taken on every so-manieth place.
     *
     * @param sigmaMm standard deviation, mm, ≥ 0
     * @param factor every factor-th place is kept, ≥ 1
     */
    BlurredImage blurred(double sigmaMm, int factor) {
        float[] value = new float[hu.length];
        float[] weight = new float[hu.length];
        for (int v = 0; v < hu.length; v++) {
            boolean isValid = !Float.isNaN(hu[v]);
            value[v] = isValid ? hu[v] : 0;
            weight[v] = isValid ? 1 : 0;
        }
        float[] kernel = kernel(sigmaMm / spacingMm);
        for (int axis = 0; axis < 3; axis++) {
            value = convolved(value, kernel, axis);
            weight = convolved(weight, kernel, axis);
        }
        int[] fewer = new int[3];
        for (int axis = 0; axis < 3; axis++) {
            fewer[axis] = (size[axis] - 1) / factor + 1;
        }
        float[] kept = new float[fewer[0] * fewer[1] * fewer[2]];
        int at = 0;
        for (int k = 0; k < fewer[2]; k++) {
            for (int j = 0; j < fewer[1]; j++) {
                for (int i = 0; i < fewer[0]; i++) {
                    int v = factor * (i + size[0] * (j + size[1] * k));
                    kept[at++] = weight[v] >= LEAST_WEIGHT ? value[v] / weight[v] : Float.NaN;
                }
            }
        }
        return new BlurredImage(corner, fewer, spacingMm * factor, kept);
    }

    private static float[] kernel(double sigma) {
        int reach = (int) Math.ceil(3 * sigma);
        float[] kernel = new float[2 * reach + 1];
        double sum = 0;
        for (int n = -reach; n <= reach; n++) {
            sum += sigma == 0 ? 1 : Math.exp(-0.5 * n * n / (sigma * sigma));
        }
        for (int n = -reach; n <= reach; n++) {
            kernel[n + reach] = (float) ((sigma == 0 ? 1 : Math.exp(-0.5 * n * n / (sigma * sigma))) / sum);
        }
        return kernel;
    }

    /** Along one axis; places outside count nothing. */
    private float[] convolved(float[] from, float[] kernel, int axis) {
        if (kernel.length == 1) {
            return from;
        }
        int step = axis == 0 ? 1 : axis == 1 ? size[0] : size[0] * size[1];
        int reach = kernel.length / 2;
        float[] to = new float[from.length];
        int plane = size[0] * size[1];
        IntStream.range(0, size[2]).parallel().forEach(k -> {
            for (int v = k * plane; v < (k + 1) * plane; v++) {
                int at = axis == 0 ? v % size[0] : axis == 1 ? v / size[0] % size[1] : k;
                int first = Math.max(-reach, -at);
                int last = Math.min(reach, size[axis] - 1 - at);
                float sum = 0;
                for (int n = first; n <= last; n++) {
                    sum += kernel[n + reach] * from[v + n * step];
                }
                to[v] = sum;
            }
        });
        return to;
    }

    /**
     * Value and gradient at a point, by uniform cubic B-splines over the lattice values (which blurs a little more and has
     * a smooth gradient everywhere).
     *
     * @param into receives HU and its change per mm along x, y, z
     * @return false where the point or one of the 64 places round it is outside or invalid
     */
    boolean read(double x, double y, double z, double[] into) {
        double u = (x - corner[0]) / spacingMm;
        double v = (y - corner[1]) / spacingMm;
        double w = (z - corner[2]) / spacingMm;
        int i = (int) Math.floor(u) - 1;
        int j = (int) Math.floor(v) - 1;
        int k = (int) Math.floor(w) - 1;
        if (i < 0 || j < 0 || k < 0 || i + 3 >= size[0] || j + 3 >= size[1] || k + 3 >= size[2]) {
            return false;
        }
        double f = u - i - 1;
        double g = v - j - 1;
        double h = w - k - 1;
        double sum = 0;
        double alongX = 0;
        double alongY = 0;
        double alongZ = 0;
        for (int c = 0; c < 4; c++) {
            double plane = 0;
            double planeX = 0;
            double planeY = 0;
            for (int b = 0; b < 4; b++) {
                int at = i + size[0] * (j + b + size[1] * (k + c));
                double line = 0;
                double lineX = 0;
                for (int a = 0; a < 4; a++) {
                    line += spline(a, f) * hu[at + a];
                    lineX += slope(a, f) * hu[at + a];
                }
                plane += spline(b, g) * line;
                planeX += spline(b, g) * lineX;
                planeY += slope(b, g) * line;
            }
            sum += spline(c, h) * plane;
            alongX += spline(c, h) * planeX;
            alongY += spline(c, h) * planeY;
            alongZ += slope(c, h) * plane;
        }
        if (Double.isNaN(sum)) {
            return false;
        }
        into[0] = sum;
        into[1] = alongX / spacingMm;
        into[2] = alongY / spacingMm;
        into[3] = alongZ / spacingMm;
        return true;
    }

    /** The four uniform cubic B-splines at a fraction f of a cell. */
    private static double spline(int n, double f) {
        double e = 1 - f;
        return switch (n) {
            case 0 -> e * e * e / 6;
            case 1 -> (4 - 6 * f * f + 3 * f * f * f) / 6;
            case 2 -> (4 - 6 * e * e + 3 * e * e * e) / 6;
            default -> f * f * f / 6;
        };
    }

    /** Their slopes. */
    private static double slope(int n, double f) {
        double e = 1 - f;
        return switch (n) {
            case 0 -> -0.5 * e * e;
            case 1 -> f * (1.5 * f - 2);
            case 2 -> -e * (1.5 * e - 2);
            default -> 0.5 * f * f;
        };
    }
}
