package org.holdfast.desktop.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.scene.layout.Pane;
import javafx.scene.shape.Circle;
import javafx.scene.shape.Ellipse;
import javafx.scene.shape.Polygon;
import javafx.scene.shape.Polyline;
import javafx.scene.shape.Rectangle;
import javafx.scene.shape.Shape;
import org.holdfast.desktop.state.ImageMark;
import org.holdfast.desktop.state.ImageMark.AngleMark;
import org.holdfast.desktop.state.ImageMark.LengthMark;
import org.holdfast.desktop.state.ImageMark.RegionMark;
import org.holdfast.desktop.state.MarkPlace;
import org.holdfast.desktop.state.MarkTool;
import org.holdfast.desktop.viewmodel.FlatPicture;
import org.holdfast.desktop.viewmodel.MarkReading;
import org.holdfast.desktop.viewmodel.ReviewViewModel;
import org.holdfast.geometry.PatientPoint;

/** The marks of one picture: shows those that lie on its plane, moves their points, draws new ones. */
final class MarkLayer extends Pane {

    private static final double HANDLE = 4;
    private static final double HIT = 12;
    /** A mark is shown by planes up to this far away, mm. */
    private static final double SAME_PLANE_MM = 0.3;
    /** A press and release nearer than this is no mark, logical pixels. */
    private static final double LEAST = 3;

    private final ReviewViewModel review;
    private final MarkTools tools;
    private final int exam;
    private final List<PatientPoint> drawing = new ArrayList<>();
    private FlatPicture picture;
    private List<ImageMark> shown = List.of();
    private FlatPicture shownOn;

    MarkLayer(ReviewViewModel review, MarkTools tools, int exam) {
        this.review = review;
        this.tools = tools;
        this.exam = exam;
        setPickOnBounds(false);
        tools.inHandProperty().subscribe(tool -> {
            setPickOnBounds(tool.isPresent());
            drawing.clear();
            if (picture != null) {
                draw(true);
            }
        });
        setOnMousePressed(this::pressed);
        setOnMouseDragged(this::dragged);
        setOnMouseReleased(this::released);
        setOnMouseMoved(this::moved);
    }

    /** Shows the marks on a picture that lies so. */
    void show(FlatPicture flat) {
        picture = flat;
        draw(false);
    }

    private void draw(boolean anew) {
        List<ImageMark> here = review.stateProperty().get().marks().stream()
                .filter(mark -> mark.place().isShownBy(exam, picture.place(0, 0), picture.axes(), SAME_PLANE_MM))
                .toList();
        if (!anew && here.equals(shown) && (here.isEmpty() || picture.equals(shownOn))) {
            return;
        }
        shown = here;
        shownOn = picture;
        getChildren().clear();
        here.forEach(mark -> add(mark, true));
        preview().ifPresent(mark -> add(mark, false));
    }

    private void add(ImageMark mark, boolean isSet) {
        List<PatientPoint> points = mark.points();
        Shape shape = shape(mark, points);
        shape.getStyleClass().add("image-mark");
        shape.setMouseTransparent(true);
        getChildren().add(shape);
        if (isSet) {
            for (int n = 0; n < points.size(); n++) {
                getChildren().addAll(handle(mark, n));
            }
        }
        Optional<Label> label = label(mark, points);
        label.ifPresent(getChildren()::add);
    }

    private Shape shape(ImageMark mark, List<PatientPoint> points) {
        if (mark instanceof RegionMark region && region.kind() != RegionMark.Kind.POLYGON) {
            double x1 = picture.x(points.get(0));
            double y1 = picture.y(points.get(0));
            double x2 = picture.x(points.get(1));
            double y2 = picture.y(points.get(1));
            double width = Math.abs(x2 - x1);
            double height = Math.abs(y2 - y1);
            return region.kind() == RegionMark.Kind.RECTANGLE
                    ? new Rectangle(Math.min(x1, x2), Math.min(y1, y2), width, height)
                    : new Ellipse((x1 + x2) / 2, (y1 + y2) / 2, width / 2, height / 2);
        }
        Double[] flat = points.stream()
                .flatMap(p -> java.util.stream.Stream.of(picture.x(p), picture.y(p)))
                .toArray(Double[]::new);
        if (mark instanceof RegionMark) {
            Polygon polygon = new Polygon();
            polygon.getPoints().setAll(flat);
            return polygon;
        }
        Polyline line = new Polyline();
        line.getPoints().setAll(flat);
        return line;
    }

    private List<Node> handle(ImageMark mark, int index) {
        PatientPoint at = mark.points().get(index);
        Circle drawn = new Circle(picture.x(at), picture.y(at), HANDLE);
        drawn.getStyleClass().add("image-handle");
        drawn.setMouseTransparent(true);
        Circle hit = new Circle(picture.x(at), picture.y(at), HIT);
        hit.getStyleClass().add("hit");
        Object gesture = new Object();
        hit.setOnMousePressed(MouseEvent::consume);
        hit.setOnMouseDragged(event -> {
            event.consume();
            current(mark)
                    .ifPresent(now ->
                            review.changeMark(now.moved(index, picture.place(event.getX(), event.getY())), gesture));
        });
        hit.setOnMouseReleased(MouseEvent::consume);
        return List.of(drawn, hit);
    }

    private Optional<ImageMark> current(ImageMark mark) {
        return review.stateProperty().get().marks().stream()
                .filter(other -> other.id().equals(mark.id()))
                .findFirst();
    }

    private Optional<Label> label(ImageMark mark, List<PatientPoint> points) {
        MarkReading reading = MarkReading.of(mark, review.columns().get(exam).volume());
        if (reading.label().isEmpty()) {
            return Optional.empty();
        }
        Label label = new Label(reading.label());
        label.getStyleClass().add("image-label");
        label.setMouseTransparent(true);
        double right = points.stream().mapToDouble(picture::x).max().orElse(0);
        double bottom = points.stream().mapToDouble(picture::y).max().orElse(0);
        label.relocate(
                Math.max(2, Math.min(right + 6, getWidth() - 110)),
                Math.max(2, Math.min(bottom + 4, getHeight() - 18)));
        return Optional.of(label);
    }

    private void pressed(MouseEvent event) {
        Optional<MarkTool> tool = tools.inHandProperty().get();
        if (tool.isEmpty() || picture == null || event.getButton() != MouseButton.PRIMARY) {
            return;
        }
        event.consume();
        PatientPoint at = picture.place(event.getX(), event.getY());
        if (tool.get().isDragged()) {
            drawing.clear();
            drawing.add(at);
            drawing.add(at);
        } else {
            if (drawing.isEmpty()) {
                drawing.add(at);
            }
            boolean closes = tool.get() == MarkTool.POLYGON && event.getClickCount() > 1 && drawing.size() > 3;
            if (closes || drawing.size() == tool.get().points()) {
                finish(tool.get());
                return;
            }
            drawing.add(at);
        }
        draw(true);
    }

    private void dragged(MouseEvent event) {
        if (drawing.isEmpty()) {
            return;
        }
        event.consume();
        follow(event);
    }

    private void moved(MouseEvent event) {
        if (drawing.size() > 1) {
            follow(event);
        }
    }

    private void follow(MouseEvent event) {
        drawing.set(drawing.size() - 1, picture.place(event.getX(), event.getY()));
        draw(true);
    }

    private void released(MouseEvent event) {
        Optional<MarkTool> tool = tools.inHandProperty().get();
        if (tool.isEmpty() || drawing.isEmpty()) {
            return;
        }
        event.consume();
        if (tool.get().isDragged()) {
            boolean isLong = Math.hypot(
                            picture.x(drawing.get(1)) - picture.x(drawing.get(0)),
                            picture.y(drawing.get(1)) - picture.y(drawing.get(0)))
                    >= LEAST;
            if (isLong) {
                finish(tool.get());
            } else {
                drawing.clear();
                draw(true);
            }
        }
    }

    /** Closes a polygon that is being drawn; tells whether there was one. */
    boolean closePolygon() {
        if (tools.inHandProperty().get().filter(MarkTool.POLYGON::equals).isEmpty() || drawing.size() < 4) {
            return false;
        }
        finish(MarkTool.POLYGON);
        return true;
    }

    private void finish(MarkTool tool) {
        if (tool == MarkTool.POLYGON) {
            drawing.remove(drawing.size() - 1);
        }
        Optional<ImageMark> mark = mark(tool, UUID.randomUUID().toString());
        drawing.clear();
        mark.ifPresent(review::addMark);
        tools.take(Optional.empty());
    }

    private Optional<ImageMark> preview() {
        return tools.inHandProperty().get().flatMap(tool -> mark(tool, "drawing"));
    }

    private Optional<ImageMark> mark(MarkTool tool, String id) {
        if (drawing.size() < 2) {
            return Optional.empty();
        }
        MarkPlace place = new MarkPlace(
                review.stateProperty().get().partId(),
                exam,
                picture.place(0, 0),
                picture.axes(),
                review.stateProperty().get().slab());
        PatientPoint first = drawing.get(0);
        PatientPoint second = drawing.get(1);
        return switch (tool) {
            case LENGTH -> Optional.of(new LengthMark(id, place, first, second));
            case ANGLE ->
                drawing.size() < 3
                        ? Optional.of(new LengthMark(id, place, first, second))
                        : Optional.of(new AngleMark(id, place, first, second, drawing.get(2)));
            case ELLIPSE -> Optional.of(new RegionMark(id, place, RegionMark.Kind.ELLIPSE, List.of(first, second)));
            case RECTANGLE -> Optional.of(new RegionMark(id, place, RegionMark.Kind.RECTANGLE, List.of(first, second)));
            case POLYGON ->
                drawing.size() < 3
                        ? Optional.of(new LengthMark(id, place, first, second))
                        : Optional.of(new RegionMark(id, place, RegionMark.Kind.POLYGON, drawing));
        };
    }
}
