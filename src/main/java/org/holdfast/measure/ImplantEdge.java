package org.holdfast.measure;

import org.apache.commons.numbers.gamma.InverseErfc;

/**
 * Where the implant ends along a profile: the half-maximum against its own plateau.
 *
 * @param tMm place of the edge; NaN if there is none
 * @param plateauHu median HU of the implant under the face; NaN if not read
 * @param isClipped whether the plateau lies at the ceiling of the scale
 * @param obstacle why there is no edge; null if there is one
 */
record ImplantEdge(double tMm, double plateauHu, boolean isClipped, Obstacle obstacle) {

    /** HU within which a plateau counts as lying at the ceiling: one step of an extended scale. */
    private static final double CEILING_SLACK_HU = 10;
    /** Where the tissue outside is read to set the half-maximum, mm beyond the patch. */
    private static final double OUTSIDE_FROM_MM = 2;

    private static final double OUTSIDE_TO_MM = 4;
    /** Nearer to the face than this the plateau is blurred with what lies outside. */
    static final double PLATEAU_TO_MM = -1;

    /**
     * @param profile HU along the normal
     * @param face facts of the implant's face
     * @param ceilingHu HU of the scale's ceiling, NaN if it is not clipped
     * @param sigmaMm blur along the normal, for the shift of a clipped edge
     */
    static ImplantEdge find(
            Profile profile, FaceLayer face, double ceilingHu, double sigmaMm, MeasurementSettings settings) {
        if (face.obstacle().isPresent()) {
            return none(Double.NaN, face.obstacle().get());
        }
        double plateau = profile.median(face.plateauFromMm(), PLATEAU_TO_MM);
        double outside = profile.median(OUTSIDE_FROM_MM, OUTSIDE_TO_MM);
        if (Double.isNaN(plateau) || Double.isNaN(outside)) {
            return none(plateau, Obstacle.OUTSIDE_IMAGE);
        }
        if (plateau < settings.implantMinHu()) {
            return none(plateau, Obstacle.NO_METAL);
        }
        boolean clipped = plateau >= ceilingHu - CEILING_SLACK_HU;
        double level = clipped ? ceilingHu - settings.clippedEdgeHu() : 0.5 * (plateau + outside);
        double crossing = outermostDownwardCrossing(profile, level, settings.edgeSearchMm());
        if (Double.isNaN(crossing)) {
            return none(plateau, Obstacle.NO_EDGE);
        }
        double metal = settings.knownMetalHu();
        if (clipped && metal > level) {
            crossing -= sigmaMm * normalQuantile((metal - level) / (metal - outside));
        }
        return new ImplantEdge(crossing, plateau, clipped, null);
    }

    /** The outermost place within ± search of the patch where HU fall through a level; NaN if there is none. */
    private static double outermostDownwardCrossing(Profile profile, double level, double searchMm) {
        for (int n = profile.size() - 2; n >= 0; n--) {
            double t = profile.tMm(n);
            if (t + profile.stepMm() > searchMm + 1e-9) {
                continue;
            }
            if (t < -searchMm - 1e-9) {
                break;
            }
            double inner = profile.value(n);
            double outer = profile.value(n + 1);
            if (inner >= level && outer < level) {
                return t + profile.stepMm() * (inner - level) / (inner - outer);
            }
        }
        return Double.NaN;
    }

    /** Φ⁻¹, the quantile function of the standard normal distribution. */
    private static double normalQuantile(double probability) {
        return -Math.sqrt(2) * InverseErfc.value(2 * probability);
    }

    private static ImplantEdge none(double plateauHu, Obstacle obstacle) {
        return new ImplantEdge(Double.NaN, plateauHu, false, obstacle);
    }
}
