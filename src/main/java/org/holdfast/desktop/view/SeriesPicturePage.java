package org.holdfast.desktop.view;

import java.net.URL;
import java.util.List;
import java.util.Objects;
import javafx.scene.control.Label;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.StackPane;
import javafx.util.Subscription;
import org.holdfast.desktop.render.CutQueue;
import org.holdfast.desktop.state.Act;
import org.holdfast.desktop.state.Bindings;
import org.holdfast.desktop.viewmodel.SeriesPicture;

/** A radiograph, localizer or capture that was read and is not taken in yet, large. */
public final class SeriesPicturePage extends BorderPane implements SeriesSight {

    /** Number in the drawing queue that no other page uses. */
    private static final int CELL = 2_100_000;

    private static final double ZOOM = 1.25;

    private final SeriesPicture picture;
    private final FilmPane pane;
    private final FilmWindowBox windows = new FilmWindowBox();
    private final Label notice = new Label();
    private final Subscription listening;

    /**
     * @param picture what is shown
     * @param queue draws
     * @param bindings the person's keys and mouse
     * @param close leaves the page
     */
    public SeriesPicturePage(SeriesPicture picture, CutQueue queue, Bindings bindings, Runnable close) {
        this.picture = picture;
        pane = new FilmPane(picture, bindings, queue, CELL, picture.series().name(), true);
        notice.getStyleClass().add("image-words");
        notice.setWrapText(true);
        getStyleClass().addAll("ground-window", "whole-exam-page");
        StackPane well = new StackPane(pane, notice);
        URL sheet = SeriesPicturePage.class.getResource("/org/holdfast/desktop/whole-exam.css");
        well.getStylesheets()
                .add(Objects.requireNonNull(sheet, "whole-exam.css").toExternalForm());
        well.getStyleClass().add("whole-exam");
        setTop(head(bindings, close));
        setCenter(well);
        listening = Subscription.combine(
                picture.shownProperty().subscribe(look -> show()),
                picture.noticeProperty().subscribe(words -> show()));
    }

    @Override
    public boolean act(Act act) {
        switch (act) {
            case ZOOM_IN -> pane.zoom(ZOOM);
            case ZOOM_OUT -> pane.zoom(1 / ZOOM);
            case FITTED -> picture.fit();
            case UNDO -> picture.undo();
            case REDO -> picture.redo();
            default -> {
                return false;
            }
        }
        return true;
    }

    @Override
    public boolean isSettled() {
        return picture.isSettled();
    }

    @Override
    public void close() {
        listening.unsubscribe();
        picture.close();
        pane.close();
    }

    private HBox head(Bindings bindings, Runnable close) {
        return new WholeImageHead(
                picture.series().name(),
                new Label(picture.series().extent() + " · shown only, nothing is measured here"),
                List.of(windows),
                bindings.keyWords(Act.ESCAPE),
                close);
    }

    private void show() {
        notice.setText(picture.noticeProperty().get());
        notice.setVisible(!notice.getText().isEmpty());
        windows.show(picture);
        pane.draw();
    }
}
