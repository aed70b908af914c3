package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.VolumeGrid;
import org.junit.jupiter.api.Test;

class BlurredDiscsTest {

    /** 0.0004 of a step of 7500 HU is 3 HU, well under noise. */
    private static final double SHARE = 4e-4;

    private static final CrossSectionBlur BLUR = new CrossSectionBlur(0.3, 0.55, 0.35);

    @Test
    void shareIsTheGaussianOverTheDisc() {
        for (double alpha : new double[] {0, 0.4, 0.9, 1.3, Math.PI / 2}) {
            for (double rho : new double[] {2.2, 2.75, 3.2, 4}) {
                assertEquals(
                        byTwoSums(BLUR, alpha, rho, 2.75),
                        BlurredDiscs.share(BLUR, alpha, rho, 2.75),
                        SHARE,
                        "alpha " + alpha + ", rho " + rho);
            }
        }
    }

    @Test
    void sumsOverPlacesFollowTheShare() {
        BlurredDiscs discs = new BlurredDiscs(BLUR, 1.5, 8, 1.5, 8);
        float[] sums = new float[discs.radii()];
        discs.addTo(sums, 1.234, 3.021);
        discs.addTo(sums, 4.0, 2.512);
        for (int n = 10; n < 60; n += 7) {
            double expected = BlurredDiscs.share(BLUR, 1.234 - 0.3, 3.021, discs.radiusMm(n))
                    + BlurredDiscs.share(BLUR, 4.0 - 0.3, 2.512, discs.radiusMm(n));
            assertEquals(expected, sums[n], 3e-3, "radius " + discs.radiusMm(n));
        }
    }

    @Test
    void projectsTheSpreadAcrossAPartAlongARow() {
        VolumeGrid grid = new VolumeGrid(
                4,
                4,
                0.6,
                0.6,
                PatientVector.LEFT,
                PatientVector.POSTERIOR,
                java.util.List.of(PatientPoint.ORIGIN, new PatientPoint(0, 0, 1.2)));
        CrossSectionBlur blur = CrossSectionBlur.of(
                new PointSpreadEstimate(0.3, 0.5, PointSpreadEstimate.Source.GIVEN),
                grid,
                PatientVector.CRANIAL,
                PatientVector.POSTERIOR);
        // By hand: along the table √(0.25 + 1.44/12) = √0.37, in plane √(0.09 + 0.36/12) = √0.12; wider along the
        // table.
        assertEquals(0.608276, blur.majorMm(), 1e-6);
        assertEquals(0.346410, blur.minorMm(), 1e-6);
        assertEquals(0, blur.majorRad(), 1e-12);
    }

    /** The Gaussian summed over a fine lattice of the disc, by the disc's own definition. */
    private static double byTwoSums(CrossSectionBlur blur, double alpha, double rho, double radius) {
        double x0 = rho * Math.cos(alpha);
        double y0 = rho * Math.sin(alpha);
        double step = 0.001;
        double sum = 0;
        for (double x = -radius + 0.5 * step; x < radius; x += step) {
            double dx = (x - x0) / blur.majorMm();
            double half = Math.sqrt(Math.max(0, radius * radius - x * x));
            double chord = ProfileModel.normalCdf((half - y0) / blur.minorMm())
                    - ProfileModel.normalCdf((-half - y0) / blur.minorMm());
            sum += step * Math.exp(-0.5 * dx * dx) / (blur.majorMm() * Math.sqrt(2 * Math.PI)) * chord;
        }
        return sum;
    }
}
