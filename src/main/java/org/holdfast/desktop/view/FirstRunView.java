package org.holdfast.desktop.view;

import java.util.Optional;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.ContentDisplay;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import org.holdfast.desktop.state.Act;
import org.holdfast.desktop.viewmodel.FirstRunViewModel;
import org.holdfast.desktop.viewmodel.FirstRunViewModel.Status;

/** The page that a person without a subject begins with: what the program is for, and one click on the demo. */
public final class FirstRunView extends HBox {

    private static final double WORDS = 540;

    private final FirstRunViewModel model;
    private final Button demo = new Button("Open the demo");
    private final VBox below = new VBox(8);

    /**
     * @param model what can be done
     * @param openFolder asks for a subject's folder
     * @param showLimits shows what is measured and what cannot be
     */
    public FirstRunView(FirstRunViewModel model, Runnable openFolder, Runnable showLimits) {
        this.model = model;
        getStyleClass().addAll("first-run", "ground-window");
        FirstRunDrawing drawing = new FirstRunDrawing();
        HBox.setHgrow(drawing, Priority.ALWAYS);
        demo.getStyleClass().add("main");
        demo.setDefaultButton(true);
        demo.setGraphic(new KeyCap("Enter"));
        demo.setContentDisplay(ContentDisplay.RIGHT);
        demo.setGraphicTextGap(10);
        demo.setOnAction(event -> model.openDemo());
        Label line = words("What holds, what gives,\nand since when.", "first-line");
        Label what = words(
                "Choose a part of the construct. Every exam is cut through that part at the same place, side by side from"
                        + " surgery to today, with the measured map and the number under each.",
                "first-words");
        what.getStyleClass().add("soft");
        VBox list = new VBox(
                link("Open a subject's folder", Act.OPEN_SUBJECT, openFolder),
                link("What it measures, and what CT cannot show", Act.LIMITS, showLimits),
                link("All keys", Act.KEYS, null));
        list.getStyleClass().add("first-list");
        VBox side = new VBox(18, line, what, demo, below, list);
        side.setAlignment(Pos.CENTER_LEFT);
        side.setMinWidth(340);
        side.prefWidthProperty().bind(widthProperty().multiply(0.34));
        side.setMaxWidth(WORDS);
        getChildren().addAll(drawing, side);
        model.statusProperty().subscribe(this::show);
    }

    private void show(Status status) {
        demo.setDisable(status instanceof Status.Making);
        below.getChildren().clear();
        if (status instanceof Status.Making making) {
            ProgressBar bar = new ProgressBar(making.fraction());
            bar.getStyleClass().add("thin-bar");
            bar.setMaxWidth(Double.MAX_VALUE);
            Button stop = new Button("Stop");
            stop.setOnAction(event -> model.stop());
            below.getChildren().addAll(bar, words(making.activity(), "small-text"), stop);
        } else if (status instanceof Status.Failed failed) {
            below.getChildren()
                    .add(Notice.error(
                            "The demo could not be made.",
                            failed.reason(),
                            "A subject's folder can be opened.",
                            Optional.empty()));
        } else {
            Label truth = words(
                    "One invented subject with five simulated CT exams, made on this computer in about half a minute, 340"
                            + " MB, in " + model.place() + ". No patient's images are in it.",
                    "small-text");
            truth.getStyleClass().add("faint");
            below.getChildren().add(truth);
        }
    }

    private static HBox link(String text, Act act, Runnable run) {
        Label words = new Label(text);
        words.getStyleClass().add("body-text");
        Region gap = new Region();
        HBox.setHgrow(gap, Priority.ALWAYS);
        HBox line = new HBox(words, gap, new KeyCap(act.keyWords()));
        line.setAlignment(Pos.CENTER_LEFT);
        line.getStyleClass().add("first-link");
        line.setAccessibleText(text + ", key " + act.keyWords());
        if (run != null) {
            line.setOnMouseClicked(event -> run.run());
        }
        return line;
    }

    private static Label words(String text, String style) {
        Label label = new Label(text);
        label.setWrapText(true);
        label.setMinHeight(Region.USE_PREF_SIZE);
        label.getStyleClass().add(style);
        return label;
    }
}
