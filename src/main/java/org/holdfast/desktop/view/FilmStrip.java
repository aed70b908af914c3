package org.holdfast.desktop.view;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import javafx.scene.input.MouseEvent;
import javafx.scene.layout.Region;
import org.holdfast.desktop.render.CutQueue;
import org.holdfast.desktop.state.FilmPlace;
import org.holdfast.desktop.viewmodel.ExamColumn.Images;
import org.holdfast.desktop.viewmodel.ReviewViewModel;

/**
 * The radiographs of an exam in its column, in the place of both cuts: one film over the whole height, two one above the
 * other. Hidden while the exam is none of radiographs.
 */
final class FilmStrip extends Region {

    /** Numbers in the drawing queue that cuts do not use. */
    private static final int FIRST_CELL = 2_000_000;

    private static final int MOST = 2;
    private static final double GAP = 6;

    private final ReviewViewModel review;
    private final int exam;
    private final List<FilmPane> panes;
    private int shown;

    FilmStrip(ReviewViewModel review, CutQueue queue, int exam) {
        this.review = review;
        this.exam = exam;
        String label = review.exams().get(exam).label();
        panes = IntStream.range(0, MOST)
                .mapToObj(n -> new FilmPane(
                        review.film(new FilmPlace(exam, n)),
                        review.bindings(),
                        queue,
                        FIRST_CELL + MOST * exam + n,
                        label,
                        false))
                .toList();
        panes.forEach(pane -> pane.setManaged(false));
        getChildren().addAll(panes);
        setVisible(false);
        addEventFilter(
                MouseEvent.MOUSE_PRESSED,
                event -> review.pick(review.stateProperty().get().partId(), exam));
    }

    /** Draws what there is; tells whether the exam is of radiographs. */
    boolean draw() {
        Images images = review.columns().get(exam).imagesProperty().get();
        int count = images instanceof Images.Films films ? films.films().size() : 0;
        setVisible(count > 0);
        if (count != shown) {
            shown = count;
            layoutPanes();
        }
        for (int n = 0; n < MOST; n++) {
            panes.get(n).setVisible(n < count);
            if (n < count) {
                panes.get(n).draw();
            } else {
                panes.get(n).close();
            }
        }
        return count > 0;
    }

    /** Magnifies the film under the pointer, else the first; tells whether there was one. */
    boolean zoom(double factor) {
        if (shown == 0) {
            return false;
        }
        underPointer().orElse(panes.get(0)).zoom(factor);
        return true;
    }

    private Optional<FilmPane> underPointer() {
        return panes.stream().filter(FilmPane::isHover).findFirst();
    }

    /** The film that keys act on: the one under the pointer, else the first. */
    FilmPlace active() {
        return new FilmPlace(exam, underPointer().map(panes::indexOf).orElse(0));
    }

    void close() {
        panes.forEach(FilmPane::close);
    }

    @Override
    protected void layoutChildren() {
        layoutPanes();
    }

    private void layoutPanes() {
        double height = shown < 2 ? getHeight() : Math.floor((getHeight() - GAP) / 2);
        for (int n = 0; n < MOST; n++) {
            panes.get(n).resizeRelocate(0, n * (height + GAP), getWidth(), height);
        }
    }
}
