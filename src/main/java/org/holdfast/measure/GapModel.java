package org.holdfast.measure;

import org.apache.commons.numbers.gamma.Erf;
import org.apache.commons.numbers.gamma.InverseErf;

/** A gap between two pieces of metal as a blurred scan shows it. */
final class GapModel {

    private static final double STEP_MM = 0.05;
    private static final double WIDEST_MM = 20;
    private static final double RESOLUTION_MM = 0.001;

    private GapModel() {}

    /**
     * HU on the way across a gap with parallel faces, blurred by a Gaussian.
     *
     * @param atMm distance from the gap's middle, normal to its faces
     * @param gapMm width, ≥ 0
     * @param sigmaMm blur, &gt; 0
     */
    static double hu(double atMm, double gapMm, double sigmaMm, double metalHu, double gapHu) {
        double root = sigmaMm * Math.sqrt(2);
        double open = 0.5 * (Erf.value((0.5 * gapMm - atMm) / root) - Erf.value((-0.5 * gapMm - atMm) / root));
        return metalHu - (metalHu - gapHu) * open;
    }

    /**
     * ∫ (ceiling − h) / (ceiling − h_gap) ds over the way where h lies under the ceiling, mm: what a clipped scan leaves of
     * a gap. Ascends with the gap.
     */
    static double clippedIntegralMm(double gapMm, double sigmaMm, double metalHu, double gapHu, double ceilingHu) {
        double reach = 0.5 * gapMm + 4 * sigmaMm;
        int steps = (int) Math.ceil(2 * reach / STEP_MM);
        double step = 2 * reach / steps;
        double sum = 0;
        for (int n = 0; n < steps; n++) {
            double hu = hu(-reach + (n + 0.5) * step, gapMm, sigmaMm, metalHu, gapHu);
            sum += step * Math.max(0, ceilingHu - hu) / (ceilingHu - gapHu);
        }
        return sum;
    }

    /** The gap that leaves so much on a clipped scan, mm; 0 for nothing left, at most 20. */
    static double gapOfClippedIntegralMm(
            double integralMm, double sigmaMm, double metalHu, double gapHu, double ceilingHu) {
        double low = 0;
        double high = WIDEST_MM;
        while (high - low > RESOLUTION_MM) {
            double middle = 0.5 * (low + high);
            if (clippedIntegralMm(middle, sigmaMm, metalHu, gapHu, ceilingHu) < integralMm) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return 0.5 * (low + high);
    }

    /** How far beyond its true end blurred metal crosses a level, mm: −σ Φ⁻¹((level − gap) / (metal − gap)); 0 at half. */
    static double shiftOfEndMm(double sigmaMm, double metalHu, double gapHu, double levelHu) {
        double share = (levelHu - gapHu) / (metalHu - gapHu);
        return -sigmaMm * Math.sqrt(2) * InverseErf.value(2 * share - 1);
    }
}
