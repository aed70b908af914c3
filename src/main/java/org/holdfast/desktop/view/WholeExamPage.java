package org.holdfast.desktop.view;

import java.util.List;
import javafx.scene.control.Button;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.layout.BorderPane;
import javafx.util.Subscription;
import org.holdfast.desktop.render.CutQueue;
import org.holdfast.desktop.state.Act;
import org.holdfast.desktop.state.CutLook;
import org.holdfast.desktop.state.WindowPreset;
import org.holdfast.desktop.viewmodel.ExamColumn.Images;
import org.holdfast.desktop.viewmodel.ExamLoad;
import org.holdfast.desktop.viewmodel.ReviewViewModel;
import org.holdfast.desktop.viewmodel.WholeExamViewModel;
import org.holdfast.desktop.viewmodel.WindowChoice;

/** The chosen exam as a whole, over the review: begins at the crossing and in the window that the review shows. */
public final class WholeExamPage extends BorderPane implements ExamPage {

    /** Numbers in the drawing queue that no column of the review uses. */
    private static final int FIRST_CELL = 1_000_000;

    private final WholeExamViewModel exam;
    private final WholeExamView view;
    private final Subscription listening;

    /**
     * @param review whose chosen exam
     * @param queue draws
     * @param films shows the radiographs of the exam
     * @param close leaves the page
     */
    public WholeExamPage(ReviewViewModel review, CutQueue queue, Runnable films, Runnable close) {
        int index = review.stateProperty().get().exam();
        CutLook look = review.stateProperty().get().lookOf(index);
        String label = review.exam().label();
        exam = new WholeExamViewModel(
                label, review.poseOf(index).apply(look.crossing()), look.window(), review.bindings());
        view = new WholeExamView(exam, queue, FIRST_CELL, () -> review.columns().stop(index), () -> review.columns()
                .retry(index));
        Button beside = new Button("X-ray");
        beside.setAccessibleHelp("the radiographs of this exam");
        beside.setOnAction(event -> films.run());
        listening = review.columns().get(index).imagesProperty().subscribe(images -> {
            exam.setLoad(load(images));
            boolean hasFilms = review.columns().get(index).filmsBeside().isPresent();
            beside.setVisible(hasFilms);
            beside.setManaged(hasFilms);
        });
        getStyleClass().addAll("ground-window", "whole-exam-page");
        setTop(new WholeImageHead(
                "Whole exam, " + label,
                new Label("original slices and three planes of the scanner"),
                List.of(beside, windows(new WindowChoice(review))),
                review.bindings().keyWords(Act.WHOLE_EXAM),
                close));
        setCenter(view);
    }

    @Override
    public boolean act(Act act) {
        return view.act(act);
    }

    @Override
    public void close() {
        listening.unsubscribe();
        view.close();
    }

    private ComboBox<WindowPreset> windows(WindowChoice choice) {
        ComboBox<WindowPreset> box = new ComboBox<>();
        box.getItems().setAll(WindowPreset.values());
        box.setConverter(new PresetWords());
        box.setAccessibleText("window");
        exam.lookProperty().subscribe(look -> {
            if (choice.presetOf(look.window())
                    .filter(preset -> preset == box.getValue())
                    .isEmpty()) {
                box.setValue(choice.presetOf(look.window()).orElse(null));
            }
        });
        box.setOnAction(event -> {
            if (box.getValue() != null) {
                choice.window(box.getValue()).ifPresent(window -> {
                    exam.setWindow(window);
                    exam.endGesture();
                });
            }
        });
        return box;
    }

    private static ExamLoad load(Images images) {
        if (images instanceof Images.Loaded loaded) {
            return new ExamLoad.Loaded(loaded.volume());
        }
        if (images instanceof Images.Loading loading) {
            return new ExamLoad.Loading(loading.fraction(), loading.activity());
        }
        if (images instanceof Images.Films) {
            return new ExamLoad.Failed("These are radiographs. Leave this page and open it again to see them.");
        }
        if (images instanceof Images.Failed failed) {
            return new ExamLoad.Failed(failed.reason());
        }
        return images instanceof Images.Stopped
                ? new ExamLoad.Failed("Reading was stopped.")
                : new ExamLoad.Loading(0, "waits to be read");
    }
}
