package org.holdfast.desktop.viewmodel;

import org.holdfast.construct.Axes;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;

/** One small step of the construct in an exam: a move along, or a turn about, one of the construct's axes. */
public enum NudgeStep {
    LEFT("left", Kind.MOVE, 0, 1),
    RIGHT("right", Kind.MOVE, 0, -1),
    POSTERIOR("posterior", Kind.MOVE, 1, 1),
    ANTERIOR("anterior", Kind.MOVE, 1, -1),
    CRANIAL("cranial", Kind.MOVE, 2, 1),
    CAUDAL("caudal", Kind.MOVE, 2, -1),
    TILT_FORWARD("tilt forward", Kind.TURN, 0, 1),
    TILT_BACK("tilt back", Kind.TURN, 0, -1),
    LEAN_RIGHT("lean right", Kind.TURN, 1, -1),
    LEAN_LEFT("lean left", Kind.TURN, 1, 1),
    TURN_LEFT("turn left", Kind.TURN, 2, 1),
    TURN_RIGHT("turn right", Kind.TURN, 2, -1);

    /** Length of a step, mm. */
    public static final double STEP_MM = 0.1;
    /** Angle of a step, degrees. */
    public static final double STEP_DEG = 0.1;
    /** A wide step is so many steps. */
    public static final int WIDE = 10;

    private enum Kind {
        MOVE,
        TURN
    }

    private final String words;
    private final Kind kind;
    private final int axis;
    private final int sign;

    NudgeStep(String words, Kind kind, int axis, int sign) {
        this.words = words;
        this.kind = kind;
        this.axis = axis;
        this.sign = sign;
    }

    /** What it does, in the trade's directions. */
    public String words() {
        return words;
    }

    /** Whether it turns the construct. */
    public boolean isTurn() {
        return kind == Kind.TURN;
    }

    /**
     * The step as a motion in the construct's space.
     *
     * @param axes the construct's axes
     * @param centre what a turn leaves in place
     * @param steps how many steps
     */
    RigidTransform motion(Axes axes, PatientPoint centre, int steps) {
        PatientVector along = axis == 0 ? axes.left() : axis == 1 ? axes.posterior() : axes.cranial();
        return kind == Kind.MOVE
                ? RigidTransform.translation(along.times(sign * steps * STEP_MM))
                : RigidTransform.rotation(along, sign * steps * STEP_DEG, centre);
    }
}
