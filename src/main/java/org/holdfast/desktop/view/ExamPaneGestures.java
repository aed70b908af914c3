package org.holdfast.desktop.view;

import java.util.Optional;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.scene.input.ScrollEvent;
import org.holdfast.desktop.render.ImageSurface;
import org.holdfast.desktop.state.ExamPane;
import org.holdfast.desktop.state.MouseAct;
import org.holdfast.desktop.state.MouseAct.Held;
import org.holdfast.desktop.viewmodel.WholeExamViewModel;

/**
 * The mouse on a picture of a whole exam, as the person's bindings say: steps, magnifies at the pointer, moves the crossing,
 * the picture, the window.
 */
final class ExamPaneGestures {

    /** One notch of a wheel, in the toolkit's units. */
    private static final double NOTCH = 40;
    /** Magnification of one notch. */
    private static final double ZOOM_STEP = 1.15;

    private static final int BIG_STEP = 5;

    private final WholeExamViewModel exam;
    private final ExamPane pane;
    private final ImageSurface surface;
    private Optional<MouseAct> drag = Optional.empty();
    private double lastX;
    private double lastY;
    private double notches;

    ExamPaneGestures(WholeExamViewModel exam, ExamPane pane, ImageSurface surface) {
        this.exam = exam;
        this.pane = pane;
        this.surface = surface;
    }

    void pressed(MouseEvent event) {
        if (event.getButton() != MouseButton.PRIMARY) {
            return;
        }
        exam.endGesture();
        drag = exam.bindings().drag(new Held(event.isControlDown(), event.isShiftDown(), event.isAltDown()));
        lastX = event.getX();
        lastY = event.getY();
        if (drag.filter(MouseAct.CROSSING::equals).isPresent()) {
            cross(event);
        }
        event.consume();
    }

    void dragged(MouseEvent event) {
        if (drag.isEmpty()) {
            return;
        }
        double dx = event.getX() - lastX;
        double dy = event.getY() - lastY;
        double scale = surface.outputScale();
        switch (drag.get()) {
            case CROSSING -> cross(event);
            case PAN -> exam.pan(pane, surface.pixelSize(), dx * scale, dy * scale);
            case WINDOW -> exam.setWindow(exam.look().window().dragged(dx, dy));
            default -> throw new IllegalStateException(drag.get() + " is not a drag");
        }
        lastX = event.getX();
        lastY = event.getY();
        event.consume();
    }

    private void cross(MouseEvent event) {
        double scale = surface.outputScale();
        exam.moveCrossing(
                pane, surface.pixelSize(), onSurfaceX(event.getX()) * scale, onSurfaceY(event.getY()) * scale);
    }

    void released(MouseEvent event) {
        if (drag.isPresent()) {
            drag = Optional.empty();
            exam.endGesture();
            event.consume();
        }
    }

    void scrolled(ScrollEvent event) {
        // With Shift some systems turn the wheel sideways.
        double turned = event.getDeltaY() != 0 ? event.getDeltaY() : event.getDeltaX();
        event.consume();
        Optional<MouseAct> act =
                exam.bindings().wheel(new Held(event.isControlDown(), event.isShiftDown(), event.isAltDown()));
        if (act.isEmpty()) {
            return;
        }
        if (act.get() == MouseAct.ZOOM) {
            zoom(Math.pow(ZOOM_STEP, turned / NOTCH), onSurfaceX(event.getX()), onSurfaceY(event.getY()));
            return;
        }
        // Finer wheels turn by parts of a notch.
        notches -= turned / NOTCH;
        int steps = (int) notches;
        notches -= steps;
        if (steps != 0) {
            exam.step(pane, steps * (event.isShiftDown() ? BIG_STEP : 1));
        }
    }

    /** The pane has a border, which does not belong to the picture. */
    private double onSurfaceX(double x) {
        return x - surface.getLayoutX();
    }

    private double onSurfaceY(double y) {
        return y - surface.getLayoutY();
    }

    /** Magnifies at a place of the picture, logical pixels. */
    void zoom(double factor, double x, double y) {
        double scale = surface.outputScale();
        exam.zoom(pane, surface.pixelSize(), factor, x * scale, y * scale);
    }
}
