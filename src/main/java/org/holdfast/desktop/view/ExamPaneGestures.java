package org.holdfast.desktop.view;

import org.holdfast.desktop.render.ImageSurface;
import org.holdfast.desktop.state.ExamPane;
import org.holdfast.desktop.viewmodel.WholeExamViewModel;

/** What the mouse does on a picture of a whole exam. */
final class ExamPaneGestures implements PictureMouse.Acts {

    private final WholeExamViewModel exam;
    private final ExamPane pane;
    private final ImageSurface surface;

    ExamPaneGestures(WholeExamViewModel exam, ExamPane pane, ImageSurface surface) {
        this.exam = exam;
        this.pane = pane;
        this.surface = surface;
    }

    @Override
    public void beginGesture() {
        exam.endGesture();
    }

    @Override
    public void step(int steps) {
        exam.step(pane, steps);
    }

    @Override
    public void zoom(double factor, double x, double y) {
        exam.zoom(pane, surface.pixelSize(), factor, x, y);
    }

    @Override
    public void cross(double x, double y) {
        exam.moveCrossing(pane, surface.pixelSize(), x, y);
    }

    @Override
    public void pan(double dx, double dy) {
        exam.pan(pane, surface.pixelSize(), dx, dy);
    }

    @Override
    public void window(double dx, double dy) {
        exam.setWindow(exam.look().window().dragged(dx, dy));
    }
}
