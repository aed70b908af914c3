package org.holdfast.desktop.view;

import java.util.List;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.viewmodel.ExamLoad;

/** What stands over a whole exam whose images are not there: being read, or failed and why. */
final class WholeExamNotice extends VBox {

    private static final double WIDTH = 320;

    private final Label words = new Label();
    private final ProgressBar bar = new ProgressBar(0);
    private final Button stop = new Button("Stop");
    private final Button again = new Button("Read again");

    WholeExamNotice(Runnable onStop, Runnable onAgain) {
        getStyleClass().add("image-notice");
        setAlignment(Pos.CENTER);
        setPickOnBounds(false);
        setMaxSize(WIDTH, Region.USE_PREF_SIZE);
        words.setWrapText(true);
        words.getStyleClass().add("image-words");
        bar.getStyleClass().add("thin-bar");
        bar.setMaxWidth(Double.MAX_VALUE);
        stop.getStyleClass().add("on-image");
        again.getStyleClass().add("on-image");
        stop.setOnAction(event -> onStop.run());
        again.setOnAction(event -> onAgain.run());
    }

    void show(ExamLoad load) {
        setVisible(!(load instanceof ExamLoad.Loaded));
        if (load instanceof ExamLoad.Loading loading) {
            words.setText(loading.activity());
            bar.setProgress(loading.fraction());
            become(List.of(words, bar, stop));
        } else if (load instanceof ExamLoad.Failed failed) {
            words.setText(failed.why());
            become(List.of(new StateMark(PartState.FAULT, 14), words, again));
        }
    }

    /** Only where something else comes: a button that is put back loses the focus. */
    private void become(List<Node> nodes) {
        if (!getChildren().equals(nodes)) {
            getChildren().setAll(nodes);
        }
    }
}
