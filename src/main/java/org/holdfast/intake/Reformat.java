package org.holdfast.intake;

import java.util.Locale;
import java.util.Set;
import org.holdfast.geometry.PatientVector;

/**
 * In which direction a stack is cut, and whether it was cut out of other slices. Immutable.
 *
 * @param direction axial, coronal, sagittal or oblique, by the normal of its slices
 * @param isReformatted whether ImageType says that it was made out of other slices
 */
record Reformat(Direction direction, boolean isReformatted) {

    /** Plane of the slices in the patient. */
    enum Direction {
        AXIAL,
        CORONAL,
        SAGITTAL,
        OBLIQUE
    }

    private static final Set<String> REFORMAT_TYPES = Set.of("MPR", "REFORMATTED", "CURVED_MPR", "CPR", "CSAMPR");

    /** A normal within about 35° of an axis is called by it; a tilted gantry stays axial. */
    private static final double ALONG_AXIS = 0.82;

    static Reformat of(Stack stack) {
        PatientVector n = stack.grid().normal();
        Direction direction = Direction.OBLIQUE;
        if (Math.abs(n.z()) >= ALONG_AXIS) {
            direction = Direction.AXIAL;
        } else if (Math.abs(n.y()) >= ALONG_AXIS) {
            direction = Direction.CORONAL;
        } else if (Math.abs(n.x()) >= ALONG_AXIS) {
            direction = Direction.SAGITTAL;
        }
        boolean made = stack.slices().get(0).identity().imageType().stream().anyMatch(REFORMAT_TYPES::contains);
        return new Reformat(direction, made);
    }

    String words() {
        String name = direction.name().toLowerCase(Locale.ROOT);
        return isReformatted ? name + " reformat" : name + " slices";
    }

    RoleReason reason() {
        return isReformatted
                ? RoleReason.speaksAgainst(words() + ": cut out of other slices, interpolated")
                : RoleReason.note(words());
    }
}
