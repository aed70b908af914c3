package org.holdfast.desktop.view;

import java.util.Optional;
import java.util.OptionalDouble;
import javafx.scene.AccessibleRole;
import javafx.scene.control.Label;
import javafx.scene.control.Tooltip;
import javafx.scene.input.MouseEvent;
import javafx.scene.layout.Pane;
import javafx.scene.layout.StackPane;
import javafx.scene.shape.Rectangle;
import org.holdfast.construct.CutAxes;
import org.holdfast.construct.PartKind;
import org.holdfast.desktop.render.ImageSurface;
import org.holdfast.desktop.render.MapPicture;
import org.holdfast.desktop.render.MapPicture.Caption;
import org.holdfast.desktop.render.PixelSize;
import org.holdfast.desktop.state.MapKind;
import org.holdfast.desktop.state.Orientation;
import org.holdfast.desktop.view.CutFurniture.Furniture;
import org.holdfast.desktop.view.CutFurniture.Letters;
import org.holdfast.desktop.viewmodel.PartMap;
import org.holdfast.desktop.viewmodel.ReviewViewModel;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * What was found on the chosen part in one exam: a face face-on, a screw unrolled, a rod straightened. Dragging moves the
 * crossing of the cuts.
 */
final class MapPane extends StackPane {

    private static final Letters NO_LETTERS = new Letters("", "", "", "");

    private final ReviewViewModel review;
    private final int exam;
    private final ImageSurface surface = new ImageSurface();
    private final CutFurniture furniture = new CutFurniture();
    private final Pane captions = new Pane();
    private final Label words = new Label();
    private final Tooltip tooltip = new Tooltip();
    private Optional<MapPicture> map = Optional.empty();
    private PixelSize drawnSize = PixelSize.NONE;
    private Optional<PartMap.Key> drawn = Optional.empty();
    private Object gesture = new Object();

    MapPane(ReviewViewModel review, int exam) {
        this.review = review;
        this.exam = exam;
        getStyleClass().add("image-well");
        words.getStyleClass().add("image-words");
        words.setWrapText(true);
        captions.setMouseTransparent(true);
        Rectangle border = new Rectangle();
        border.widthProperty().bind(widthProperty());
        border.heightProperty().bind(heightProperty());
        setClip(border);
        getChildren().addAll(surface, captions, furniture, words);
        setMinSize(0, 0);
        setAccessibleRole(AccessibleRole.IMAGE_VIEW);
        surface.pixelSizeProperty().subscribe(size -> draw());
        setOnMousePressed(event -> {
            gesture = new Object();
            review.pick(review.stateProperty().get().partId(), exam);
            cross(event);
        });
        setOnMouseDragged(this::cross);
        setOnMouseMoved(event -> explain(event.getX(), event.getY()));
        Tooltip.install(this, tooltip);
    }

    /** Draws what the state and the numbers are now; does nothing that is drawn already. */
    void draw() {
        if (surface.pixelSize().isEmpty()) {
            return;
        }
        Optional<PartMap.Key> now = review.mapKey(exam);
        if (!now.equals(drawn) || !surface.pixelSize().equals(drawnSize)) {
            drawn = now;
            drawnSize = surface.pixelSize();
            paint(review.partMap(exam));
        }
        drawCrossing();
    }

    private void paint(PartMap now) {
        map = now.content().map(content -> content.paint(surface.pixelSize()));
        captions.getChildren().clear();
        words.setVisible(map.isEmpty());
        if (map.isEmpty()) {
            surface.clear();
            furniture.show(new Furniture("", "", NO_LETTERS, 0, OptionalDouble.empty(), OptionalDouble.empty()));
            words.setText(now.words());
            setAccessibleText("no map: " + now.words());
            return;
        }
        surface.show(map.get().picture());
        setAccessibleText(now.words());
        for (Caption caption : map.get().captions()) {
            Label label = new Label(caption.text());
            label.getStyleClass().add("map-image-caption");
            label.setLayoutX(caption.x() / surface.outputScale());
            label.setLayoutY(caption.y() / surface.outputScale() - 7);
            captions.getChildren().add(label);
        }
    }

    private void drawCrossing() {
        if (map.isEmpty()) {
            return;
        }
        MapPicture picture = map.get();
        double scale = surface.outputScale();
        PatientVector way = review.stateProperty().get().lookOf(exam).crossing().minus(picture.reference());
        OptionalDouble x = tick(picture.right(), way, picture.referenceX(), picture);
        OptionalDouble y = tick(picture.down(), way, picture.referenceY(), picture);
        CutAxes axes = review.part().frame().faceOn();
        boolean isFace = review.part().kind() == PartKind.INTERFACE;
        // The letter of the top stands in the corner, so that it covers nothing of the map.
        furniture.show(new Furniture(
                isFace ? Orientation.letters(axes.down().times(-1)) : "",
                "",
                letters(axes, isFace),
                0,
                within(x, picture.picture().width(), scale),
                within(y, picture.picture().height(), scale)));
    }

    private Letters letters(CutAxes axes, boolean isFace) {
        if (isFace) {
            return new Letters(Orientation.letters(axes.right().times(-1)), Orientation.letters(axes.right()), "", "");
        }
        return review.map().filter(kind -> kind == MapKind.ZONE).isPresent()
                ? new Letters("head", "tip", "", "")
                : NO_LETTERS;
    }

    private static OptionalDouble tick(
            Optional<PatientVector> direction, PatientVector way, double reference, MapPicture picture) {
        return direction.isPresent()
                ? OptionalDouble.of(reference + way.dot(direction.get()) / picture.mmPerPixel())
                : OptionalDouble.empty();
    }

    private static OptionalDouble within(OptionalDouble at, int pixels, double scale) {
        return at.isPresent() ? CutTicks.within(at.getAsDouble(), pixels, scale) : at;
    }

    private void cross(MouseEvent event) {
        if (map.isEmpty()) {
            return;
        }
        MapPicture picture = map.get();
        double scale = surface.outputScale();
        double rightMm = (event.getX() * scale - picture.referenceX()) * picture.mmPerPixel();
        double downMm = (event.getY() * scale - picture.referenceY()) * picture.mmPerPixel();
        PatientPoint now = review.stateProperty().get().lookOf(exam).crossing();
        PatientVector way = now.minus(picture.reference());
        PatientPoint to = now;
        if (picture.right().isPresent()) {
            to = to.along(
                    picture.right().get(), rightMm - way.dot(picture.right().get()));
        }
        if (picture.down().isPresent()) {
            to = to.along(picture.down().get(), downMm - way.dot(picture.down().get()));
        }
        review.cross(exam, to, gesture);
        event.consume();
    }

    private void explain(double x, double y) {
        double scale = surface.outputScale();
        tooltip.setText(
                map.flatMap(picture -> picture.wordsAt(x * scale, y * scale)).orElse("beside the map"));
    }
}
