package org.holdfast.measure;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.RodShape;
import org.holdfast.construct.ScrewShape;
import org.holdfast.construct.Shape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.progress.Progress;
import org.holdfast.registration.SurfacePoints;
import org.holdfast.volume.HuVolume;

/**
 * Which of the reference exam's metal surface belongs to which laid-out part: a point belongs to the part whose surface is
 * nearest, within 1.5 mm, where soft tissue or bone and no other metal lies outside it. Taken from the exam itself and not
 * from the layout, so that a layout that is half a millimetre off does no harm.
 */
final class PartSurfaces {

    /** A layout may lie so far from the metal that is meant, mm. */
    private static final double LAYOUT_ERROR_MM = 1.5;
    /** What lies outside a point is looked at from here to there, mm: beyond the edge's blur, within reach of an edge. */
    private static final double OUTSIDE_FROM_MM = 1.5;

    private static final double OUTSIDE_TO_MM = 3.5;
    private static final double OUTSIDE_STEP_MM = 0.5;
    /** A part is told by at most so many points: more no longer make it better known. */
    private static final int POINTS = 2500;

    private static final double STEP_MM = 0.05;
    /** Cosine between the shape's normal and the image's from which both mean the same face. */
    private static final double SAME_FACE = 0.7;
    /** With fewer points of the core's surface, that of the layer is taken. */
    private static final int FEWEST_OF_CORE = 500;

    /**
     * The surface of a part on the reference exam.
     *
     * @param outer what bone and soft tissue see
     * @param exact what its pose is read from: of a part with a porous layer the surface of the solid core under it, where
     *     the exam shows one (bone that grows against the outer face, or leaves it, moves that face's edge by up to 0.15
     *     mm and the core's hardly at all), else the outer one
     */
    record Surface(SurfacePoints outer, SurfacePoints exact) {}

    private final List<Component> parts;
    private final HuVolume reference;
    private final double surfaceHu;

    private PartSurfaces(List<Component> parts, HuVolume reference, double surfaceHu) {
        this.parts = parts;
        this.reference = reference;
        this.surfaceHu = surfaceHu;
    }

    /** The parts with a metal edge whose surface can be computed. */
    static List<Component> measurable(Construct construct) {
        return construct.components().stream()
                .filter(part -> part.material().hasMetalEdge() && part.shape().hasDistance())
                .toList();
    }

    /**
     * The surface of each part that has one, by the part's id, in the construct's order; a part of which nothing is seen
     * has no points.
     *
     * @param metal the metal's surface on the reference exam
     * @param surfaceHu its level, HU
     */
    static Map<String, Surface> of(
            Construct construct, HuVolume reference, SurfacePoints metal, double surfaceHu, Progress progress) {
        PartSurfaces surfaces = new PartSurfaces(measurable(construct), reference, surfaceHu);
        Map<String, Surface> byPart = new LinkedHashMap<>();
        for (Component part : surfaces.parts) {
            progress.stopIfCancelled();
            SurfacePoints outer = surfaces.free(part, metal);
            SurfacePoints core = part.porous().isPresent() ? new PorousCore(part, reference).surface(progress) : outer;
            byPart.put(part.id(), new Surface(outer, core.size() >= FEWEST_OF_CORE ? core.thinned(POINTS) : outer));
        }
        return byPart;
    }

    private SurfacePoints free(Component part, SurfacePoints metal) {
        SurfacePoints own = metal.inside(p -> nearest(p) == part)
                .thinned(4 * POINTS)
                .where(this::isFree)
                .thinned(POINTS);
        boolean isRound = part.shape() instanceof ScrewShape || part.shape() instanceof RodShape;
        return isRound && own.size() > 0 ? withNormalsOf(part.shape(), own) : own;
    }

    /**
     * The points with the laid-out shape's normals: those of the image err by ten degrees and more where the scale is
     * clipped, and would make a round part seem to show its spin.
     */
    private static SurfacePoints withNormalsOf(Shape shape, SurfacePoints points) {
        List<PatientPoint> at = new ArrayList<>();
        List<PatientVector> normals = new ArrayList<>();
        for (int n = 0; n < points.size(); n++) {
            PatientPoint p = points.point(n);
            PatientVector steepest = new PatientVector(
                    rise(shape, p, PatientVector.LEFT),
                    rise(shape, p, PatientVector.POSTERIOR),
                    rise(shape, p, PatientVector.CRANIAL));
            if (steepest.norm() > 0.5 && steepest.unit().dot(points.normal(n)) > SAME_FACE) {
                at.add(p);
                normals.add(steepest);
            }
        }
        return at.isEmpty() ? points : SurfacePoints.of(at, normals, points.totalAreaMm2() / at.size());
    }

    /** Rise of the distance from a shape along a direction, per mm. */
    private static double rise(Shape shape, PatientPoint p, PatientVector direction) {
        return (shape.signedDistanceMm(p.along(direction, STEP_MM))
                        - shape.signedDistanceMm(p.along(direction, -STEP_MM)))
                / (2 * STEP_MM);
    }

    /** The part on whose surface a point lies; null for none. */
    private Component nearest(PatientPoint p) {
        Component best = null;
        double bestMm = LAYOUT_ERROR_MM;
        for (Component part : parts) {
            double mm = Math.abs(part.shape().signedDistanceMm(p));
            if (mm < bestMm) {
                bestMm = mm;
                best = part;
            }
        }
        return best;
    }

    private boolean isFree(PatientPoint p, PatientVector normal) {
        List<PatientPoint> outside = new ArrayList<>();
        for (double t = OUTSIDE_FROM_MM; t <= OUTSIDE_TO_MM; t += OUTSIDE_STEP_MM) {
            outside.add(p.along(normal, t));
        }
        return outside.stream().allMatch(q -> reference.sample(q) < surfaceHu);
    }
}
