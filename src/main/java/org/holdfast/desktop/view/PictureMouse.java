package org.holdfast.desktop.view;

import java.util.Optional;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.scene.input.ScrollEvent;
import org.holdfast.desktop.render.ImageSurface;
import org.holdfast.desktop.state.Bindings;
import org.holdfast.desktop.state.MouseAct;
import org.holdfast.desktop.state.MouseAct.Held;

/**
 * The mouse on a picture, as the person's bindings say: steps, magnifies at the pointer, moves the crossing, the picture,
 * the window.
 */
final class PictureMouse {

    /** One notch of a wheel, in the toolkit's units. */
    private static final double NOTCH = 40;
    /** Magnification of one notch. */
    private static final double ZOOM_STEP = 1.15;

    private static final int BIG_STEP = 5;

    /** What a picture does with the mouse; places and ways are device pixels of the picture where not said otherwise. */
    interface Acts {

        /** A press or a release: what follows is taken back apart from what went before. */
        void beginGesture();

        void step(int steps);

        void zoom(double factor, double x, double y);

        void cross(double x, double y);

        void pan(double dx, double dy);

        /** Changes the window by a way in logical pixels. */
        void window(double dx, double dy);
    }

    private final Bindings bindings;
    private final ImageSurface surface;
    private final Acts acts;
    private Optional<MouseAct> drag = Optional.empty();
    private double lastX;
    private double lastY;
    private double notches;

    PictureMouse(Bindings bindings, ImageSurface surface, Acts acts) {
        this.bindings = bindings;
        this.surface = surface;
        this.acts = acts;
    }

    void pressed(MouseEvent event) {
        if (event.getButton() != MouseButton.PRIMARY) {
            return;
        }
        acts.beginGesture();
        drag = bindings.drag(new Held(event.isControlDown(), event.isShiftDown(), event.isAltDown()));
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
            case PAN -> acts.pan(dx * scale, dy * scale);
            case WINDOW -> acts.window(dx, dy);
            default -> throw new IllegalStateException(drag.get() + " is not a drag");
        }
        lastX = event.getX();
        lastY = event.getY();
        event.consume();
    }

    void released(MouseEvent event) {
        if (drag.isPresent()) {
            drag = Optional.empty();
            acts.beginGesture();
            event.consume();
        }
    }

    void scrolled(ScrollEvent event) {
        // With Shift some systems turn the wheel sideways.
        double turned = event.getDeltaY() != 0 ? event.getDeltaY() : event.getDeltaX();
        event.consume();
        Optional<MouseAct> act =
                bindings.wheel(new Held(event.isControlDown(), event.isShiftDown(), event.isAltDown()));
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
            acts.step(steps * (event.isShiftDown() ? BIG_STEP : 1));
        }
    }

    /** Magnifies at a place of the picture, logical pixels. */
    void zoom(double factor, double x, double y) {
        double scale = surface.outputScale();
        acts.zoom(factor, x * scale, y * scale);
    }

    private void cross(MouseEvent event) {
        double scale = surface.outputScale();
        acts.cross(onSurfaceX(event.getX()) * scale, onSurfaceY(event.getY()) * scale);
    }

    /** A pane may have a border, which does not belong to the picture. */
    private double onSurfaceX(double x) {
        return x - surface.getLayoutX();
    }

    private double onSurfaceY(double y) {
        return y - surface.getLayoutY();
    }
}
