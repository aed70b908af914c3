package org.holdfast.phantom;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.RigidTransform;

/**
 * Bodies painted one over the other on a background: where two overlap, the later one is seen. Boundaries therefore need
 * never coincide: bone is painted first, the fluid of a gap over it and on under the implant, the implant last.
 * Immutable and safe to share between threads.
 *
 * @param backgroundHu HU where no body lies
 * @param bodies in painting order
 * @param placement from the scene's own space to patient space of the exam
 */
public record Scene(double backgroundHu, List<Body> bodies, RigidTransform placement) {

    public Scene {
        Require.finite(backgroundHu, "backgroundHu");
        bodies = List.copyOf(bodies);
    }

    /** An empty scene. */
    public static Scene of(double backgroundHu) {
        return new Scene(backgroundHu, List.of(), RigidTransform.IDENTITY);
    }

    /** This scene with one more body painted over it; the body is given in the scene's own space. */
    public Scene with(Body body) {
        List<Body> more = new ArrayList<>(bodies);
        more.add(body);
        return new Scene(backgroundHu, more, placement);
    }

    /** The whole scene in another place. */
    public Scene moved(RigidTransform hereToThere) {
        return new Scene(backgroundHu, bodies, placement.then(hereToThere));
    }

    /** The body seen at a point of patient space, without blur; empty where the background is. */
    public Optional<Body> bodyAt(PatientPoint p) {
        PatientPoint own = placement.inverse().apply(p);
        for (int n = bodies.size() - 1; n >= 0; n--) {
            if (bodies.get(n).solid().contains(own)) {
                return Optional.of(bodies.get(n));
            }
        }
        return Optional.empty();
    }

    /**
     * HU at a point of patient space, without blur and noise. The border of a shell is placed by the solid's signed
     * distance, so where that is only a bound the shell may be too thick by the bound's error.
     */
    public double huAt(PatientPoint p) {
        PatientPoint own = placement.inverse().apply(p);
        return bodyAt(p).map(b -> b.huAtDepth(b.solid().signedDistanceMm(own))).orElse(backgroundHu);
    }
}
