package org.holdfast.desktop.view;

import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.Label;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.VBox;
import org.holdfast.desktop.state.Act;
import org.holdfast.desktop.viewmodel.ExamPose;
import org.holdfast.desktop.viewmodel.NudgeStep;
import org.holdfast.desktop.viewmodel.ReviewViewModel;

/** Where the construct lies in the chosen exam, and small steps to nudge it: a pair of buttons for each way and turn. */
final class NudgePanel extends VBox {

    private final ReviewViewModel review;
    private final Label pose = new Label();
    private final CheckBox outline = new CheckBox("outline");
    private final GridPane steps = new GridPane();
    private final Button keep = new Button("Keep");
    private final Button reset = new Button("Reset");
    /** Steps in a row on one exam are taken back together. */
    private Object gesture = new Object();

    private int gestureExam = -1;

    NudgePanel(ReviewViewModel review) {
        super(4);
        this.review = review;
        pose.getStyleClass().addAll("small-text", "soft");
        pose.setWrapText(true);
        pose.setMinHeight(USE_PREF_SIZE);
        outline.getStyleClass().add("small-text");
        outline.setTooltip(new Tooltip(
                "outline of the construct on the cuts  (" + review.bindings().keyWords(Act.OUTLINE) + ")"));
        outline.setOnAction(event -> review.outline(outline.isSelected()));
        steps.getStyleClass().add("nudge-steps");
        NudgeStep[] all = NudgeStep.values();
        for (int n = 0; n < all.length; n += 2) {
            steps.addRow(n / 2, step(all[n]), step(all[n + 1]), small(all[n].isTurn() ? "0.1°" : "0.1 mm"));
        }
        keep.getStyleClass().add("small-button");
        keep.setOnAction(event -> {
            gesture = new Object();
            review.keepPoses();
            show();
        });
        keep.setTooltip(new Tooltip("keep the pose in the subject's folder; numbers are old until measured again"));
        reset.getStyleClass().add("small-button");
        reset.setTooltip(new Tooltip("back to the pose that was found, or given"));
        reset.setOnAction(event -> review.resetPose(review.stateProperty().get().exam()));
        getChildren().addAll(pose, new FlowPane(8, 4, outline, keep, reset), steps);
    }

    void show() {
        int exam = review.stateProperty().get().exam();
        ExamPose now = review.pose(exam);
        boolean isNudged = review.stateProperty().get().nudged().containsKey(exam);
        boolean isKept = !review.hasUnkeptPoses();
        pose.setText(now.detail() + (isNudged ? isKept ? " Kept." : " Not kept yet." : ""));
        outline.setSelected(review.outlinedProperty().get());
        boolean may = review.mayNudge(exam);
        keep.setVisible(may && !isKept);
        keep.setManaged(may && !isKept);
        reset.setVisible(may && isNudged);
        reset.setManaged(may && isNudged);
        boolean hasSteps = may && (isNudged || outline.isSelected());
        steps.setVisible(hasSteps);
        steps.setManaged(hasSteps);
    }

    private Button step(NudgeStep step) {
        Button button = new Button(step.words());
        button.getStyleClass().add("small-button");
        button.setMaxWidth(Double.MAX_VALUE);
        button.setAccessibleText(
                "nudge the construct: " + step.words() + (step.isTurn() ? ", 0.1 degrees" : ", 0.1 millimetres"));
        button.setTooltip(new Tooltip(
                "by keys, and ten steps at once: " + review.bindings().keyWords(Act.NUDGE)));
        button.setOnAction(event -> take(step));
        return button;
    }

    private void take(NudgeStep step) {
        int exam = review.stateProperty().get().exam();
        if (exam != gestureExam) {
            gestureExam = exam;
            gesture = new Object();
        }
        review.nudge(exam, step, 1, gesture);
    }

    private static Label small(String text) {
        Label label = new Label(text);
        label.getStyleClass().addAll("small-text", "faint");
        label.setMinWidth(USE_PREF_SIZE);
        return label;
    }
}
