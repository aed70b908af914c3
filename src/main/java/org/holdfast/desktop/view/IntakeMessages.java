package org.holdfast.desktop.view;

import java.util.List;
import java.util.Optional;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import org.holdfast.app.IntakeContent;
import org.holdfast.app.TakenIn;
import org.holdfast.desktop.state.ShownPath;
import org.holdfast.desktop.viewmodel.IntakeStage;
import org.holdfast.desktop.viewmodel.IntakeViewModel;

/** What the page says while there are no exams on it: nothing read yet, being read, failed, taken in. */
final class IntakeMessages {

    private static final double WIDTH = 620;

    private final IntakeViewModel intake;
    private final IntakeView.Ways ways;
    private final ProgressBar bar = new ProgressBar();
    private final Label title = label("", "first-line", "intake-message-title");
    private final Label activity = label("", "body-text", "soft");
    private final Button stop = new Button("Stop");
    private final VBox reading = page(title, bar, activity, stop);

    IntakeMessages(IntakeViewModel intake, IntakeView.Ways ways) {
        this.intake = intake;
        this.ways = ways;
        bar.getStyleClass().add("thin-bar");
        bar.setMaxWidth(Double.MAX_VALUE);
        stop.setOnAction(event -> intake.stop());
    }

    /** What to show; the page of the reading stays the same, so that its button can be pressed while it is updated. */
    Node of(IntakeStage stage) {
        if (stage instanceof IntakeStage.Reading now) {
            title.setText("Reading the " + now.place());
            bar.setProgress(now.fraction());
            activity.setText(now.isStopping() ? "stopping" : now.activity());
            return reading;
        }
        if (stage instanceof IntakeStage.Failed failed) {
            return page(
                    Notice.error(
                            "The " + failed.place() + " could not be read.",
                            failed.reason(),
                            "Something else can be read.",
                            Optional.empty()),
                    waysIn(true));
        }
        if (stage instanceof IntakeStage.NothingFound nothing) {
            return nothing(nothing);
        }
        return stage instanceof IntakeStage.Done done ? done(done.result()) : empty();
    }

    private Node empty() {
        return page(
                label("Which images are to be taken in?", "first-line", "intake-message-title"),
                label(
                        "Folders, files, zips or a disc, with whatever lies beside the images: drop them anywhere on this"
                                + " window. They are read where they are; nothing is changed.",
                        "body-text",
                        "soft"),
                waysIn(true));
    }

    private Node nothing(IntakeStage.NothingFound nothing) {
        VBox page = page(
                label("No images were found in the " + nothing.place() + ".", "first-line", "intake-message-title"));
        IntakeContent content = nothing.content();
        for (IntakeContent.LeftAside left : content.leftAside()) {
            page.getChildren()
                    .add(label(
                            left.files().size() + (left.files().size() == 1 ? " file: " : " files: ") + left.reason(),
                            "cell-text",
                            "soft"));
        }
        content.notes().forEach(note -> page.getChildren().add(label(note.text(), "cell-text", "soft")));
        page.getChildren().add(waysIn(true));
        return page;
    }

    private Node done(TakenIn result) {
        int exams = result.exams();
        VBox page = page(
                label(
                        (exams == 1 ? "One exam is" : exams + " exams are") + " taken in as subject " + result.code()
                                + ".",
                        "first-line",
                        "intake-message-title"),
                label(
                        result.files() > 0
                                ? result.files() + " files without identity are in " + ShownPath.of(result.folder())
                                        + "."
                                : "The images stay where they are; " + ShownPath.of(result.folder())
                                        + " says where that is.",
                        "body-text",
                        "soft"));
        result.notes().forEach(note -> {
            HBox line = new HBox(6, NoteMark.of(note.mark(), 13), label(note.text(), "cell-text", "soft"));
            page.getChildren().add(line);
        });
        if (result.hasConstruct()) {
            Button review = new Button("Open the review");
            review.getStyleClass().add("main");
            review.setOnAction(event -> ways.openReview().run());
            page.getChildren().add(review);
        } else {
            page.getChildren()
                    .add(label(
                            "Before anything can be measured, what was implanted must be described: as construct.json in"
                                    + " that folder, in the form of the construct document. The review opens then.",
                            "body-text",
                            "strong"));
        }
        page.getChildren().add(waysIn(false));
        return page;
    }

    private Node waysIn(boolean isMain) {
        Button folder = new Button("Read a folder");
        if (isMain) {
            folder.getStyleClass().add("main");
        }
        folder.setOnAction(event -> ways.readFolder().run());
        Button files = new Button("Read files or a zip");
        files.setOnAction(event -> ways.readFiles().run());
        HBox buttons = new HBox(10, folder, files);
        buttons.setAlignment(Pos.CENTER_LEFT);
        return buttons;
    }

    private static VBox page(Node... nodes) {
        VBox page = new VBox(14, nodes);
        page.getStyleClass().add("intake-message");
        page.setMaxWidth(WIDTH);
        page.setAlignment(Pos.CENTER_LEFT);
        return page;
    }

    private static Label label(String text, String... classes) {
        Label label = new Label(text);
        label.setWrapText(true);
        label.setMinHeight(Label.USE_PREF_SIZE);
        label.getStyleClass().addAll(List.of(classes));
        return label;
    }
}
