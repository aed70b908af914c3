package org.holdfast.measure;

import org.holdfast.construct.Component;
import org.holdfast.construct.Material;
import org.holdfast.construct.PatchSample;
import org.holdfast.construct.Porous;

/**
 * What is known of the implant under a face: how deep its profile may be read and where its plateau lies.
 *
 * @param insideMm how far a profile is read into the implant, mm
 * @param plateauFromMm t at which the plateau begins (negative); above −1 the layer is too thin for a plateau
 * @param isPorousTitanium whether the guard of porous titanium applies
 * @param isSolidTitanium whether the guard of solid titanium applies
 */
record FaceLayer(double insideMm, double plateauFromMm, boolean isPorousTitanium, boolean isSolidTitanium) {

    /** Distance of the plateau from the porous layer's inner border, mm. */
    private static final double LAYER_MARGIN_MM = 0.5;

    private static final double MARCH_STEP_MM = 0.1;

    /**
     * The face of a component around some samples.
     *
     * @param component the implant
     * @param samples samples of the face; the thickness is the median under them
     */
    static FaceLayer of(Component component, java.util.List<PatchSample> samples, MeasurementSettings settings) {
        double[] thickness = samples.stream()
                .mapToDouble(s -> thicknessUnder(component, s, 2 * settings.profileInsideMm()))
                .toArray();
        double half = 0.5 * Quantiles.median(thickness);
        double inside = Math.min(settings.profileInsideMm(), half);
        double layer = component.porous().map(Porous::depthMm).orElse(Double.POSITIVE_INFINITY);
        double plateauFrom = -Math.min(inside, layer - LAYER_MARGIN_MM);
        boolean porous = component.porous().isPresent();
        boolean titanium =
                component.material() == Material.TITANIUM_POROUS || component.material() == Material.TITANIUM_SOLID;
        return new FaceLayer(inside, plateauFrom, titanium && porous, titanium && !porous);
    }

    /**
     * The guard beyond the edge, mm.
     *
     * @param voxelExtentMm extent of a voxel along the normal
     * @param isClipped whether the implant's plateau lies at the ceiling and its true HU is not known
     */
    double guardMm(double voxelExtentMm, boolean isClipped, MeasurementSettings settings) {
        if (!isClipped && isPorousTitanium) {
            return settings.guardPorousTitaniumMm();
        }
        if (!isClipped && isSolidTitanium) {
            return Math.max(settings.guardSolidTitaniumMm(), 2 * voxelExtentMm);
        }
        return Math.max(settings.guardOtherMm(), 3 * voxelExtentMm);
    }

    /** Thickness of the component under a sample, at most so many mm. */
    private static double thicknessUnder(Component component, PatchSample sample, double atMostMm) {
        double depth = MARCH_STEP_MM;
        while (depth < atMostMm
                && component.shape().signedDistanceMm(sample.point().along(sample.normal(), -depth)) <= 0) {
            depth += MARCH_STEP_MM;
        }
        return depth;
    }
}
