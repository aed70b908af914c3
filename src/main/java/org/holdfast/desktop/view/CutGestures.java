package org.holdfast.desktop.view;

import java.util.Optional;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.scene.input.ScrollEvent;
import org.holdfast.desktop.render.ImageSurface;
import org.holdfast.desktop.state.CutLook;
import org.holdfast.desktop.state.CutRow;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.desktop.state.MouseAct;
import org.holdfast.desktop.state.MouseAct.Held;
import org.holdfast.desktop.viewmodel.CutGeometry;
import org.holdfast.desktop.viewmodel.ReviewViewModel;

/**
 * The mouse on a cut, as the person's bindings say: steps, magnifies at the pointer, moves the crossing, the picture, the
 * window.
 */
final class CutGestures {

    /** One notch of a wheel, in the toolkit's units. */
    private static final double NOTCH = 40;
    /** Magnification of one notch. */
    private static final double ZOOM_STEP = 1.15;
    /** HU to one logical pixel while the window is dragged, as a share of its width. */
    private static final double WINDOW_SHARE = 1 / 250.0;
    /** The narrowest window that dragging makes, HU. */
    private static final double NARROWEST_HU = 20;

    private final ReviewViewModel review;
    private final ImageSurface surface;
    private final CutRow row;
    private final int exam;
    private Object gesture = new Object();
    private Optional<MouseAct> drag = Optional.empty();
    private double lastX;
    private double lastY;
    private double wheel;

    CutGestures(ReviewViewModel review, ImageSurface surface, CutRow row, int exam) {
        this.review = review;
        this.surface = surface;
        this.row = row;
        this.exam = exam;
    }

    void pressed(MouseEvent event) {
        review.pick(review.stateProperty().get().partId(), exam);
        if (event.getButton() != MouseButton.PRIMARY) {
            return;
        }
        gesture = new Object();
        drag = review.bindings().drag(new Held(event.isControlDown(), event.isShiftDown(), event.isAltDown()));
        lastX = event.getX();
        lastY = event.getY();
        if (drag.filter(MouseAct.CROSSING::equals).isPresent()) {
            cross(event.getX(), event.getY());
        }
        event.consume();
    }

    void dragged(MouseEvent event) {
        if (drag.isEmpty()) {
            return;
        }
        double dx = event.getX() - lastX;
        double dy = event.getY() - lastY;
        switch (drag.get()) {
            case CROSSING -> cross(event.getX(), event.getY());
            case PAN -> pan(dx, dy);
            case WINDOW -> window(dx, dy);
            default -> throw new IllegalStateException(drag.get() + " is not a drag");
        }
        lastX = event.getX();
        lastY = event.getY();
        event.consume();
    }

    void released(MouseEvent event) {
        drag = Optional.empty();
        event.consume();
    }

    void scrolled(ScrollEvent event) {
        // With Shift some systems turn the wheel sideways.
        double turned = event.getDeltaY() != 0 ? event.getDeltaY() : event.getDeltaX();
        event.consume();
        Optional<MouseAct> act =
                review.bindings().wheel(new Held(event.isControlDown(), event.isShiftDown(), event.isAltDown()));
        if (act.isEmpty()) {
            return;
        }
        if (act.get() == MouseAct.ZOOM) {
            zoom(Math.pow(ZOOM_STEP, turned / NOTCH), event.getX(), event.getY());
            return;
        }
        wheel -= turned / NOTCH;
        int steps = (int) wheel;
        wheel -= steps;
        if (steps != 0) {
            review.step(row, exam, steps * (event.isShiftDown() ? 5 : 1));
        }
    }

    /** Magnifies at a point of the picture, logical pixels. */
    void zoom(double factor, double x, double y) {
        CutLook look = look();
        CutLook next = geometry().zoomedAt(look, factor, x * surface.outputScale(), y * surface.outputScale());
        review.look(exam, next, "zoom", "zoom " + exam);
    }

    private void cross(double x, double y) {
        double scale = surface.outputScale();
        review.cross(exam, geometry().placeAt(x * scale, y * scale), gesture);
    }

    private void pan(double dx, double dy) {
        double scale = surface.outputScale();
        CutLook look = look();
        review.look(
                exam,
                look.framed(look.zoom(), look.panMm().minus(geometry().wayMm(dx * scale, dy * scale))),
                "move of the picture",
                gesture);
    }

    /** To the right wider, down darker: a higher centre. */
    private void window(double dx, double dy) {
        HuWindow window = look().window();
        double unit = window.widthHu() * WINDOW_SHARE;
        double width = Math.max(NARROWEST_HU, window.widthHu() + dx * unit);
        review.window(exam, new HuWindow(window.centreHu() + dy * unit, width), gesture);
    }

    private CutLook look() {
        return review.stateProperty().get().lookOf(exam);
    }

    private CutGeometry geometry() {
        return review.geometry(
                row,
                exam,
                Math.max(1, surface.pixelSize().width()),
                Math.max(1, surface.pixelSize().height()));
    }
}
