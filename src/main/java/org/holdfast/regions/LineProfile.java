package org.holdfast.regions;

import org.holdfast.geometry.PatientPoint;
import org.holdfast.volume.Cut;

/**
 * HU along a straight line on a cut, at even steps of at most half a pixel, both ends included. Immutable.
 *
 * <p>Between pixel centres HU are interpolated bilinearly. Where the line leaves the picture, or a pixel that counts
 * (weight above 0) has no HU, there is no value: NaN, as in the cut itself.
 */
public final class LineProfile {

    private static final double STEP_PIXELS = 0.5;
    /** Rounding slack in pixels: a place computed to lie on a pixel's centre takes that pixel alone. */
    private static final double SLACK = 1e-9;

    private final double lengthMm;
    private final double[] hu;

    private LineProfile(double lengthMm, double[] hu) {
        this.lengthMm = lengthMm;
        this.hu = hu;
    }

    /**
     * Reads the HU along a line.
     *
     * @param cut the HU
     * @param from start, in pixel coordinates of the cut
     * @param to end; apart from the start
     */
    public static LineProfile of(Cut cut, PixelPoint from, PixelPoint to) {
        double pixels = Math.hypot(to.x() - from.x(), to.y() - from.y());
        if (!(pixels > 0)) {
            throw new IllegalArgumentException("a line needs two ends, both lie at " + from);
        }
        int intervals = Math.toIntExact((long) Math.ceil(pixels / STEP_PIXELS));
        double[] hu = new double[intervals + 1];
        for (int n = 0; n <= intervals; n++) {
            double share = (double) n / intervals;
            hu[n] = interpolated(cut, between(from.x(), to.x(), share), between(from.y(), to.y(), share));
        }
        PatientPoint start = cut.plane().pixelToPatient(from.x(), from.y());
        return new LineProfile(start.distanceTo(cut.plane().pixelToPatient(to.x(), to.y())), hu);
    }

    private static double between(double from, double to, double share) {
        return (1 - share) * from + share * to;
    }

    private static double interpolated(Cut cut, double x, double y) {
        double lastX = cut.width() - 1;
        double lastY = cut.height() - 1;
        if (!(x >= -SLACK && y >= -SLACK && x <= lastX + SLACK && y <= lastY + SLACK)) {
            return Double.NaN;
        }
        int left = (int) Math.max(0, Math.min(x, lastX));
        int top = (int) Math.max(0, Math.min(y, lastY));
        double sum = 0;
        double weights = 0;
        for (int corner = 0; corner < 4; corner++) {
            int atX = left + (corner & 1);
            int atY = top + (corner >> 1);
            double weight = (1 - Math.abs(x - atX)) * (1 - Math.abs(y - atY));
            if (weight > SLACK) {
                sum += weight * cut.hu(atX, atY);
                weights += weight;
            }
        }
        return sum / weights;
    }

    /** Length of the line, mm. */
    public double lengthMm() {
        return lengthMm;
    }

    /** Number of places along the line, at least 2. */
    public int size() {
        return hu.length;
    }

    /** Distance of a place from the start, mm; places count from 0. */
    public double atMm(int place) {
        return lengthMm * place / (hu.length - 1);
    }

    /** HU at a place, NaN where there is no value. */
    public double hu(int place) {
        return hu[place];
    }
}
