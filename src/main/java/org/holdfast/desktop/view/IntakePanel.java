package org.holdfast.desktop.view;

import java.util.List;
import java.util.Optional;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.control.RadioButton;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.ToggleGroup;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.util.Subscription;
import org.holdfast.app.IntakeExam;
import org.holdfast.app.IntakeSeries;
import org.holdfast.app.SeriesRole;
import org.holdfast.app.TakeInPlan;
import org.holdfast.app.TakeInPlan.Way;
import org.holdfast.app.TakeInQuestion;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.viewmodel.ComparisonRows;
import org.holdfast.desktop.viewmodel.HeaderRows;
import org.holdfast.desktop.viewmodel.IntakeStage.Shown;
import org.holdfast.desktop.viewmodel.IntakeViewModel;
import org.holdfast.desktop.viewmodel.TakingIn;

/** The panel beside the exams: where they belong, whether they can be compared, what is taken out, and taking them in. */
final class IntakePanel extends BorderPane {

    private static final double MARK = 12;

    private final IntakeViewModel intake;
    private final PlaceForm place;
    private final Label measured = WrappedWords.of("small-text", "soft");
    private final FactTable comparison = new FactTable();
    private final Label nothingToCompare = WrappedWords.of("small-text", "soft");
    private final FactTable headers = new FactTable();
    private final RadioButton copy = new RadioButton("Copy without identity");
    private final RadioButton refer = new RadioButton("Leave where they are");
    private final Label way = WrappedWords.of("small-text", "faint");
    private final Button takeIn = new Button();
    private final Button answer = new Button("Answer first");
    private final Label reason = WrappedWords.of("small-text", "soft");
    private final ProgressBar bar = new ProgressBar();
    private final Label activity = WrappedWords.of("small-text", "soft");
    private final Button stop = new Button("Stop");
    private final VBox below = new VBox(8);
    private final Subscription listening;

    IntakePanel(IntakeViewModel intake) {
        this.intake = intake;
        getStyleClass().addAll("intake-panel", "ground-panel");
        place = new PlaceForm(intake);
        ToggleGroup ways = new ToggleGroup();
        copy.setToggleGroup(ways);
        refer.setToggleGroup(ways);
        copy.setOnAction(event -> intake.way(Way.COPY));
        refer.setOnAction(event -> intake.way(Way.REFER));
        VBox content = new VBox(
                place,
                rule(),
                title("Why this series is measured"),
                measured,
                rule(),
                title("Can the exams be compared?"),
                nothingToCompare,
                comparison,
                rule(),
                title("What happens to the images"),
                copy,
                refer,
                way,
                headers);
        content.getStyleClass().add("intake-panel-content");
        ScrollPane scroll = new ScrollPane(content);
        scroll.setFitToWidth(true);
        scroll.setHbarPolicy(ScrollPane.ScrollBarPolicy.NEVER);
        scroll.getStyleClass().add("side-scroll");
        setCenter(scroll);
        takeIn.getStyleClass().add("main");
        takeIn.setMinWidth(USE_PREF_SIZE);
        takeIn.setOnAction(event -> intake.takeIn());
        answer.setOnAction(event -> answerNext());
        bar.getStyleClass().add("thin-bar");
        bar.setMaxWidth(Double.MAX_VALUE);
        stop.setOnAction(event -> intake.stop());
        below.getStyleClass().add("take-in-bar");
        setBottom(below);
        listening = intake.planProperty()
                .subscribe(this::decided)
                .and(intake.chosenProperty().subscribe(this::decided))
                .and(intake.takingInProperty().subscribe(this::showTakingIn));
        decided();
    }

    /** Leads to the first open question that a field of the panel answers. */
    void answerNext() {
        List<TakeInQuestion> questions = intake.questions();
        for (TakeInQuestion question : questions) {
            if (!question.examId().isEmpty()
                    && !question.examId()
                            .equals(intake.exam().map(IntakeExam::id).orElse(""))) {
                chooseExam(question.examId());
            }
            if (place.answer(question)) {
                return;
            }
        }
    }

    void close() {
        listening.unsubscribe();
    }

    private void chooseExam(String examId) {
        if (intake.stageProperty().get() instanceof Shown shown) {
            shown.patient().exams().stream()
                    .filter(exam -> exam.id().equals(examId))
                    .findFirst()
                    .ifPresent(exam -> intake.choose(exam.series().get(0).id()));
        }
    }

    private void decided() {
        if (!(intake.stageProperty().get() instanceof Shown shown)) {
            return;
        }
        TakeInPlan plan = intake.planProperty().get();
        List<TakeInQuestion> questions = intake.questions();
        place.show(plan, intake.exam(), questions);
        measured.setText(intake.exam().map(exam -> whyMeasured(exam, plan)).orElse(""));
        showComparison(shown, plan);
        showHeaders(shown, plan);
        int count = plan.taken(shown.patient()).size();
        takeIn.setText("Take in " + count + (count == 1 ? " exam" : " exams"));
        takeIn.setDisable(!questions.isEmpty());
        answer.setVisible(!questions.isEmpty());
        reason.setText(
                questions.isEmpty()
                        ? ""
                        : "Not yet: " + questions.get(0).text()
                                + (questions.size() > 1 ? "; " + (questions.size() - 1) + " more to answer" : "")
                                + ".");
        reason.setVisible(!questions.isEmpty());
        reason.setManaged(!questions.isEmpty());
    }

    private static String whyMeasured(IntakeExam exam, TakeInPlan plan) {
        Optional<IntakeSeries> series = exam.series().stream()
                .filter(each -> plan.roleOf(each) == SeriesRole.MEASURE)
                .findFirst();
        if (series.isEmpty()) {
            return "Nothing of this exam is measured.";
        }
        String words = series.get().proposed() == SeriesRole.MEASURE
                ? series.get().why()
                : "chosen by a person; proposed was another series";
        return series.get().name() + ": " + words + ". Another may be chosen; the choice and its reason are kept.";
    }

    private void showComparison(Shown shown, TakeInPlan plan) {
        comparison.clear();
        List<ComparisonRows.Row> rows = ComparisonRows.of(shown.patient(), plan);
        for (ComparisonRows.Row row : rows) {
            Node mark =
                    switch (row.state()) {
                        case ALIKE -> NoteMark.of(org.holdfast.app.IntakeNote.Mark.GOOD, MARK);
                        case CAUTION -> new WarningMark(MARK);
                        case NOT_COMPARED -> new StateMark(PartState.CHANGED, MARK);
                    };
            comparison.add(row.name(), row.value(), Optional.of(mark), row.why());
        }
        nothingToCompare.setText(rows.isEmpty() ? "Fewer than two exams with a date are measured." : "");
        nothingToCompare.setVisible(rows.isEmpty());
        nothingToCompare.setManaged(rows.isEmpty());
    }

    private void showHeaders(Shown shown, TakeInPlan plan) {
        boolean copies = plan.way() == Way.COPY;
        copy.setSelected(copies);
        refer.setSelected(!copies);
        refer.setDisable(plan.target().whyNotRefer().isPresent() && copies);
        headers.clear();
        headers.setVisible(copies);
        headers.setManaged(copies);
        way.setText(
                plan.target().whyNotRefer().isPresent()
                        ? "They cannot stay: " + plan.target().whyNotRefer().get() + "."
                        : copies
                                ? "The originals stay as they are. Taken out of the copies' headers:"
                                : "Files and their headers stay as they are, with all that they say of the patient; the"
                                        + " subject's document names their folders.");
        if (copies) {
            for (HeaderRows.Row row : HeaderRows.of(shown.content().headers(), shown.patient(), plan)) {
                headers.add(
                        row.name(),
                        row.value(),
                        row.isWarning() ? Optional.of(new WarningMark(MARK)) : Optional.empty(),
                        row.more());
            }
        }
    }

    private void showTakingIn(TakingIn now) {
        if (now instanceof TakingIn.Running running) {
            bar.setProgress(running.fraction());
            activity.setText(running.isStopping() ? "stopping; what was half written is removed" : running.activity());
            become(List.of(bar, activity, stop));
            return;
        }
        HBox buttons = new HBox(10, takeIn, answer);
        if (now instanceof TakingIn.Failed failed) {
            become(List.of(
                    Notice.error(
                            "The exams could not be taken in.",
                            failed.reason(),
                            "Nothing of them was left in the subject's folder.",
                            Optional.empty()),
                    buttons,
                    reason));
        } else if (now instanceof TakingIn.Stopped) {
            Label stopped = WrappedWords.of("small-text", "soft");
            stopped.setText("Stopped. Nothing was left in the subject's folder.");
            become(List.of(stopped, buttons, reason));
        } else {
            become(List.of(buttons, reason));
        }
    }

    private void become(List<Node> nodes) {
        if (!below.getChildren().equals(nodes)) {
            below.getChildren().setAll(nodes);
        }
    }

    private static Region rule() {
        Region rule = new Region();
        rule.getStyleClass().add("section-rule");
        return rule;
    }

    private static Label title(String words) {
        Label title = new Label(words);
        title.getStyleClass().add("section-title");
        return title;
    }
}
