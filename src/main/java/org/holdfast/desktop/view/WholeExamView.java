package org.holdfast.desktop.view;

import java.net.URL;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import javafx.scene.Node;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Priority;
import javafx.scene.layout.StackPane;
import javafx.util.Subscription;
import org.holdfast.desktop.render.CutQueue;
import org.holdfast.desktop.state.Act;
import org.holdfast.desktop.state.ExamPane;
import org.holdfast.desktop.viewmodel.WholeExamViewModel;

/**
 * One exam as a whole: its original slices and three planes side by side, each as large as the window allows. Keys act on
 * the picture that has the focus, else on the original slices.
 */
public final class WholeExamView extends StackPane {

    /** Places in the drawing queue that one view takes. */
    public static final int CELLS = ExamPane.values().length;

    private static final double KEY_ZOOM = 1.25;
    private static final int BIG_STEP = 5;

    private final WholeExamViewModel exam;
    private final List<ExamPaneView> panes = new ArrayList<>();
    private final WholeExamNotice notice;
    private final Subscription listening;

    /**
     * @param exam what is shown
     * @param queue draws
     * @param firstCell first of {@link #CELLS} numbers in the queue that nobody else uses
     * @param stop stops the reading of the exam
     * @param readAgain reads the exam again
     */
    public WholeExamView(WholeExamViewModel exam, CutQueue queue, int firstCell, Runnable stop, Runnable readAgain) {
        this.exam = exam;
        this.notice = new WholeExamNotice(stop, readAgain);
        URL sheet = WholeExamView.class.getResource("/org/holdfast/desktop/whole-exam.css");
        getStylesheets().add(Objects.requireNonNull(sheet, "whole-exam.css").toExternalForm());
        getStyleClass().add("whole-exam");
        GridPane grid = new GridPane();
        for (ExamPane pane : ExamPane.values()) {
            int place = pane.ordinal();
            ExamPaneView view = new ExamPaneView(exam, pane, queue, firstCell + place);
            // All four start from nothing, so that the room is shared out evenly.
            view.setPrefSize(0, 0);
            GridPane.setHgrow(view, Priority.ALWAYS);
            GridPane.setVgrow(view, Priority.ALWAYS);
            grid.add(view, place % 2, place / 2);
            panes.add(view);
        }
        getChildren().addAll(grid, notice);
        listening = exam.loadProperty().subscribe(notice::show);
        setOnKeyPressed(this::pressed);
    }

    private void pressed(KeyEvent event) {
        if (event.isControlDown() || event.isAltDown() || event.isMetaDown()) {
            return;
        }
        int steps = event.isShiftDown() ? BIG_STEP : 1;
        boolean known =
                switch (event.getCode()) {
                    case COMMA -> act(() -> step(-steps));
                    case PERIOD, DECIMAL -> act(() -> step(steps));
                    case PLUS, ADD, EQUALS -> act(() -> zoom(KEY_ZOOM));
                    case MINUS, SUBTRACT -> act(() -> zoom(1 / KEY_ZOOM));
                    case SPACE -> act(this::fit);
                    default -> false;
                };
        if (known) {
            event.consume();
        }
    }

    private static boolean act(Runnable act) {
        act.run();
        return true;
    }

    /** Does what a key is for; tells whether it was for anything here. */
    boolean act(Act act) {
        switch (act) {
            case STEP_ON -> step(1);
            case STEP_BACK -> step(-1);
            case STEP_ON_FIVE -> step(BIG_STEP);
            case STEP_BACK_FIVE -> step(-BIG_STEP);
            case ZOOM_IN -> zoom(KEY_ZOOM);
            case ZOOM_OUT -> zoom(1 / KEY_ZOOM);
            case FITTED -> fit();
            case UNDO -> exam.undo();
            case REDO -> exam.redo();
            default -> {
                return false;
            }
        }
        return true;
    }

    /** Goes on along the normal of the picture in use. */
    public void step(int steps) {
        exam.step(inUse().pane(), steps);
    }

    /** Magnifies the picture in use by a factor. */
    public void zoom(double factor) {
        inUse().zoom(factor);
    }

    /** Puts the picture in use back to the fitted view. */
    public void fit() {
        exam.fit(inUse().pane());
    }

    private ExamPaneView inUse() {
        return panes.stream().filter(Node::isFocused).findFirst().orElse(panes.get(0));
    }

    /** Lets go of the exam; the view shows nothing afterwards. */
    public void close() {
        listening.unsubscribe();
        panes.forEach(ExamPaneView::close);
    }
}
