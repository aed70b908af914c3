package org.holdfast.desktop.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import javafx.application.Platform;
import javafx.geometry.Bounds;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import javafx.util.StringConverter;
import javafx.util.Subscription;
import org.holdfast.app.IntakeExam;
import org.holdfast.app.IntakeNote;
import org.holdfast.app.IntakePatient;
import org.holdfast.app.IntakeSeries;
import org.holdfast.desktop.viewmodel.IntakeStage;
import org.holdfast.desktop.viewmodel.IntakeStage.Shown;
import org.holdfast.desktop.viewmodel.IntakeViewModel;

/** The area in which exams are taken in: a row for each exam with a card for each series, and the panel beside them. */
public final class IntakeView extends BorderPane {

    /** So many exams are laid out at once; the rest on demand. */
    private static final int EXAMS_AT_ONCE = 40;

    private final IntakeViewModel intake;
    private final Ways ways;
    private final VBox list = new VBox();
    private final ScrollPane scroll = new ScrollPane(list);
    private final List<IntakeExamRow> rows = new ArrayList<>();
    private final IntakeMessages messages;
    private final Subscription listening;
    private Optional<IntakePanel> panel = Optional.empty();
    private Optional<IntakePatient> shownPatient = Optional.empty();

    /**
     * Where the page leads.
     *
     * @param readFolder asks for a folder and reads it
     * @param readFiles asks for files and reads them
     * @param openSeries shows a series as a whole
     * @param openReview opens the review of the subject that was added to
     */
    public record Ways(
            Runnable readFolder, Runnable readFiles, Consumer<IntakeSeries> openSeries, Runnable openReview) {}

    /**
     * @param intake what is shown
     * @param ways where the page leads
     */
    public IntakeView(IntakeViewModel intake, Ways ways) {
        this.intake = intake;
        this.ways = ways;
        this.messages = new IntakeMessages(intake, ways);
        getStyleClass().addAll("intake", "ground-window");
        list.getStyleClass().add("intake-list");
        scroll.setFitToWidth(true);
        scroll.setHbarPolicy(ScrollPane.ScrollBarPolicy.NEVER);
        scroll.getStyleClass().add("side-scroll");
        scroll.setFocusTraversable(false);
        scroll.vvalueProperty().subscribe(this::wantPictures);
        scroll.viewportBoundsProperty().subscribe(this::wantPictures);
        list.heightProperty().subscribe(this::wantPictures);
        listening = intake.stageProperty().subscribe(this::show);
    }

    /** Moves the focus from card to card; tells whether there is one to go to. */
    public boolean move(int right, int down) {
        List<SeriesCard> cards = cards();
        if (cards.isEmpty()) {
            return false;
        }
        Optional<SeriesCard> now = cardInUse();
        SeriesCard next = now.isEmpty() ? cards.get(0) : CardPath.next(rows, now.get(), right, down);
        next.requestFocus();
        reveal(next);
        return true;
    }

    /** Shows the chosen series as a whole; tells whether one is chosen. */
    public boolean openChosen() {
        Optional<SeriesCard> card = cardInUse();
        card.ifPresent(each -> ways.openSeries().accept(each.series()));
        return card.isPresent();
    }

    /** Opens the list of what may become of the chosen series; tells whether one is chosen. */
    public boolean chooseFate() {
        Optional<SeriesCard> card = cardInUse();
        card.ifPresent(SeriesCard::showFates);
        return card.isPresent();
    }

    /** Leads to the first open question. */
    public void answerNext() {
        panel.ifPresent(IntakePanel::answerNext);
    }

    /** Puts the focus into the other half of the page: cards, or panel. */
    public void focusNextRegion() {
        boolean inCards = cards().stream().anyMatch(card -> card.isFocused());
        if (inCards && panel.isPresent()) {
            FocusOrder.into(panel.get());
        } else if (!move(0, 0)) {
            FocusOrder.into(this);
        }
    }

    /** Lets go of everything. */
    public void close() {
        listening.unsubscribe();
        clear();
    }

    private void show(IntakeStage stage) {
        if (!(stage instanceof Shown shown)) {
            clear();
            setRight(null);
            setCenter(messages.of(stage));
            return;
        }
        if (shownPatient.filter(patient -> patient == shown.patient()).isPresent()) {
            return;
        }
        clear();
        shownPatient = Optional.of(shown.patient());
        notes(shown);
        addRows(shown.patient().exams());
        panel = Optional.of(new IntakePanel(intake));
        setCenter(scroll);
        setRight(panel.get());
        scroll.setVvalue(0);
        Platform.runLater(() -> cards().stream().findFirst().ifPresent(Node::requestFocus));
    }

    private void clear() {
        rows.forEach(IntakeExamRow::close);
        rows.clear();
        list.getChildren().clear();
        panel.ifPresent(IntakePanel::close);
        panel = Optional.empty();
        shownPatient = Optional.empty();
    }

    private void notes(Shown shown) {
        for (IntakeNote note : shown.content().notes()) {
            Label words = new Label(note.text());
            words.setWrapText(true);
            words.getStyleClass().addAll("cell-text", "soft");
            HBox line = new HBox(6, NoteMark.of(note.mark(), 13), words);
            HBox.setHgrow(words, Priority.ALWAYS);
            line.getStyleClass().add("intake-note");
            list.getChildren().add(line);
        }
        if (shown.content().patients().size() > 1) {
            list.getChildren().add(patients(shown));
        }
    }

    private Node patients(Shown shown) {
        ComboBox<IntakePatient> box = new ComboBox<>();
        box.getItems().setAll(shown.content().patients());
        box.setValue(shown.patient());
        box.setAccessibleText("whose exams are shown");
        box.setConverter(new StringConverter<>() {
            @Override
            public String toString(IntakePatient patient) {
                int count = patient.exams().size();
                return patient.name() + ", " + count + (count == 1 ? " exam" : " exams");
            }

            @Override
            public IntakePatient fromString(String words) {
                throw new UnsupportedOperationException("patients are chosen, not written");
            }
        });
        box.setOnAction(event -> intake.choosePatient(box.getValue()));
        Label words = new Label("Shown are the exams of");
        words.getStyleClass().addAll("cell-text", "soft");
        HBox line = new HBox(8, words, box);
        line.setAlignment(Pos.CENTER_LEFT);
        line.getStyleClass().add("intake-note");
        return line;
    }

    private void addRows(List<IntakeExam> exams) {
        int from = rows.size();
        int to = Math.min(exams.size(), from + EXAMS_AT_ONCE);
        for (IntakeExam exam : exams.subList(from, to)) {
            IntakeExamRow row = new IntakeExamRow(intake, exam, ways.openSeries());
            rows.add(row);
            list.getChildren().add(row);
        }
        if (to < exams.size()) {
            Button more = new Button("Show " + Math.min(EXAMS_AT_ONCE, exams.size() - to) + " more exams");
            more.setOnAction(event -> {
                list.getChildren().remove(more);
                addRows(exams);
            });
            list.getChildren().add(more);
        }
    }

    private List<SeriesCard> cards() {
        return rows.stream().flatMap(row -> row.cards().stream()).toList();
    }

    private Optional<SeriesCard> cardInUse() {
        Optional<String> chosen = intake.chosenProperty().get();
        return cards().stream()
                .filter(card -> card.isFocused()
                        || chosen.filter(card.series().id()::equals).isPresent())
                .findFirst();
    }

    private void reveal(Node card) {
        Bounds at = list.sceneToLocal(card.localToScene(card.getLayoutBounds()));
        double all = list.getHeight();
        double seen = scroll.getViewportBounds().getHeight();
        if (all <= seen) {
            return;
        }
        double top = scroll.getVvalue() * (all - seen);
        if (at.getMinY() < top) {
            scroll.setVvalue(Math.max(0, (at.getMinY() - 10) / (all - seen)));
        } else if (at.getMaxY() > top + seen) {
            scroll.setVvalue(Math.min(1, (at.getMaxY() + 10 - seen) / (all - seen)));
        }
    }

    /** Pictures are made of what can be seen; where cards lie is known after the layout. */
    private void wantPictures() {
        Platform.runLater(() -> {
            double seen = scroll.getViewportBounds().getHeight();
            double top = scroll.getVvalue() * Math.max(0, list.getHeight() - seen);
            List<String> inSight = cards().stream()
                    .filter(card -> {
                        Bounds at = list.sceneToLocal(card.localToScene(card.getLayoutBounds()));
                        return at != null && at.getMaxY() >= top && at.getMinY() <= top + seen;
                    })
                    .map(card -> card.series().id())
                    .toList();
            intake.pictures().want(inSight);
        });
    }
}
