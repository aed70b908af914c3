package org.holdfast.desktop.view;

import org.holdfast.desktop.render.ImageSurface;
import org.holdfast.desktop.state.CutLook;
import org.holdfast.desktop.state.CutRow;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.desktop.viewmodel.CutGeometry;
import org.holdfast.desktop.viewmodel.ReviewViewModel;

/** What the mouse does on a cut of the review. */
final class CutGestures implements PictureMouse.Acts {

    /** HU to one logical pixel while the window is dragged, as a share of its width. */
    private static final double WINDOW_SHARE = 1 / 250.0;
    /** The narrowest window that dragging makes, HU. */
    private static final double NARROWEST_HU = 20;

    private final ReviewViewModel review;
    private final ImageSurface surface;
    private final CutRow row;
    private final int exam;
    private Object gesture = new Object();

    CutGestures(ReviewViewModel review, ImageSurface surface, CutRow row, int exam) {
        this.review = review;
        this.surface = surface;
        this.row = row;
        this.exam = exam;
    }

    @Override
    public void beginGesture() {
        gesture = new Object();
    }

    @Override
    public void step(int steps) {
        review.step(row, exam, steps);
    }

    @Override
    public void zoom(double factor, double x, double y) {
        review.look(exam, geometry().zoomedAt(look(), factor, x, y), "zoom", "zoom " + exam);
    }

    @Override
    public void cross(double x, double y) {
        review.cross(exam, geometry().placeAt(x, y), gesture);
    }

    @Override
    public void pan(double dx, double dy) {
        CutLook look = look();
        review.look(
                exam,
                look.framed(look.zoom(), look.panMm().minus(geometry().wayMm(dx, dy))),
                "move of the picture",
                gesture);
    }

    /** To the right wider, down darker: a higher centre. */
    @Override
    public void window(double dx, double dy) {
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
