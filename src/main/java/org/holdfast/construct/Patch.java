package org.holdfast.construct;

import java.util.List;

/** A piece of a component's surface that faces bone. */
public sealed interface Patch permits PlanePatch, CylinderPatch, SpherePatch, SurfacePatch {

    /**
     * Cuts the patch into cells of equal area (a piece of a mesh: of nearly equal width), about as wide as they are long, and
     * gives the middle of each.
     *
     * <p>The cells cover the patch without gap or overlap: their areas add up to {@link #areaMm2()}. The order is fixed
     * by the patch and the spacing alone. However wide the spacing, at least one cell is given.
     *
     * @param spacingMm wished distance between neighbouring samples, mm, above 0; the true one differs so that whole
     *     cells fit
     */
    List<PatchSample> samples(double spacingMm);

    /** Area of the patch, mm²; in closed form but for a piece of a mesh. */
    double areaMm2();
}
