package org.holdfast.desktop.view;

import java.util.Optional;
import javafx.scene.AccessibleRole;
import javafx.scene.layout.StackPane;
import javafx.util.Subscription;
import org.holdfast.desktop.render.CutQueue;
import org.holdfast.desktop.render.CutRequest;
import org.holdfast.desktop.render.ImageSurface;
import org.holdfast.desktop.render.PixelSize;
import org.holdfast.desktop.state.ExamPane;
import org.holdfast.desktop.viewmodel.CutGeometry;
import org.holdfast.desktop.viewmodel.ExamPaneWords;
import org.holdfast.desktop.viewmodel.WholeExamViewModel;

/** One of the four pictures of a whole exam. */
final class ExamPaneView extends StackPane {

    private final WholeExamViewModel exam;
    private final ExamPane pane;
    private final CutQueue queue;
    private final int cell;
    private final ImageSurface surface = new ImageSurface();
    private final CutFurniture furniture = new CutFurniture();
    private final PictureMouse mouse;
    private final Subscription listening;
    private Optional<CutRequest> asked = Optional.empty();

    /**
     * @param exam what is shown
     * @param pane which of its pictures
     * @param queue draws
     * @param cell number of this place in the queue
     */
    ExamPaneView(WholeExamViewModel exam, ExamPane pane, CutQueue queue, int cell) {
        this.exam = exam;
        this.pane = pane;
        this.queue = queue;
        this.cell = cell;
        this.mouse = new PictureMouse(exam.bindings(), surface, new ExamPaneGestures(exam, pane, surface));
        getStyleClass().addAll("image-well", "exam-pane");
        getChildren().addAll(surface, furniture);
        setMinSize(0, 0);
        setFocusTraversable(true);
        setAccessibleRole(AccessibleRole.IMAGE_VIEW);
        setOnMousePressed(event -> {
            requestFocus();
            mouse.pressed(event);
        });
        setOnMouseDragged(mouse::dragged);
        setOnMouseReleased(mouse::released);
        setOnScroll(mouse::scrolled);
        listening = Subscription.combine(
                exam.lookProperty().subscribe(look -> draw()),
                exam.loadProperty().subscribe(load -> draw()),
                surface.pixelSizeProperty().subscribe(size -> draw()));
    }

    ExamPane pane() {
        return pane;
    }

    private void draw() {
        PixelSize size = surface.pixelSize();
        Optional<CutRequest> wanted = exam.request(pane, size);
        if (wanted.isEmpty()) {
            queue.forget(cell);
            surface.clear();
            furniture.setVisible(false);
        } else if (!wanted.equals(asked)) {
            queue.request(cell, wanted.get(), surface::show);
        }
        asked = wanted;
        exam.geometry(pane, size).ifPresent(this::furnish);
    }

    private void furnish(CutGeometry geometry) {
        double scale = surface.outputScale();
        String position = ExamPaneWords.position(pane, exam.planes().orElseThrow(), exam.look());
        String window = ExamPaneWords.window(exam.look().window());
        furniture.show(new CutFurniture.Furniture(
                exam.examLabel() + " \u00B7 " + pane.title(),
                position + " \u00B7 " + window,
                CutFurniture.Letters.of(geometry.axes()),
                geometry.mmPerPixel() * scale,
                CutTicks.within(geometry.crossingX(), geometry.width(), scale),
                CutTicks.within(geometry.crossingY(), geometry.height(), scale)));
        furniture.setVisible(true);
        setAccessibleText(pane.title() + ", " + exam.examLabel() + ", " + position + ", window " + window);
    }

    /** Magnifies at the crossing, or in the middle where the crossing lies outside the picture. */
    void zoom(double factor) {
        exam.geometry(pane, surface.pixelSize()).ifPresent(at -> {
            double scale = surface.outputScale();
            mouse.zoom(
                    factor,
                    CutTicks.within(at.crossingX(), at.width(), scale).orElse(surface.getWidth() / 2),
                    CutTicks.within(at.crossingY(), at.height(), scale).orElse(surface.getHeight() / 2));
        });
    }

    void close() {
        listening.unsubscribe();
        queue.forget(cell);
    }
}
