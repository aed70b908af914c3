package org.holdfast.phantom;

import java.util.function.DoubleUnaryOperator;

/**
 * Everything below a stepped surface over a plane: t &lt; height(u, v), the height constant in each of the areas that lines
 * along u and v cut out; the outermost areas go on for ever. Bone fronts at different distance from a face are made of it.
 */
public final class SteppedFront implements Solid {

    private final FaceFrame frame;
    private final double[] uLines;
    private final double[] vLines;
    private final double[][] heights;
    private final double lowest;
    private final double highest;

    /**
     * @param frame where u, v and t lie; its extent plays no part
     * @param uLinesMm ascending lines of constant u between areas, mm; may be empty
     * @param vLinesMm the same along v
     * @param heightsMm height of each area, mm, [lines along u + 1][lines along v + 1]
     */
    SteppedFront(FaceFrame frame, double[] uLinesMm, double[] vLinesMm, double[][] heightsMm) {
        this.frame = frame;
        this.uLines = uLinesMm.clone();
        this.vLines = vLinesMm.clone();
        this.heights = heightsMm.clone();
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (double[] row : heightsMm) {
            for (double h : row) {
                low = Math.min(low, h);
                high = Math.max(high, h);
            }
        }
        this.lowest = low;
        this.highest = high;
    }

    /**
     * The front of the bone opposite a face, as everything on the face's side of it.
     *
     * @param pattern gap widths; outside the face the outermost areas go on
     * @param height height of the front as a function of the gap width, mm
     */
    public static SteppedFront over(FaceFrame frame, GapPattern pattern, DoubleUnaryOperator height) {
        double[][] heights = pattern.gapsMm();
        for (double[] row : heights) {
            for (int n = 0; n < row.length; n++) {
                row[n] = height.applyAsDouble(row[n]);
            }
        }
        return new SteppedFront(frame, inner(pattern.uLinesMm()), inner(pattern.vLinesMm()), heights);
    }

    /** Below the surface exact or a bound: the lesser of the way to the surface and the way to the next area. */
    @Override
    public double signedDistanceMm(double x, double y, double z) {
        double t = along(frame.normal(), x, y, z);
        if (t >= highest || t <= lowest) {
            return t >= highest ? t - highest : t - lowest;
        }
        double u = along(frame.u(), x, y, z);
        double v = along(frame.v(), x, y, z);
        double rise = t - heights[area(uLines, u)][area(vLines, v)];
        double step = Math.min(nearest(uLines, u), nearest(vLines, v));
        return rise > 0 ? Math.min(rise, step) : Math.max(rise, -step);
    }

    /** Exact: a sum over areas of products of Gaussian steps; the inset lowers the surface only. */
    @Override
    public double insideShare(double x, double y, double z, double blurMm, double insetMm) {
        double t = along(frame.normal(), x, y, z) + insetMm;
        double u = along(frame.u(), x, y, z);
        double v = along(frame.v(), x, y, z);
        double sum = 0;
        double reach = BlurReach.DEVIATIONS * blurMm;
        int lastU = area(uLines, u + reach);
        int lastV = area(vLines, v + reach);
        int firstV = area(vLines, v - reach);
        for (int a = area(uLines, u - reach); a <= lastU; a++) {
            double shareU = share(uLines, a, u, blurMm);
            for (int b = firstV; b <= lastV; b++) {
                sum += shareU * share(vLines, b, v, blurMm) * GaussianStep.below((heights[a][b] - t) / blurMm);
            }
        }
        return sum;
    }

    private double along(org.holdfast.geometry.PatientVector axis, double x, double y, double z) {
        return (x - frame.centre().x()) * axis.x()
                + (y - frame.centre().y()) * axis.y()
                + (z - frame.centre().z()) * axis.z();
    }

    private static double share(double[] lines, int area, double at, double blurMm) {
        double below = area == lines.length ? 1 : GaussianStep.below((lines[area] - at) / blurMm);
        return area == 0 ? below : below - GaussianStep.below((lines[area - 1] - at) / blurMm);
    }

    private static int area(double[] lines, double at) {
        int n = 0;
        while (n < lines.length && at >= lines[n]) {
            n++;
        }
        return n;
    }

    private static double nearest(double[] lines, double at) {
        double best = Double.POSITIVE_INFINITY;
        for (double line : lines) {
            best = Math.min(best, Math.abs(at - line));
        }
        return best;
    }

    private static double[] inner(double[] lines) {
        return java.util.Arrays.copyOfRange(lines, 1, lines.length - 1);
    }
}
