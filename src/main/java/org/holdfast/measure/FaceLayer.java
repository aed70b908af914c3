package org.holdfast.measure;

import java.util.Optional;
import org.holdfast.construct.Component;
import org.holdfast.construct.Material;
import org.holdfast.construct.PatchSample;
import org.holdfast.construct.Porous;

/**
 * What is known of the implant under a face: how deep its profile may be read and where its plateau lies.
 *
 * @param insideMm how far a profile is read into the implant, mm; 0 where the implant is not under the face
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
     * @param samples samples of the face, on the component's surface or as near to it as an edge is looked for; the
     *     thickness is the median under them
     */
    static FaceLayer of(Component component, java.util.List<PatchSample> samples, MeasurementSettings settings) {
        double[] thickness = samples.stream()
                .mapToDouble(s -> thicknessUnder(component, s, settings.edgeSearchMm(), 2 * settings.profileInsideMm()))
                .toArray();
        double half = 0.5 * Quantiles.median(thickness);
        double inside = Math.min(settings.profileInsideMm(), half);
        double layer = component.porous().map(Porous::depthMm).orElse(Double.POSITIVE_INFINITY);
        double plateauFrom = -Math.min(inside, layer - LAYER_MARGIN_MM);
        return new FaceLayer(
                inside,
                plateauFrom,
                component.material() == Material.TITANIUM_POROUS,
                component.material() == Material.TITANIUM_SOLID);
    }

    /** Why no plateau can be read under any sample of the face; empty if one can. */
    Optional<Obstacle> obstacle() {
        if (insideMm == 0) {
            return Optional.of(Obstacle.OFF_COMPONENT);
        }
        return plateauFromMm > ImplantEdge.PLATEAU_TO_MM ? Optional.of(Obstacle.LAYER_TOO_THIN) : Optional.empty();
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

    /**
     * Thickness of the component under a sample, at most so many mm; 0 where the component does not begin within the
     * search, as of a face that is laid out elsewhere or looks the wrong way.
     */
    private static double thicknessUnder(Component component, PatchSample sample, double searchMm, double atMostMm) {
        double depth = MARCH_STEP_MM;
        while (!isInside(component, sample, depth)) {
            depth += MARCH_STEP_MM;
            if (depth > searchMm) {
                return 0;
            }
        }
        double surface = depth - MARCH_STEP_MM;
        while (depth < surface + atMostMm && isInside(component, sample, depth)) {
            depth += MARCH_STEP_MM;
        }
        return depth - surface;
    }

    private static boolean isInside(Component component, PatchSample sample, double depthMm) {
        return component.shape().signedDistanceMm(sample.point().along(sample.normal(), -depthMm)) <= 0;
    }
}
