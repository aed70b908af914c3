package org.holdfast.desktop.view;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import org.holdfast.desktop.state.ImageMark;
import org.holdfast.desktop.viewmodel.MarkReading;
import org.holdfast.desktop.viewmodel.MarkReadings;
import org.holdfast.desktop.viewmodel.ReviewViewModel;

/** All marks with what they measure; each can be gone to and removed. */
final class MarkList extends VBox {

    private final ReviewViewModel review;
    private final MarkReadings readings = new MarkReadings();
    private Map<ImageMark, MarkReading> shown = Map.of();

    MarkList(ReviewViewModel review) {
        this.review = review;
        getStyleClass().add("mark-list");
    }

    void show() {
        List<ImageMark> marks = review.stateProperty().get().marks();
        setVisible(!marks.isEmpty());
        setManaged(!marks.isEmpty());
        readings.keepOnly(marks);
        Map<ImageMark, MarkReading> read = new LinkedHashMap<>();
        for (ImageMark mark : marks) {
            read.put(
                    mark,
                    readings.of(mark, review.columns().get(mark.place().exam()).volume()));
        }
        if (read.equals(shown)) {
            return;
        }
        shown = read;
        getChildren().clear();
        Label title = new Label("Measured on the images");
        title.getStyleClass().add("section-title");
        getChildren().add(title);
        read.forEach((mark, reading) -> getChildren().add(line(mark, reading)));
    }

    private HBox line(ImageMark mark, MarkReading reading) {
        String exam = review.exams().get(mark.place().exam()).label();
        Button go = new Button(exam);
        go.getStyleClass().add("small-button");
        go.setAccessibleText("go to the mark on " + exam);
        go.setOnAction(event -> review.goTo(mark));
        Label words = new Label(reading.words());
        words.setWrapText(true);
        words.setMinHeight(Label.USE_PREF_SIZE);
        words.getStyleClass().addAll("small-text", "soft");
        HBox.setHgrow(words, Priority.ALWAYS);
        words.setMaxWidth(Double.MAX_VALUE);
        Button remove = new Button("×");
        remove.getStyleClass().add("small-button");
        remove.setAccessibleText("remove the mark");
        remove.setMinWidth(USE_PREF_SIZE);
        go.setMinWidth(USE_PREF_SIZE);
        remove.setOnAction(event -> review.removeMark(mark));
        HBox line = new HBox(6, go, words, remove);
        line.setAlignment(Pos.CENTER_LEFT);
        return line;
    }
}
