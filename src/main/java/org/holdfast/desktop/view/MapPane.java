package org.holdfast.desktop.view;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import javafx.scene.AccessibleRole;
import javafx.scene.control.Label;
import javafx.scene.control.Tooltip;
import javafx.scene.input.MouseEvent;
import javafx.scene.layout.StackPane;
import org.holdfast.construct.ConstructPart;
import org.holdfast.construct.CutAxes;
import org.holdfast.construct.Patch;
import org.holdfast.desktop.render.FaceMapPainter;
import org.holdfast.desktop.render.FaceMapPicture;
import org.holdfast.desktop.render.ImageSurface;
import org.holdfast.desktop.render.PixelSize;
import org.holdfast.desktop.state.Orientation;
import org.holdfast.desktop.view.CutFurniture.Furniture;
import org.holdfast.desktop.view.CutFurniture.Letters;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.desktop.viewmodel.ReadingWords;
import org.holdfast.desktop.viewmodel.ReviewViewModel;
import org.holdfast.figure.Face;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.SampleReading;

/** The chosen interface in one exam, face-on: what was found at every place. Dragging moves the crossing of the cuts. */
final class MapPane extends StackPane {

    private final ReviewViewModel review;
    private final int exam;
    private final ImageSurface surface = new ImageSurface();
    private final CutFurniture furniture = new CutFurniture();
    private final Label words = new Label();
    private final Tooltip tooltip = new Tooltip();
    private Optional<FaceMapPicture> map = Optional.empty();
    private Known known;
    private PixelSize drawnSize = PixelSize.NONE;
    private Optional<InterfaceExam> drawn = Optional.empty();
    private Object gesture = new Object();

    MapPane(ReviewViewModel review, int exam) {
        this.review = review;
        this.exam = exam;
        getStyleClass().add("image-well");
        words.getStyleClass().add("image-words");
        words.setWrapText(true);
        getChildren().addAll(surface, furniture, words);
        setMinSize(0, 0);
        setAccessibleRole(AccessibleRole.IMAGE_VIEW);
        surface.pixelSizeProperty().subscribe(size -> paint());
        setOnMousePressed(event -> {
            gesture = new Object();
            review.pick(review.stateProperty().get().partId(), exam);
            cross(event);
        });
        setOnMouseDragged(this::cross);
        setOnMouseMoved(event -> explain(event.getX(), event.getY()));
        Tooltip.install(this, tooltip);
    }

    void show(Known results) {
        known = results;
        paint();
    }

    /** Moves the ticks of the crossing; the map stays as it is. */
    void drawCrossing() {
        if (map.isEmpty() || map.get().right().isEmpty()) {
            return;
        }
        FaceMapPicture picture = map.get();
        double scale = surface.outputScale();
        PatientVector way = review.stateProperty().get().lookOf(exam).crossing().minus(picture.reference());
        double x = picture.referenceX() + way.dot(picture.right().get()) / picture.mmPerPixel();
        double y = picture.referenceY() + way.dot(picture.down().get()) / picture.mmPerPixel();
        CutAxes axes = review.part().frame().faceOn();
        // The letter of the top stands in the corner, so that it covers nothing of the map.
        furniture.show(new Furniture(
                Orientation.letters(axes.down().times(-1)),
                "",
                new Letters(Orientation.letters(axes.right().times(-1)), Orientation.letters(axes.right()), "", ""),
                0,
                CutTicks.within(x, picture.picture().width(), scale),
                CutTicks.within(y, picture.picture().height(), scale)));
    }

    private void paint() {
        if (known == null || surface.pixelSize().isEmpty()) {
            return;
        }
        ConstructPart part = review.part();
        Optional<InterfaceExam> measured = known.of(review.exams().get(exam).label(), part.id())
                .filter(m -> m.contact().isPresent());
        if (measured.equals(drawn) && surface.pixelSize().equals(drawnSize) && measured.isPresent()) {
            return;
        }
        drawn = measured;
        drawnSize = surface.pixelSize();
        if (measured.isEmpty()) {
            map = Optional.empty();
            surface.clear();
            furniture.show(new Furniture(
                    "", "", new Letters("", "", "", ""), 0, OptionalDouble.empty(), OptionalDouble.empty()));
            words.setText(review.isFilm(exam) ? MapWords.ON_FILM : MapWords.without(part, known));
            words.setVisible(true);
            setAccessibleText("no map: " + words.getText());
            return;
        }
        List<SampleReading> readings = measured.get().contact().orElseThrow().readings();
        List<Patch> patches = measured.get().face().patches();
        FaceMapPicture painted = FaceMapPainter.paint(
                readings, patches, part.frame().faceOn(), Face.GapLimits.USUAL, surface.pixelSize());
        map = Optional.of(painted);
        surface.show(painted.picture());
        words.setVisible(false);
        setAccessibleText(
                ReadingWords.summary(part.label(), review.exams().get(exam).label(), readings));
        drawCrossing();
    }

    private void cross(MouseEvent event) {
        if (map.isEmpty() || map.get().right().isEmpty()) {
            return;
        }
        FaceMapPicture picture = map.get();
        double scale = surface.outputScale();
        PatientVector right = picture.right().get();
        PatientVector down = picture.down().get();
        double rightMm = (event.getX() * scale - picture.referenceX()) * picture.mmPerPixel();
        double downMm = (event.getY() * scale - picture.referenceY()) * picture.mmPerPixel();
        PatientPoint now = review.stateProperty().get().lookOf(exam).crossing();
        PatientVector way = now.minus(picture.reference());
        review.cross(exam, now.along(right, rightMm - way.dot(right)).along(down, downMm - way.dot(down)), gesture);
        event.consume();
    }

    private void explain(double x, double y) {
        double scale = surface.outputScale();
        tooltip.setText(map.flatMap(picture -> picture.readingAt(x * scale, y * scale))
                .map(ReadingWords::of)
                .orElse("beside the face"));
    }
}
