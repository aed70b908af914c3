package org.holdfast.desktop.view;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.util.Subscription;
import org.holdfast.app.IntakeExam;
import org.holdfast.app.IntakeNote;
import org.holdfast.app.IntakeSeries;
import org.holdfast.app.TakeInPlan;
import org.holdfast.desktop.state.Words;
import org.holdfast.desktop.viewmodel.IntakeViewModel;

/** An exam on the page: what it is called and its day, beside it a card for each series. */
final class IntakeExamRow extends HBox {

    private final IntakeExam exam;
    private final Label title = new Label();
    private final Label day = words();
    private final List<SeriesCard> cards = new ArrayList<>();
    private final CardGrid grid = new CardGrid();
    private final Subscription listening;

    IntakeExamRow(IntakeViewModel intake, IntakeExam exam, Consumer<IntakeSeries> open) {
        this.exam = exam;
        getStyleClass().add("intake-exam");
        title.getStyleClass().add("column-header");
        title.setWrapText(true);
        Label made = words();
        made.setText(modalities());
        VBox head = new VBox(2, title, day, made);
        exam.notes().forEach(note -> head.getChildren().add(note(note)));
        head.getStyleClass().add("intake-exam-head");
        for (IntakeSeries series : exam.series()) {
            cards.add(new SeriesCard(intake, exam, series, () -> open.accept(series)));
        }
        grid.getChildren().addAll(cards);
        HBox.setHgrow(grid, Priority.ALWAYS);
        getChildren().addAll(head, grid);
        listening = intake.planProperty().subscribe(this::decided);
    }

    IntakeExam exam() {
        return exam;
    }

    List<SeriesCard> cards() {
        return cards;
    }

    /** How many cards stand beside each other now. */
    int columns() {
        return grid.columns();
    }

    void close() {
        listening.unsubscribe();
        cards.forEach(SeriesCard::close);
    }

    private void decided(TakeInPlan plan) {
        boolean placed = plan.dateOf(exam).isPresent();
        OptionalInt days = plan.daysOf(exam);
        String label = plan.labelOf(exam);
        title.setText(
                !placed
                        ? "Not placed"
                        : label.isEmpty() ? plan.dateOf(exam).orElseThrow().toString() : title(label));
        day.setText(
                !placed
                        ? "date missing"
                        : days.isEmpty()
                                ? "day of the operation not given"
                                : "day " + Words.number(days.getAsInt(), 0) + ", "
                                        + plan.dateOf(exam).orElseThrow());
        StyleClass.toggle(this, "not-taken", !plan.takes(exam));
    }

    private static String title(String label) {
        return label.equals("surgery") ? "After surgery" : label;
    }

    private String modalities() {
        String names =
                exam.series().stream()
                        .map(IntakeExamRow::modality)
                        .collect(Collectors.toCollection(TreeSet::new))
                        .stream()
                        .collect(Collectors.joining(" and "));
        int count = exam.series().size();
        return names + ", " + count + " series";
    }

    private static String modality(IntakeSeries series) {
        return switch (series.kind()) {
            case FILM -> "X-ray";
            case PICTURE, OTHER ->
                series.modality().isEmpty() || series.modality().equals("OT") ? "other" : series.modality();
            default -> series.modality().isEmpty() ? "unnamed" : series.modality();
        };
    }

    private static Node note(IntakeNote note) {
        Label words = words();
        words.setText(note.text());
        HBox line = new HBox(4, NoteMark.of(note.mark(), 12), words);
        HBox.setHgrow(words, Priority.ALWAYS);
        return line;
    }

    private static Label words() {
        Label label = new Label();
        label.setWrapText(true);
        label.setMinHeight(Region.USE_PREF_SIZE);
        label.getStyleClass().addAll("small-text", "soft");
        return label;
    }
}
