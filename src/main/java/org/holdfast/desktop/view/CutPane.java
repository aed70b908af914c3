package org.holdfast.desktop.view;

import javafx.scene.AccessibleRole;
import javafx.scene.layout.StackPane;
import org.holdfast.desktop.render.CutQueue;
import org.holdfast.desktop.render.CutRequest;
import org.holdfast.desktop.render.ImageSurface;
import org.holdfast.desktop.render.PixelSize;
import org.holdfast.desktop.state.CutLook;
import org.holdfast.desktop.state.CutRow;
import org.holdfast.desktop.state.Words;
import org.holdfast.desktop.view.CutFurniture.Furniture;
import org.holdfast.desktop.view.CutFurniture.Letters;
import org.holdfast.desktop.viewmodel.CutGeometry;
import org.holdfast.desktop.viewmodel.ExamColumn.Images;
import org.holdfast.desktop.viewmodel.FlatPicture;
import org.holdfast.desktop.viewmodel.ReviewViewModel;

/**
 * One cut of the chosen part in one exam: picture, furniture, marks, and in its place what is going on while there is no
 * picture.
 */
final class CutPane extends StackPane {

    private final ReviewViewModel review;
    private final CutQueue queue;
    private final CutRow row;
    private final int exam;
    private final int cell;
    private final ImageSurface surface = new ImageSurface();
    private final CutFurniture furniture = new CutFurniture();
    private final PictureMouse mouse;
    private final ImageNotice notice;
    private final MarkLayer marks;

    /**
     * @param review what is shown
     * @param queue draws
     * @param tools what draws marks
     * @param row which cut
     * @param exam which exam
     * @param cell number of this place in the queue
     */
    CutPane(ReviewViewModel review, CutQueue queue, MarkTools tools, CutRow row, int exam, int cell) {
        this.review = review;
        this.queue = queue;
        this.row = row;
        this.exam = exam;
        this.cell = cell;
        this.mouse = new PictureMouse(review.bindings(), surface, new CutGestures(review, surface, row, exam));
        this.notice = new ImageNotice(review.columns(), exam);
        getStyleClass().add("image-well");
        this.marks = new MarkLayer(new ReviewMarks(review, row, exam), tools);
        getChildren().addAll(surface, furniture, marks, notice);
        setMinSize(0, 0);
        setAccessibleRole(AccessibleRole.IMAGE_VIEW);
        surface.pixelSizeProperty().subscribe(size -> draw());
        setOnMousePressed(event -> {
            review.pick(review.stateProperty().get().partId(), exam);
            mouse.pressed(event);
        });
        setOnMouseDragged(mouse::dragged);
        setOnMouseReleased(mouse::released);
        setOnScroll(mouse::scrolled);
    }

    CutRow row() {
        return row;
    }

    int exam() {
        return exam;
    }

    /** Asks for the picture as the state is now. */
    void draw() {
        PixelSize size = surface.pixelSize();
        Images images = review.columns().get(exam).imagesProperty().get();
        notice.show(images);
        if (size.width() < 1 || size.height() < 1) {
            return;
        }
        CutGeometry geometry = review.geometry(row, exam, size.width(), size.height());
        if (images instanceof Images.Loaded) {
            furnish(geometry);
        } else {
            furniture.show(Furniture.of(review.exams().get(exam).label()));
        }
        marks.show(new FlatPicture(geometry.plane(), surface.outputScale()));
        if (images instanceof Images.Loaded loaded) {
            CutLook look = review.stateProperty().get().lookOf(exam);
            queue.request(
                    cell,
                    new CutRequest(
                            loaded.volume(),
                            geometry.plane(),
                            review.stateProperty().get().slab(),
                            look.window(),
                            review.outlineOf(exam)),
                    surface::show);
        } else {
            queue.forget(cell);
            surface.clear();
        }
    }

    /** Magnifies at the middle of the picture. */
    void zoom(double factor) {
        mouse.zoom(factor, getWidth() / 2, getHeight() / 2);
    }

    /** Lets go of what the queue keeps for this pane. */
    void close() {
        queue.forget(cell);
        marks.close();
    }

    private void furnish(CutGeometry geometry) {
        double scale = surface.outputScale();
        String label = review.exams().get(exam).label();
        furniture.show(new Furniture(
                label,
                "",
                Letters.of(geometry.axes()),
                geometry.mmPerPixel() * scale,
                CutTicks.within(geometry.crossingX(), geometry.width(), scale),
                CutTicks.within(geometry.crossingY(), geometry.height(), scale)));
        setAccessibleText(row.title() + ", " + review.part().label() + ", " + label + ", window centre "
                + Words.number(
                        review.stateProperty().get().lookOf(exam).window().centreHu(), 0));
    }

    /** Closes a polygon that is being drawn; tells whether there was one. */
    boolean closePolygon() {
        return marks.closePolygon();
    }
}
