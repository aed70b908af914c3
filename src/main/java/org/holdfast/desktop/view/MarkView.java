package org.holdfast.desktop.view;

import java.util.ArrayList;
import java.util.List;
import javafx.css.PseudoClass;
import javafx.scene.Group;
import javafx.scene.control.Label;
import javafx.scene.shape.Polygon;
import javafx.scene.shape.Polyline;
import javafx.scene.shape.Shape;
import org.holdfast.desktop.state.ImageMark;
import org.holdfast.desktop.viewmodel.FlatPicture;
import org.holdfast.desktop.viewmodel.MarkOutline;
import org.holdfast.desktop.viewmodel.MarkReading;
import org.holdfast.geometry.PatientPoint;

/** One mark on a picture: its line, what it measures, and a handle at each of its points. Keeps its nodes while it moves. */
final class MarkView extends Group {

    private static final PseudoClass CHOSEN = PseudoClass.getPseudoClass("chosen");
    /** Room between a mark and its words, and between these and the edge. */
    private static final double GAP = 6;

    private final MarkSheet sheet;
    private final boolean hasHandles;
    private final Polyline line = new Polyline();
    private final Polygon area = new Polygon();
    /** Dark under the white lines, which are seen on bright metal by it. */
    private final Polyline lineCasing = new Polyline();

    private final Polygon areaCasing = new Polygon();
    private final Label label = new Label();
    private final List<MarkHandle> handles = new ArrayList<>();
    private ImageMark mark;
    private FlatPicture picture;
    private MarkReading reading;

    /**
     * @param sheet what can be done to it
     * @param hasHandles whether it can be changed; not while it is being drawn
     */
    MarkView(MarkSheet sheet, boolean hasHandles) {
        this.sheet = sheet;
        this.hasHandles = hasHandles;
        List.of(lineCasing, areaCasing).forEach(shape -> addShape(shape, "image-mark-casing"));
        List.of(line, area).forEach(shape -> addShape(shape, "image-mark"));
        label.getStyleClass().add("image-label");
        label.setMouseTransparent(true);
        getStyleClass().add("mark");
        getChildren().add(label);
    }

    private void addShape(Shape shape, String style) {
        shape.getStyleClass().add(style);
        shape.setMouseTransparent(true);
        getChildren().add(shape);
    }

    /** Draws a mark on a picture of this size, logical pixels. */
    void show(ImageMark next, FlatPicture on, double width, double height) {
        if (!next.equals(mark) || reading.label().isEmpty()) {
            reading = sheet.read(next);
        }
        mark = next;
        picture = on;
        List<Double> corners = new ArrayList<>();
        for (PatientPoint corner : MarkOutline.of(mark)) {
            corners.add(picture.x(corner));
            corners.add(picture.y(corner));
        }
        boolean closed = MarkOutline.isClosed(mark);
        List.of(line, lineCasing).forEach(shape -> shape.getPoints().setAll(closed ? List.of() : corners));
        List.of(area, areaCasing).forEach(shape -> shape.getPoints().setAll(closed ? corners : List.of()));
        if (hasHandles) {
            placeHandles();
        }
        placeLabel(width, height);
    }

    private void placeHandles() {
        List<PatientPoint> points = mark.points();
        while (handles.size() < points.size()) {
            MarkHandle handle = handle(handles.size());
            handles.add(handle);
            getChildren().add(handle);
        }
        for (int n = 0; n < handles.size(); n++) {
            MarkHandle handle = handles.get(n);
            handle.place(picture.x(points.get(n)), picture.y(points.get(n)));
            handle.setAccessibleText("point " + (n + 1) + " of " + points.size() + " of a mark, " + reading.words());
        }
    }

    private MarkHandle handle(int index) {
        MarkHandle handle = new MarkHandle(new MarkHandle.Moves() {
            @Override
            public void moved(double x, double y, Object gesture) {
                sheet.change(mark.moved(index, mark.place().onto(picture.place(x, y))), gesture);
            }

            @Override
            public void removed() {
                sheet.remove(mark);
            }
        });
        handle.focusedProperty().subscribe(focused -> pseudoClassStateChanged(CHOSEN, isAnyFocused()));
        return handle;
    }

    private boolean isAnyFocused() {
        return handles.stream().anyMatch(MarkHandle::isFocused);
    }

    /** Right of the mark and below, moved inside the picture. */
    private void placeLabel(double width, double height) {
        label.setText(reading.label());
        label.setVisible(!reading.label().isEmpty());
        label.applyCss();
        double wide = label.prefWidth(-1);
        double high = label.prefHeight(-1);
        double right = mark.points().stream().mapToDouble(picture::x).max().orElse(0);
        double bottom = mark.points().stream().mapToDouble(picture::y).max().orElse(0);
        label.resizeRelocate(
                Math.max(2, Math.min(right + GAP, width - wide - 2)),
                Math.max(2, Math.min(bottom + GAP, height - high - 2)),
                wide,
                high);
    }
}
