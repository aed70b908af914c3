package org.holdfast.desktop;

import java.util.Optional;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import org.holdfast.construct.CutAxes;
import org.holdfast.desktop.state.CutRow;
import org.holdfast.desktop.viewmodel.NudgeStep;
import org.holdfast.desktop.viewmodel.ReviewViewModel;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;

/**
 * Keys that nudge the construct in one exam as one of its cuts shows it: arrows and Page keys move it, with Shift they turn
 * it, with Ctrl ten steps at once; Enter keeps the pose, Escape restores it.
 */
final class NudgeKeys {

    private final ReviewViewModel review;
    private final int exam;
    private final CutAxes axes;
    private final Optional<RigidTransform> before;
    private final boolean wasOutlined;
    private final Object gesture = new Object();

    /** Begins to nudge an exam's pose, with the outline on. */
    NudgeKeys(ReviewViewModel review, CutRow row, int exam) {
        this.review = review;
        this.exam = exam;
        this.axes = row.axes(review.part().frame());
        this.before = Optional.ofNullable(review.stateProperty().get().nudged().get(exam));
        this.wasOutlined = review.outlinedProperty().get();
        review.outline(true);
        review.say("Nudge: arrows and Page ↑ ↓ move by 0.1 mm, with Shift turn by 0.1°, with Ctrl tenfold; Enter keeps,"
                + " Esc restores");
    }

    /** Whether the key goes on with nudging; if not, nudging has ended. */
    boolean takes(KeyEvent event) {
        KeyCode code = event.getCode();
        if (code.isModifierKey()) {
            return true;
        }
        Optional<PatientVector> way = way(code, event.isShiftDown());
        if (way.isPresent()) {
            step(way.get(), event.isShiftDown(), event.isShortcutDown() ? NudgeStep.WIDE : 1);
            return true;
        }
        if (code == KeyCode.ESCAPE) {
            review.restorePose(exam, before, gesture);
        }
        review.outline(wasOutlined);
        review.say("");
        if (code == KeyCode.ENTER) {
            review.keepPoses();
        }
        return false;
    }

    /** Whether a key that ends nudging is used up by that. */
    static boolean ends(KeyCode code) {
        return code == KeyCode.ENTER || code == KeyCode.ESCAPE;
    }

    /** The direction of a move, or the axis of a turn as the key's arrow makes the picture turn. */
    private Optional<PatientVector> way(KeyCode code, boolean isTurn) {
        PatientVector right = axes.right();
        PatientVector down = axes.down();
        PatientVector away = axes.normal();
        return Optional.ofNullable(
                switch (code) {
                    case RIGHT -> isTurn ? away : right;
                    case LEFT -> isTurn ? away.times(-1) : right.times(-1);
                    case DOWN -> isTurn ? right.times(-1) : down;
                    case UP -> isTurn ? right : down.times(-1);
                    case PAGE_UP -> isTurn ? down : away;
                    case PAGE_DOWN -> isTurn ? down.times(-1) : away.times(-1);
                    default -> null;
                });
    }

    private void step(PatientVector way, boolean isTurn, int steps) {
        PatientPoint centre = review.stateProperty().get().lookOf(exam).crossing();
        RigidTransform motion = isTurn
                ? RigidTransform.rotation(way, steps * NudgeStep.STEP_DEG, centre)
                : RigidTransform.translation(way.unit().times(steps * NudgeStep.STEP_MM));
        review.nudge(exam, motion, gesture);
    }
}
