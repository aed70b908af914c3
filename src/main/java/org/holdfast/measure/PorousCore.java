package org.holdfast.measure;

import java.util.ArrayList;
import java.util.List;
import org.holdfast.construct.Component;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.progress.Progress;
import org.holdfast.registration.MetalSurface;
import org.holdfast.registration.SurfacePoints;
import org.holdfast.volume.HuVolume;

/**
 * The surface of the solid core under a part's porous layer, on one exam: the level half-way between the layer's and the
 * core's own HU, near the depth that the construct gives for the layer.
 */
final class PorousCore {

    /** The core's surface is looked for so far about the layer's depth, mm. */
    private static final double ABOUT_MM = 1;
    /** HU of layer and core are read so far from their borders, mm. */
    private static final double CLEAR_MM = 1;
    /** With a smaller step there is no surface to see. */
    private static final double LEAST_STEP_HU = 700;

    private static final double AT_CEILING_HU = 60;

    private static final double NEAR_SURFACE_HU = 1000;

    private final Component part;
    private final HuVolume volume;
    private final double depthMm;

    PorousCore(Component part, HuVolume volume) {
        this.part = part;
        this.volume = volume;
        this.depthMm = part.porous().orElseThrow().depthMm();
    }

    /** The surface with normals out of the core; no points where the exam shows none. */
    SurfacePoints surface(Progress progress) {
        // The layer's own border tells where the part lies; its HU and the core's are read along its normals.
        SurfacePoints outer = MetalSurface.of(
                        volume, NEAR_SURFACE_HU, p -> Math.abs(part.shape().signedDistanceMm(p)) < ABOUT_MM, progress)
                .thinned(500);
        double layerHu = median(outer, 0.5 * depthMm);
        double coreHu = median(outer, depthMm + CLEAR_MM + 0.5);
        // Of a clipped core only the foot of its edge is left.
        boolean isClipped = coreHu >= volume.statistics().ceilingHu().orElse(Double.POSITIVE_INFINITY) - AT_CEILING_HU;
        if (isClipped || !(coreHu - layerHu >= LEAST_STEP_HU)) {
            return outer.inside(p -> false);
        }
        return MetalSurface.of(
                volume,
                0.5 * (layerHu + coreHu),
                p -> Math.abs(part.shape().signedDistanceMm(p) + depthMm) < ABOUT_MM,
                progress);
    }

    /** Median HU so far under the points; NaN where none is seen. */
    private double median(SurfacePoints outer, double underMm) {
        List<Double> values = new ArrayList<>();
        for (int n = 0; n < outer.size(); n++) {
            PatientPoint p = outer.point(n).along(outer.normal(n), -underMm);
            double hu = volume.sample(p);
            if (!Double.isNaN(hu)) {
                values.add(hu);
            }
        }
        values.sort(null);
        return values.isEmpty() ? Double.NaN : values.get(values.size() / 2);
    }
}
