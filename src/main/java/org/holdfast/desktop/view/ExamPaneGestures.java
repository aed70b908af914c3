package org.holdfast.desktop.view;

import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.scene.input.ScrollEvent;
import org.holdfast.desktop.render.ImageSurface;
import org.holdfast.desktop.state.ExamPane;
import org.holdfast.desktop.viewmodel.WholeExamViewModel;

/**
 * The mouse on a picture of a whole exam: the wheel steps, with Shift by five, with Ctrl it magnifies at the pointer; drag
 * moves the crossing, with Shift the picture, with Alt the window.
 */
final class ExamPaneGestures {

    /** One notch of a wheel, in the toolkit's units. */
    private static final double NOTCH = 40;
    /** Magnification of one notch. */
    private static final double ZOOM_STEP = 1.15;

    private static final int BIG_STEP = 5;

    private enum Drag {
        CROSSING,
        PICTURE,
        WINDOW
    }

    private final WholeExamViewModel exam;
    private final ExamPane pane;
    private final ImageSurface surface;
    private Drag drag;
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
        drag = event.isShiftDown() ? Drag.PICTURE : event.isAltDown() ? Drag.WINDOW : Drag.CROSSING;
        lastX = event.getX();
        lastY = event.getY();
        if (drag == Drag.CROSSING) {
            cross(event);
        }
        event.consume();
    }

    void dragged(MouseEvent event) {
        if (drag == null) {
            return;
        }
        double dx = event.getX() - lastX;
        double dy = event.getY() - lastY;
        double scale = surface.outputScale();
        switch (drag) {
            case CROSSING -> cross(event);
            case PICTURE -> exam.pan(pane, surface.pixelSize(), dx * scale, dy * scale);
            case WINDOW -> exam.setWindow(exam.look().window().dragged(dx, dy));
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
        if (drag != null) {
            drag = null;
            exam.endGesture();
            event.consume();
        }
    }

    void scrolled(ScrollEvent event) {
        // With Shift some systems turn the wheel sideways.
        double turned = event.getDeltaY() != 0 ? event.getDeltaY() : event.getDeltaX();
        event.consume();
        if (event.isControlDown()) {
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
