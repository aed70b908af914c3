package org.holdfast.measure;

import java.util.Optional;

/**
 * A straight line through the centroids of a stretch of a part, as it lies across the laid-out line. Immutable.
 *
 * @param atMm middle of the stretch along the laid-out line
 * @param uMm place there
 * @param vMm the same
 * @param slopeU du/ds, mm a mm
 * @param slopeV dv/ds
 * @param slopeError standard error of either slope
 */
record SideFit(double atMm, double uMm, double vMm, double slopeU, double slopeV, double slopeError) {

    private static final int FEWEST = 6;
    /** Neighbouring stations share their voxels: so many mm of the part count as one independent place. */
    private static final double INDEPENDENT_MM = 1;

    private static final double LEAST_SHARE = 0.7;

    /**
     * Fits the usable stations within [first, last] by least squares; less the reference's places where there are any.
     *
     * @param referenceOrNull the part on the reference exam; null to fit the places themselves
     * @param isUsable stations that count
     * @return empty where fewer than six stations, or less than 0.7 of the stretch, can be used
     */
    static Optional<SideFit> of(PartTrack track, PartTrack referenceOrNull, boolean[] isUsable, int first, int last) {
        int from = Math.max(0, first);
        int to = Math.min(track.size() - 1, last);
        double count = 0;
        double s = 0;
        double ss = 0;
        double u = 0;
        double v = 0;
        double su = 0;
        double sv = 0;
        double squares = 0;
        for (int n = from; n <= to; n++) {
            if (!isUsable[n]) {
                continue;
            }
            double at =
                    track.axis().station(n).atMm() - track.axis().station(from).atMm();
            double du = track.uMm()[n]
                    - (referenceOrNull == null ? 0 : referenceOrNull.uMm()[n]);
            double dv = track.vMm()[n]
                    - (referenceOrNull == null ? 0 : referenceOrNull.vMm()[n]);
            count++;
            s += at;
            ss += at * at;
            u += du;
            v += dv;
            su += at * du;
            sv += at * dv;
            squares += du * du + dv * dv;
        }
        if (count < FEWEST || count < LEAST_SHARE * (last - first + 1)) {
            return Optional.empty();
        }
        double middle = s / count;
        double spread = ss - s * middle;
        double slopeU = (su - middle * u) / spread;
        double slopeV = (sv - middle * v) / spread;
        double left = squares - (u * u + v * v) / count - (slopeU * slopeU + slopeV * slopeV) * spread;
        double variance = Math.max(0, left) / (2 * (count - 2));
        double together = Math.max(1, INDEPENDENT_MM / track.axis().stepMm());
        return Optional.of(new SideFit(
                track.axis().station(from).atMm() + middle,
                u / count,
                v / count,
                slopeU,
                slopeV,
                Math.sqrt(variance * together / spread)));
    }

    double uAt(double at) {
        return uMm + slopeU * (at - atMm);
    }

    double vAt(double at) {
        return vMm + slopeV * (at - atMm);
    }

    /** Distance of the two lines at a place along the part, mm. */
    double stepMm(SideFit other, double at) {
        return Math.hypot(other.uAt(at) - uAt(at), other.vAt(at) - vAt(at));
    }

    /** Angle between the two lines, degrees; both hardly turned against the laid-out line. */
    double angleDeg(SideFit other) {
        return Math.toDegrees(Math.atan(Math.hypot(other.slopeU - slopeU, other.slopeV - slopeV)));
    }

    /** Standard error of the angle to another line, degrees. */
    double angleErrorDeg(SideFit other) {
        return Math.toDegrees(Math.hypot(slopeError, other.slopeError));
    }
}
