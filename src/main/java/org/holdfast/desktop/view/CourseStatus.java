package org.holdfast.desktop.view;

import java.util.Optional;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.layout.VBox;
import org.holdfast.desktop.viewmodel.CourseResults;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.desktop.viewmodel.CourseResults.Status;

/** How it stands with measuring: a bar with Stop, or what failed with a way on. */
final class CourseStatus {

    private CourseStatus() {}

    /** The node to show; empty while nothing is going on and numbers are there. */
    static Optional<Node> node(Known known, CourseResults results) {
        if (known.status() instanceof Status.Measuring measuring) {
            ProgressBar bar = new ProgressBar(measuring.fraction());
            bar.getStyleClass().add("thin-bar");
            bar.setMaxWidth(Double.MAX_VALUE);
            Button stop = button("Stop", results::stop);
            return Optional.of(box(label("Measuring: " + measuring.activity()), bar, stop));
        }
        if (known.status() instanceof Status.Failed failed) {
            return Optional.of(Notice.error(
                    "The course could not be measured.",
                    failed.reason(),
                    "The images can be looked at.",
                    Optional.of(button("Measure again", results::measureAgain))));
        }
        if (known.status() instanceof Status.Stopped) {
            return Optional.of(box(
                    label("Measuring was stopped; nothing was written."), button("Measure", results::measureAgain)));
        }
        return Optional.empty();
    }

    private static Button button(String text, Runnable act) {
        Button button = new Button(text);
        button.setOnAction(event -> act.run());
        return button;
    }

    private static Label label(String text) {
        Label label = new Label(text);
        label.setWrapText(true);
        label.getStyleClass().addAll("small-text", "soft");
        return label;
    }

    private static VBox box(Node... nodes) {
        VBox box = new VBox(6, nodes);
        box.getStyleClass().add("status-box");
        return box;
    }
}
