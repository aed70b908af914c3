package org.holdfast.desktop.view;

import java.util.List;
import java.util.Optional;
import javafx.application.Platform;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.ContentDisplay;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.util.Subscription;
import org.holdfast.desktop.state.Act;
import org.holdfast.desktop.state.Bindings;
import org.holdfast.desktop.state.ShownPath;
import org.holdfast.desktop.viewmodel.FirstRunViewModel;
import org.holdfast.desktop.viewmodel.FirstRunViewModel.Status;

/** The page that a person without a subject begins with: what the program is for, and one click on the demo. */
public final class FirstRunView extends HBox {

    private static final double WORDS = 540;

    private final FirstRunViewModel model;
    private final Button demo = new Button("Open the demo");
    private final VBox below = new VBox(8);
    private final ProgressBar bar = new ProgressBar();
    private final Label activity = words("", "small-text");
    private final Button stop = new Button("Stop");
    private Subscription listening = Subscription.EMPTY;

    /**
     * What else can be done than to open the demo.
     *
     * @param readFolder asks for a folder of images that are to be taken in
     * @param openFolder asks for a subject's folder
     * @param showLimits shows what is measured and what cannot be
     * @param showKeys shows all keys
     */
    public record Ways(Runnable readFolder, Runnable openFolder, Runnable showLimits, Runnable showKeys) {}

    /**
     * @param model what can be done
     * @param ways where the list leads
     * @param bindings which key does what
     */
    public FirstRunView(FirstRunViewModel model, Ways ways, Bindings bindings) {
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
        bar.getStyleClass().add("thin-bar");
        bar.setMaxWidth(Double.MAX_VALUE);
        stop.setCancelButton(true);
        stop.setGraphic(new KeyCap("Esc"));
        stop.setContentDisplay(ContentDisplay.RIGHT);
        stop.setOnAction(event -> model.stop());
        VBox list = new VBox(
                link("Take in a folder of images, or drop it here", Act.READ_FOLDER, ways.readFolder(), bindings),
                link("Open a subject's folder", Act.OPEN_SUBJECT, ways.openFolder(), bindings),
                link("What it measures, and what CT cannot show", Act.LIMITS, ways.showLimits(), bindings),
                link("All keys", Act.KEYS, ways.showKeys(), bindings));
        list.getStyleClass().add("first-list");
        VBox side = new VBox(18, headline(), purpose(), demo, below, list);
        side.setAlignment(Pos.CENTER_LEFT);
        side.setMinWidth(340);
        side.prefWidthProperty().bind(widthProperty().multiply(0.34));
        side.setMaxWidth(WORDS);
        getChildren().addAll(drawing, side);
        sceneProperty().subscribe(this::listen);
    }

    /** The model outlives the page: it is listened to only while the page is shown. */
    private void listen(Scene scene) {
        listening.unsubscribe();
        listening = scene == null ? Subscription.EMPTY : model.statusProperty().subscribe(this::show);
        if (scene != null) {
            // Before the page is laid out nothing on it can take the focus.
            Platform.runLater(demo::requestFocus);
        }
    }

    private static Label headline() {
        return words("What holds, what gives,\nand since when.", "first-line");
    }

    private static Label purpose() {
        Label what = words(
                "Choose a part of the construct. Every exam is cut through that part at the same place, side by side from"
                        + " surgery to today; under each interface stand the measured map and the number.",
                "first-words");
        what.getStyleClass().add("soft");
        return what;
    }

    private void show(Status status) {
        boolean making = status instanceof Status.Making;
        boolean heldFocus = demo.isFocused() || stop.isFocused();
        if (status instanceof Status.Making now) {
            bar.setProgress(now.fraction());
            activity.setText(now.isStopping() ? "stopping; what was half made is removed" : now.activity());
        }
        below(making ? List.of(bar, activity, stop) : List.of(said(status)));
        demo.setDisable(making);
        if (heldFocus) {
            (making ? stop : demo).requestFocus();
        }
    }

    /** Nodes that are there already stay: a button made anew under the pointer could not be pressed. */
    private void below(List<Node> nodes) {
        if (!below.getChildren().equals(nodes)) {
            below.getChildren().setAll(nodes);
        }
    }

    private Node said(Status status) {
        if (status instanceof Status.Failed failed) {
            return Notice.error(
                    "The demo could not be made.",
                    failed.reason(),
                    "A subject's folder can be opened.",
                    Optional.empty());
        }
        String subject = "One invented subject with five simulated CT exams, ";
        String made = model.earlier()
                .map(folder -> subject + "made on this computer earlier, in " + ShownPath.of(folder) + ".")
                .orElse(subject + "made on this computer in about half a minute, 340\u2009MB, in "
                        + ShownPath.of(model.place()) + ".");
        Label truth = words(made + " No patient's images are in it.", "small-text");
        truth.getStyleClass().add("faint");
        return truth;
    }

    private static PageLink link(String text, Act act, Runnable run, Bindings bindings) {
        return new PageLink(text, bindings.keyWords(act), run);
    }

    private static Label words(String text, String style) {
        Label label = new Label(text);
        label.setWrapText(true);
        label.setMinHeight(Region.USE_PREF_SIZE);
        label.getStyleClass().add(style);
        return label;
    }
}
