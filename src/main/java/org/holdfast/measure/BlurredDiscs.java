package org.holdfast.measure;

import java.util.Arrays;
import java.util.stream.IntStream;

/**
 * What the blur leaves of round bars: the share of a disc of radius R that is seen at a distance ρ from its centre, for a
 * table of directions, distances and radii. Zone, rim and bone round a screw are differences of such discs.
 *
 * <p>At a place (ρ, α from the major axis of the blur) the Gaussian is split in a tangential part t, of variance
 * σ<sub>t</sub>², and a radial part given t: share = E<sub>t</sub> Φ((√(R² − t²) − ρ − k t) / s). The mean over t is a
 * Gauss–Hermite sum of five points. Exact but for the disc's far side and for |t| &gt; R, both out of reach where
 * R ≥ 4 σ. Immutable.
 */
final class BlurredDiscs {

    static final double STEP_MM = 0.05;

    /** Directions from the major to the minor axis; the others follow by symmetry. */
    private static final int ANGLES = 13;

    // Source: Abramowitz & Stegun, Handbook of mathematical functions, table 25.10, n = 5; nodes · √2, weights / √π.
    private static final double[] NODES = {
        -2.8569700138728056, -1.355626179974266, 0, 1.355626179974266, 2.8569700138728056
    };
    private static final double[] WEIGHTS = {
        0.011257411327720683, 0.22207592200561266, 0.5333333333333333, 0.22207592200561266, 0.011257411327720683
    };
    /** Farther from the edge than this, in σ, the share is 0 or 1. */
    private static final double REACH = 6;

    private static final double CDF_REACH = 8;
    private static final double CDF_STEP = 1.0 / 1024;
    private static final double[] CDF = new double[(int) (2 * CDF_REACH / CDF_STEP) + 1];

    static {
        Arrays.setAll(CDF, n -> ProfileModel.normalCdf(n * CDF_STEP - CDF_REACH));
    }

    private final CrossSectionBlur blur;
    private final double fromRhoMm;
    private final double fromRadiusMm;
    private final int radii;
    /** [angle][rho][radius] */
    private final float[][][] shares;

    /**
     * Fills the table, on all cores.
     *
     * @param fromRhoMm smallest distance from the centre, mm, above 0
     * @param toRhoMm largest
     * @param fromRadiusMm smallest radius, mm
     * @param toRadiusMm largest
     */
    BlurredDiscs(CrossSectionBlur blur, double fromRhoMm, double toRhoMm, double fromRadiusMm, double toRadiusMm) {
        this.blur = blur;
        this.fromRhoMm = fromRhoMm;
        this.fromRadiusMm = fromRadiusMm;
        this.radii = (int) Math.ceil((toRadiusMm - fromRadiusMm) / STEP_MM - 1e-9) + 1;
        int rhos = (int) Math.ceil((toRhoMm - fromRhoMm) / STEP_MM - 1e-9) + 2;
        this.shares = new float[ANGLES][rhos][radii];
        IntStream.range(0, ANGLES).parallel().forEach(this::fill);
    }

    private void fill(int angle) {
        double alpha = 0.5 * Math.PI * angle / (ANGLES - 1);
        for (int rho = 0; rho < shares[angle].length; rho++) {
            for (int radius = 0; radius < radii; radius++) {
                shares[angle][rho][radius] = (float) share(blur, alpha, fromRhoMm + STEP_MM * rho, radiusMm(radius));
            }
        }
    }

    /** Number of radii, {@link #STEP_MM} apart. */
    int radii() {
        return radii;
    }

    double radiusMm(int radius) {
        return fromRadiusMm + STEP_MM * radius;
    }

    /**
     * Adds what is seen at a place of discs of all radii.
     *
     * @param angleRad direction from the part's zero direction
     * @param rhoMm distance from the centre, within the table
     * @param sums one a radius; written
     */
    void addTo(float[] sums, double angleRad, double rhoMm) {
        double cosine = Math.min(1, Math.abs(Math.cos(angleRad - blur.majorRad())));
        double at = Math.acos(cosine) / (0.5 * Math.PI) * (ANGLES - 1);
        int angle = Math.min(ANGLES - 2, (int) at);
        double turned = at - angle;
        double place = Math.max(0, (rhoMm - fromRhoMm) / STEP_MM);
        int rho = Math.min(shares[0].length - 2, (int) place);
        double beyond = place - rho;
        double a = (1 - turned) * (1 - beyond);
        double b = (1 - turned) * beyond;
        double c = turned * (1 - beyond);
        double d = turned * beyond;
        float[] inner = shares[angle][rho];
        float[] outer = shares[angle][rho + 1];
        float[] innerNext = shares[angle + 1][rho];
        float[] outerNext = shares[angle + 1][rho + 1];
        for (int n = 0; n < radii; n++) {
            sums[n] += (float) (a * inner[n] + b * outer[n] + c * innerNext[n] + d * outerNext[n]);
        }
    }

    /**
     * The share of a disc that is seen at one place.
     *
     * @param alphaRad direction from the blur's major axis
     */
    static double share(CrossSectionBlur blur, double alphaRad, double rhoMm, double radiusMm) {
        double cosine = Math.cos(alphaRad);
        double sine = Math.sin(alphaRad);
        double major = blur.majorMm() * blur.majorMm();
        double minor = blur.minorMm() * blur.minorMm();
        double radial = major * cosine * cosine + minor * sine * sine;
        double tangential = major * sine * sine + minor * cosine * cosine;
        double both = (minor - major) * sine * cosine;
        double k = both / tangential;
        double s = Math.sqrt(radial - both * k);
        if (Math.abs(radiusMm - rhoMm) > REACH * blur.majorMm() + major / Math.max(0.5, rhoMm)) {
            return radiusMm > rhoMm ? 1 : 0;
        }
        double share = 0;
        for (int n = 0; n < NODES.length; n++) {
            double t = NODES[n] * Math.sqrt(tangential);
            double surface = Math.sqrt(Math.max(0, radiusMm * radiusMm - t * t));
            share += WEIGHTS[n] * normalCdf((surface - rhoMm - k * t) / s);
        }
        return share;
    }

    /** Φ from a table, linear between its places; exact to 4e-8. */
    private static double normalCdf(double x) {
        double place = (x + CDF_REACH) / CDF_STEP;
        if (place <= 0) {
            return 0;
        }
        int below = (int) place;
        return below >= CDF.length - 1 ? 1 : CDF[below] + (place - below) * (CDF[below + 1] - CDF[below]);
    }
}
