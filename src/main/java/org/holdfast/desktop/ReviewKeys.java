package org.holdfast.desktop;

import java.util.List;
import java.util.Optional;
import javafx.scene.Node;
import javafx.scene.control.ButtonBase;
import javafx.scene.control.ComboBoxBase;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import org.holdfast.desktop.state.Act;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.desktop.state.ImageMark;
import org.holdfast.desktop.state.MarkTool;
import org.holdfast.desktop.state.ReviewState;
import org.holdfast.desktop.view.MarkHandle;
import org.holdfast.desktop.view.ReviewView;
import org.holdfast.desktop.viewmodel.ReviewViewModel;

/** What keys do in the review. */
final class ReviewKeys {

    private static final double ZOOM = 1.25;
    /** One key press changes the window by this share of its width. */
    private static final double WINDOW_SHARE = 0.05;

    private static final double NARROWEST_HU = 20;

    private final ReviewViewModel review;
    private final ReviewView view;
    private Optional<HuWindow> windowBefore = Optional.empty();
    private Optional<FilmWindowKeys> filmKeys = Optional.empty();
    private Optional<NudgeKeys> nudging = Optional.empty();
    private Object windowGesture = new Object();

    ReviewKeys(ReviewViewModel review, ReviewView view) {
        this.review = review;
        this.view = view;
    }

    /** Does what a key is for; tells whether it was for anything here. */
    boolean act(Act act, KeyEvent event) {
        if (belongsToFocused(event)) {
            return false;
        }
        int exam = view.activeExam();
        switch (act) {
            case PART_UP -> review.pickPart(-1);
            case PART_DOWN -> review.pickPart(1);
            case EXAM_EARLIER -> review.pickExam(-1);
            case EXAM_LATER -> review.pickExam(1);
            case EXAM_FIRST -> review.pickEnd(false);
            case EXAM_LAST -> review.pickEnd(true);
            case LINK -> review.link(!review.stateProperty().get().linked());
            case NEXT_MAP -> review.nextMap();
            case OUTLINE -> review.outline(!review.outlinedProperty().get());
            case NUDGE -> beginNudge(exam);
            case MEASURE_AGAIN -> review.results().measureAgain();
            case STEP_ON -> step(1);
            case STEP_BACK -> step(-1);
            case STEP_ON_FIVE -> step(5);
            case STEP_BACK_FIVE -> step(-5);
            case ZOOM_IN -> view.zoom(ZOOM);
            case ZOOM_OUT -> view.zoom(1 / ZOOM);
            case FITTED -> review.fit(exam);
            case WINDOW -> beginWindow();
            case LENGTH -> view.toggleTool(MarkTool.LENGTH);
            case ANGLE -> view.toggleTool(MarkTool.ANGLE);
            case REGION -> view.nextRegionTool();
            case REMOVE_MARK -> removeMark();
            case UNDO -> review.undo();
            case REDO -> review.redo();
            case NEXT_REGION -> view.focusNextRegion();
            case ESCAPE -> {
                return view.putToolAway();
            }
            default -> {
                return false;
            }
        }
        return true;
    }

    /** Keys of a change that was begun: of the pose, or of the window; Enter closes a polygon too. */
    boolean other(KeyEvent event) {
        if (nudging.isPresent()) {
            if (nudging.get().takes(event)) {
                return true;
            }
            nudging = Optional.empty();
            return NudgeKeys.ends(event.getCode());
        }
        if (windowBefore.isPresent() && changesWindow(event.getCode())) {
            return true;
        }
        return event.getCode() == KeyCode.ENTER && view.closePolygon();
    }

    /** Space and Enter belong to a control that has the focus, arrows to a list that is open or a mark's handle. */
    private static boolean belongsToFocused(KeyEvent event) {
        Node target = event.getTarget() instanceof Node node ? node : null;
        KeyCode code = event.getCode();
        if (target instanceof MarkHandle) {
            return code.isArrowKey() || code == KeyCode.DELETE;
        }
        if (target instanceof ButtonBase) {
            return code == KeyCode.SPACE || code == KeyCode.ENTER;
        }
        return target instanceof ComboBoxBase
                && (code == KeyCode.SPACE
                        || code == KeyCode.ENTER
                        || code == KeyCode.UP
                        || code == KeyCode.DOWN
                        || code == KeyCode.ESCAPE);
    }

    /** A radiograph has no slices. */
    private void step(int steps) {
        if (view.activeFilm().isEmpty()) {
            review.step(view.activeRow(), view.activeExam(), steps);
        }
    }

    private void beginNudge(int exam) {
        if (review.mayNudge(exam)) {
            nudging = Optional.of(new NudgeKeys(review, view.activeRow(), exam));
        } else {
            review.say("The reference exam is where the construct was laid out: there is nothing to nudge");
        }
    }

    private void beginWindow() {
        filmKeys = view.activeFilm().map(place -> new FilmWindowKeys(review.film(place)));
        windowBefore = Optional.of(window());
        windowGesture = new Object();
        review.say("Window: ↑ ↓ width, ← → centre, Enter keeps, Esc restores");
    }

    private boolean changesWindow(KeyCode code) {
        if (filmKeys.isPresent()) {
            if (!filmKeys.get().changes(code)) {
                endWindow();
                return FilmWindowKeys.ends(code);
            }
            return true;
        }
        HuWindow now = window();
        double step = Math.max(1, now.widthHu() * WINDOW_SHARE);
        switch (code) {
            case UP -> set(new HuWindow(now.centreHu(), now.widthHu() + step));
            case DOWN -> set(new HuWindow(now.centreHu(), Math.max(NARROWEST_HU, now.widthHu() - step)));
            case RIGHT -> set(new HuWindow(now.centreHu() + step, now.widthHu()));
            case LEFT -> set(new HuWindow(now.centreHu() - step, now.widthHu()));
            case ESCAPE -> {
                set(windowBefore.orElseThrow());
                endWindow();
            }
            case ENTER -> endWindow();
            default -> {
                endWindow();
                return false;
            }
        }
        return true;
    }

    private void endWindow() {
        windowBefore = Optional.empty();
        review.say("");
    }

    private void set(HuWindow window) {
        review.window(review.stateProperty().get().exam(), window, windowGesture);
    }

    private HuWindow window() {
        ReviewState state = review.stateProperty().get();
        return state.lookOf(state.exam()).window();
    }

    private void removeMark() {
        List<ImageMark> marks = review.stateProperty().get().marks();
        if (!marks.isEmpty()) {
            review.removeMark(marks.get(marks.size() - 1));
        }
    }
}
