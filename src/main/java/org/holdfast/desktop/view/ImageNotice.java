package org.holdfast.desktop.view;

import java.util.List;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.viewmodel.ExamColumn.Images;
import org.holdfast.desktop.viewmodel.ExamColumns;

/** What stands in the place of a picture that is not there: being read, stopped, or failed and why. */
final class ImageNotice extends VBox {

    private final Label words = new Label();
    private final ProgressBar bar = new ProgressBar(0);
    private final Button stop = new Button("Stop");
    private final Button again = new Button("Read again");
    private final Label title = new Label("This exam cannot be read");
    private static final double MARK = 14;

    ImageNotice(ExamColumns columns, int exam) {
        getStyleClass().add("image-notice");
        setAlignment(Pos.CENTER);
        setPickOnBounds(false);
        words.setWrapText(true);
        words.getStyleClass().add("image-words");
        bar.getStyleClass().add("thin-bar");
        bar.setMaxWidth(Double.MAX_VALUE);
        stop.setOnAction(event -> columns.stop(exam));
        again.setOnAction(event -> columns.retry(exam));
        stop.getStyleClass().add("on-image");
        again.getStyleClass().add("on-image");
        title.getStyleClass().addAll("image-words", "image-title");
    }

    void show(Images images) {
        if (images instanceof Images.Loading loading) {
            words.setText(loading.activity());
            bar.setProgress(loading.fraction());
            become(words, bar, stop);
        } else if (images instanceof Images.Failed failed) {
            words.setText(failed.reason());
            words.setTooltip(new Tooltip(failed.reason()));
            CopyButton copy = new CopyButton(failed.reason());
            copy.getStyleClass().add("on-image");
            become(new HBox(6, new StateMark(PartState.FAULT, MARK), title), words, new HBox(6, again, copy));
        } else if (images instanceof Images.Stopped) {
            words.setText("reading was stopped");
            become(words, again);
        } else if (images instanceof Images.Absent) {
            words.setText("waits to be read");
            become(words);
        } else {
            setVisible(false);
        }
    }

    private void become(Node... nodes) {
        setVisible(true);
        if (!getChildren().equals(List.of(nodes))) {
            getChildren().setAll(nodes);
        }
    }
}
