package org.holdfast.desktop.view;

import java.net.URL;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.IntStream;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.StackPane;
import javafx.util.StringConverter;
import javafx.util.Subscription;
import org.holdfast.app.FilmExam;
import org.holdfast.desktop.render.CutQueue;
import org.holdfast.desktop.state.Act;
import org.holdfast.desktop.state.FilmLook;
import org.holdfast.desktop.state.FilmPlace;
import org.holdfast.desktop.viewmodel.FilmViewModel;
import org.holdfast.desktop.viewmodel.FilmWords;
import org.holdfast.desktop.viewmodel.ReviewViewModel;

/** The radiographs of the chosen exam, each as large as the window allows, with all its windows to choose from. */
public final class FilmPage extends BorderPane implements ExamPage {

    /** A number in the drawing queue that nothing else uses. */
    private static final int CELL = 3_000_000;

    private static final double ZOOM = 1.25;

    private final FilmViewModel exam;
    private final FilmPane pane;
    private final FilmWindowBox windows = new FilmWindowBox();
    private final ComboBox<Integer> choice = new ComboBox<>();
    private final Label hint = new Label();
    private final Label notice = new Label();
    private final Subscription listening;

    /**
     * @param review whose chosen exam, known to be of radiographs
     * @param films what its files say
     * @param queue draws
     * @param close leaves the page
     */
    public FilmPage(ReviewViewModel review, FilmExam films, CutQueue queue, Runnable close) {
        int index = review.stateProperty().get().exam();
        String label = review.exam().label();
        exam = new FilmViewModel(review.columns(), index, films, looks(review, index, films));
        pane = new FilmPane(exam, review.bindings(), queue, CELL, label, true);
        notice.getStyleClass().add("image-words");
        notice.setWrapText(true);
        getStyleClass().addAll("ground-window", "whole-exam-page");
        StackPane picture = new StackPane(pane, notice);
        URL sheet = FilmPage.class.getResource("/org/holdfast/desktop/whole-exam.css");
        picture.getStylesheets()
                .add(Objects.requireNonNull(sheet, "whole-exam.css").toExternalForm());
        picture.getStyleClass().add("whole-exam");
        setTop(head(review, label, close));
        setCenter(picture);
        listening = Subscription.combine(
                exam.shownProperty().subscribe(shown -> show()),
                exam.noticeProperty().subscribe(words -> show()));
    }

    /** The windows that the review shows; the page begins fitted. */
    private static Map<Integer, FilmLook> looks(ReviewViewModel review, int index, FilmExam films) {
        Map<Integer, FilmLook> looks = new HashMap<>();
        for (int n = 0; n < films.films().size(); n++) {
            looks.put(
                    n,
                    review.stateProperty().get().lookOf(new FilmPlace(index, n)).fitted());
        }
        return looks;
    }

    private HBox head(ReviewViewModel review, String label, Runnable close) {
        return new WholeImageHead(
                "Whole exam, " + label,
                hint,
                List.of(films(), windows),
                review.bindings().keyWords(Act.WHOLE_EXAM),
                close);
    }

    private ComboBox<Integer> films() {
        List<FilmExam.Film> all = exam.films().films();
        choice.getItems().setAll(IntStream.range(0, all.size()).boxed().toList());
        choice.setAccessibleText("radiograph");
        choice.setConverter(new StringConverter<>() {
            @Override
            public String toString(Integer film) {
                return film == null
                        ? ""
                        : (film + 1) + " of " + all.size() + ": "
                                + FilmWords.view(all.get(film).facts());
            }

            @Override
            public Integer fromString(String words) {
                throw new UnsupportedOperationException("radiographs are chosen, not written");
            }
        });
        choice.setOnAction(event -> {
            if (choice.getValue() != null) {
                exam.choose(choice.getValue());
            }
        });
        choice.setVisible(all.size() > 1);
        choice.setManaged(all.size() > 1);
        return choice;
    }

    private void show() {
        notice.setText(exam.noticeProperty().get());
        notice.setVisible(!notice.getText().isEmpty());
        FilmExam.Film film = exam.described();
        hint.setText("X-ray (" + film.modality() + "), " + FilmWords.view(film.facts()) + " · scale: "
                + film.facts().scale().words());
        choice.setValue(exam.shownProperty().get().film());
        windows.show(exam);
        pane.draw();
    }

    @Override
    public boolean act(Act act) {
        int many = exam.films().films().size();
        int now = exam.shownProperty().get().film();
        switch (act) {
            case ZOOM_IN -> pane.zoom(ZOOM);
            case ZOOM_OUT -> pane.zoom(1 / ZOOM);
            case FITTED -> exam.fit();
            case STEP_ON -> exam.choose(Math.min(many - 1, now + 1));
            case STEP_BACK -> exam.choose(Math.max(0, now - 1));
            case UNDO -> exam.undo();
            case REDO -> exam.redo();
            default -> {
                return false;
            }
        }
        return true;
    }

    @Override
    public void close() {
        listening.unsubscribe();
        exam.close();
        pane.close();
    }
}
