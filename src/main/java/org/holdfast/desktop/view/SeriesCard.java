package org.holdfast.desktop.view;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import javafx.geometry.Pos;
import javafx.scene.AccessibleRole;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.control.MenuButton;
import javafx.scene.control.MenuItem;
import javafx.scene.control.Tooltip;
import javafx.scene.input.MouseButton;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.util.Subscription;
import org.holdfast.app.IntakeExam;
import org.holdfast.app.IntakeNote;
import org.holdfast.app.IntakeSeries;
import org.holdfast.app.SeriesRole;
import org.holdfast.app.TakeInPlan;
import org.holdfast.desktop.viewmodel.IntakeViewModel;
import org.holdfast.desktop.viewmodel.SeriesFate;

/** A series on the page: its picture, what it is, what becomes of it, and what is to be known about it. */
final class SeriesCard extends HBox {

    private static final int MOST_NOTES = 4;
    private static final double MARK = 12;

    private final IntakeViewModel intake;
    private final IntakeExam exam;
    private final IntakeSeries series;
    private final MenuButton fate = new MenuButton();
    private final SeriesThumbnail picture;
    private final Subscription listening;

    SeriesCard(IntakeViewModel intake, IntakeExam exam, IntakeSeries series, Runnable open) {
        this.intake = intake;
        this.exam = exam;
        this.series = series;
        getStyleClass().addAll("series-card", "focusable", "ground-panel");
        setFocusTraversable(true);
        setAccessibleRole(AccessibleRole.BUTTON);
        setAccessibleHelp("Enter shows the whole series");
        picture = new SeriesThumbnail(intake.pictures().of(series.id()));
        VBox words = new VBox(head(), fate, notes());
        words.getStyleClass().add("series-words");
        words.setMinWidth(0);
        HBox.setHgrow(words, Priority.ALWAYS);
        getChildren().addAll(picture, words);
        fate.getStyleClass().add("series-fate");
        fate.setMaxWidth(Double.MAX_VALUE);
        focusedProperty().subscribe(focused -> {
            if (focused) {
                intake.choose(series.id());
            }
        });
        setOnMousePressed(event -> requestFocus());
        setOnMouseClicked(event -> {
            if (event.getButton() == MouseButton.PRIMARY && event.getClickCount() == 2) {
                open.run();
            }
        });
        listening = intake.planProperty()
                .subscribe(this::decided)
                .and(intake.chosenProperty()
                        .subscribe(now -> StyleClass.toggle(
                                this, "chosen", now.filter(series.id()::equals).isPresent())));
    }

    IntakeSeries series() {
        return series;
    }

    /** Opens the list of what may become of the series. */
    void showFates() {
        if (!fate.isDisabled()) {
            fate.requestFocus();
            fate.show();
        }
    }

    void close() {
        listening.unsubscribe();
        picture.close();
    }

    private Node head() {
        Label name = new Label(series.name());
        name.getStyleClass().add("section-title");
        name.setMinWidth(Region.USE_PREF_SIZE);
        Region gap = new Region();
        HBox.setHgrow(gap, Priority.ALWAYS);
        Label extent = new Label(series.extent());
        extent.getStyleClass().addAll("small-text", "faint", "series-extent");
        extent.setMinWidth(0);
        HBox head = new HBox(8, name, gap, extent);
        head.setAlignment(Pos.BASELINE_LEFT);
        Tooltip.install(head, new Tooltip(described()));
        return head;
    }

    private String described() {
        String words =
                series.described().isBlank() ? "no words of the scanner" : "the scanner's words: " + series.described();
        return words + "\n" + series.files() + (series.files() == 1 ? " file" : " files");
    }

    private Node notes() {
        VBox list = new VBox();
        list.getStyleClass().add("series-notes");
        List<IntakeNote> shown = series.notes();
        boolean more = shown.size() > MOST_NOTES;
        for (IntakeNote note : more ? shown.subList(0, MOST_NOTES - 1) : shown) {
            list.getChildren().add(line(note));
        }
        if (more) {
            Label rest = new Label("and " + (shown.size() - MOST_NOTES + 1) + " more");
            rest.getStyleClass().addAll("series-note", "faint", "series-more");
            rest.setTooltip(new Tooltip(shown.subList(MOST_NOTES - 1, shown.size()).stream()
                    .map(IntakeNote::text)
                    .collect(Collectors.joining("\n"))));
            list.getChildren().add(rest);
        }
        return list;
    }

    private static Node line(IntakeNote note) {
        Label words = new Label(note.text());
        words.setWrapText(true);
        words.setMinHeight(Region.USE_PREF_SIZE);
        words.getStyleClass().addAll("series-note", "soft");
        HBox.setHgrow(words, Priority.ALWAYS);
        VBox mark = new VBox(NoteMark.of(note.mark(), MARK));
        mark.getStyleClass().add("note-mark");
        return new HBox(5, mark, words);
    }

    private void decided(TakeInPlan plan) {
        SeriesFate now = SeriesFate.of(series, exam, plan);
        fate.setText(now.words());
        StyleClass.toggle(fate, "is-measured", now.isMeasured());
        StyleClass.toggle(this, "is-used", now.isMeasured());
        StyleClass.toggle(this, "is-left-out", plan.roleOf(series) == SeriesRole.LEAVE_OUT);
        fate.setDisable(plan.target().has(series) || series.possible().size() < 2);
        List<MenuItem> items = new ArrayList<>();
        for (SeriesRole role : series.possible()) {
            MenuItem item = new MenuItem(SeriesFate.words(series, role));
            item.setOnAction(event -> intake.role(series, role));
            items.add(item);
        }
        fate.getItems().setAll(items);
        fate.setAccessibleText("what becomes of it: " + now.words());
        setAccessibleText(series.name() + ", " + series.extent() + ", " + now.words() + ". "
                + series.notes().stream().map(IntakeNote::text).collect(Collectors.joining(". ")));
    }
}
