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

/**
 * How it stands with measuring: a bar with Stop, or what failed with a way on; nothing while numbers are there. Bar and
 * Stop stay the same nodes from report to report, else no press on Stop would come to its end.
 */
final class CourseStatus extends VBox {

    private final CourseResults results;
    private final Label activity = label("");
    private final ProgressBar bar = new ProgressBar();
    private final VBox measuringBox;

    /** @param results what is begun and stopped */
    CourseStatus(CourseResults results) {
        this.results = results;
        bar.getStyleClass().add("thin-bar");
        bar.setMaxWidth(Double.MAX_VALUE);
        measuringBox = box(activity, bar, button("Stop", results::stop));
    }

    void show(Known known) {
        if (known.status() instanceof Status.Measuring measuring) {
            activity.setText("Measuring: " + measuring.activity());
            bar.setProgress(measuring.fraction());
            if (!getChildren().contains(measuringBox)) {
                getChildren().setAll(measuringBox);
            }
        } else if (known.status() instanceof Status.Failed failed) {
            getChildren()
                    .setAll(Notice.error(
                            "There are no numbers to show.",
                            failed.reason(),
                            "The images can be looked at.",
                            Optional.of(button("Measure again", results::measureAgain))));
        } else if (known.status() instanceof Status.Stopped) {
            getChildren()
                    .setAll(box(
                            label("Measuring was stopped; nothing was written."),
                            button("Measure", results::measureAgain)));
        } else {
            getChildren().clear();
        }
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
