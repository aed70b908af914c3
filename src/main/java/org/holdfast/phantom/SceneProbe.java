package org.holdfast.phantom;

import java.util.OptionalDouble;
import java.util.function.Predicate;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/** Reads distances out of a scene, so that truth comes from what was scanned and is not typed beside it. */
final class SceneProbe {

    /** Step of the walk, mm; thinner bodies may be stepped over. */
    private static final double STEP_MM = 0.05;
    /** Halvings of a step: the border is found to 1e-8 mm. */
    private static final int HALVINGS = 24;

    private SceneProbe() {}

    /**
     * Way from a point along a direction until a body of a kind is seen, mm; 0 if it is seen at once; empty if it is not
     * within reach.
     *
     * @param direction unit
     * @param wanted which bodies end the walk, by name; the background has the empty name
     * @param reachMm longest way, mm
     */
    static OptionalDouble wayTo(
            Scene scene, PatientPoint from, PatientVector direction, Predicate<String> wanted, double reachMm) {
        if (isSeen(scene, from, wanted)) {
            return OptionalDouble.of(0);
        }
        for (double at = STEP_MM; at <= reachMm + STEP_MM; at += STEP_MM) {
            if (isSeen(scene, from.along(direction, at), wanted)) {
                double low = at - STEP_MM;
                double high = at;
                for (int n = 0; n < HALVINGS; n++) {
                    double middle = 0.5 * (low + high);
                    if (isSeen(scene, from.along(direction, middle), wanted)) {
                        high = middle;
                    } else {
                        low = middle;
                    }
                }
                return OptionalDouble.of(high);
            }
        }
        return OptionalDouble.empty();
    }

    private static boolean isSeen(Scene scene, PatientPoint p, Predicate<String> wanted) {
        return wanted.test(scene.bodyAt(p).map(Body::name).orElse(""));
    }
}
