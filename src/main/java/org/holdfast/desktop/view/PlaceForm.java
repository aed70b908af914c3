package org.holdfast.desktop.view;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.layout.ColumnConstraints;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import org.holdfast.app.IntakeExam;
import org.holdfast.app.TakeInPlan;
import org.holdfast.app.TakeInQuestion;
import org.holdfast.app.TakeInQuestion.About;
import org.holdfast.desktop.state.ShownPath;
import org.holdfast.desktop.viewmodel.DayText;
import org.holdfast.desktop.viewmodel.IntakeViewModel;

/** Where the exams belong: the subject, its operation, and the exam that is asked about. */
final class PlaceForm extends VBox {

    private final IntakeViewModel intake;
    private final AnswerField code;
    private final AnswerField operation;
    private final AnswerField label;
    private final AnswerField date;
    private final Label exam = new Label("Exam");
    private final Label into = WrappedWords.of("small-text", "faint");
    private final Label hint = WrappedWords.of("small-text", "soft");
    private final Button take = new Button();
    private Optional<IntakeExam> shown = Optional.empty();

    PlaceForm(IntakeViewModel intake) {
        this.intake = intake;
        code = new AnswerField("Subject's code", "such as S-014", intake::code);
        operation = new AnswerField("Day of the operation", DayText.FORM, this::operationTyped);
        label = new AnswerField("Label of the exam", "made from its day", this::labelTyped);
        date = new AnswerField("Day of the exam", DayText.FORM, this::dateTyped);
        take.getStyleClass().add("small-button");
        take.setOnAction(event -> shown.ifPresent(
                of -> intake.takeExam(of, !intake.planProperty().get().takes(of))));
        GridPane form = new GridPane();
        form.getStyleClass().add("answer-form");
        ColumnConstraints names = new ColumnConstraints();
        names.setMinWidth(USE_PREF_SIZE);
        ColumnConstraints fields = new ColumnConstraints();
        fields.setHgrow(Priority.ALWAYS);
        form.getColumnConstraints().addAll(names, fields);
        row(form, 0, new Label("Subject"), code);
        row(form, 1, new Label("Operation"), operation);
        row(form, 2, exam, label);
        row(form, 3, new Label("Exam date"), date);
        Label title = new Label("Where does it belong?");
        title.getStyleClass().add("page-title");
        getStyleClass().add("place-form");
        getChildren().addAll(title, form, into, hint, take);
    }

    /** Shows what is decided, and which exam is asked about. */
    void show(TakeInPlan plan, Optional<IntakeExam> of, List<TakeInQuestion> questions) {
        boolean another = !shown.map(IntakeExam::id).equals(of.map(IntakeExam::id));
        shown = of;
        boolean isThere =
                plan.target().subject().isPresent() && intake.subjectFolder().isPresent();
        code.show(plan.subjectCode(), code.field().getText().strip().equals(plan.subjectCode()));
        code.field().setDisable(isThere);
        Optional<LocalDate> day = plan.surgery();
        operation.show(
                text(day), DayText.of(operation.field().getText()).day().equals(day) && (day.isPresent() || !another));
        operation.field().setDisable(plan.target().subject().isPresent());
        showExam(plan, another);
        Set<About> open = questions.stream().map(TakeInQuestion::about).collect(Collectors.toSet());
        code.ask(open.contains(About.CODE));
        code.fault(fault(questions, About.CODE).filter(words -> !plan.code().isBlank()));
        operation.ask(open.contains(About.SURGERY));
        into.setText(
                plan.target().subject().isPresent()
                        ? "added to the subject in "
                                + ShownPath.of(plan.target().folder())
                        : plan.subjectCode().isBlank()
                                ? ""
                                : "a new subject in "
                                        + ShownPath.of(plan.target().folder()));
        label.ask(isAsked(questions, About.LABEL));
        label.fault(shown.flatMap(now -> questions.stream()
                .filter(question ->
                        question.about() == About.LABEL && question.examId().equals(now.id()))
                .map(TakeInQuestion::text)
                .findFirst()));
        date.ask(isAsked(questions, About.DATE));
    }

    /** Leads to the field in which a question is answered; tells whether it has one. */
    boolean answer(TakeInQuestion question) {
        Node field =
                switch (question.about()) {
                    case CODE -> code.field();
                    case SURGERY -> operation.field();
                    case DATE -> date.field();
                    case LABEL -> label.field();
                    case FOLDER, EXAMS -> null;
                };
        if (field != null) {
            field.requestFocus();
        }
        return field != null;
    }

    private void showExam(TakeInPlan plan, boolean another) {
        boolean none = shown.isEmpty();
        label.field().setDisable(none);
        take.setVisible(!none);
        take.setManaged(!none);
        if (none) {
            date.field().setDisable(true);
            return;
        }
        IntakeExam now = shown.get();
        String given = plan.labelOf(now);
        label.show(given, label.field().getText().strip().equals(given) && !another);
        Optional<LocalDate> day = plan.dateOf(now);
        boolean isInFiles = now.date().isPresent();
        date.field().setDisable(isInFiles);
        date.show(
                text(day), !another && DayText.of(date.field().getText()).day().equals(day));
        if (another) {
            date.fault(Optional.empty());
        }
        hint.setText(
                isInFiles
                        ? "The day is the files' " + now.dateSource() + "."
                        : "No file of this exam says its day. A date is asked for, never guessed.");
        take.setText(plan.takes(now) ? "Leave this exam out" : "Take this exam in");
    }

    private boolean isAsked(List<TakeInQuestion> questions, About about) {
        return shown.isPresent()
                && questions.stream()
                        .anyMatch(question -> question.about() == about
                                && question.examId().equals(shown.get().id()));
    }

    private static Optional<String> fault(List<TakeInQuestion> questions, About about) {
        return questions.stream()
                .filter(question -> question.about() == about)
                .map(TakeInQuestion::text)
                .findFirst();
    }

    private void operationTyped(String text) {
        DayText day = DayText.of(text);
        operation.fault(Optional.of(day.fault()).filter(words -> !words.isEmpty()));
        intake.operation(day.day());
    }

    private void dateTyped(String text) {
        DayText day = DayText.of(text);
        date.fault(Optional.of(day.fault()).filter(words -> !words.isEmpty()));
        shown.ifPresent(of -> intake.date(of, day.day()));
    }

    private void labelTyped(String text) {
        shown.ifPresent(of -> intake.label(of, Optional.of(text.strip()).filter(words -> !words.isEmpty())));
    }

    private static String text(Optional<LocalDate> day) {
        return day.map(LocalDate::toString).orElse("");
    }

    private static void row(GridPane form, int row, Label name, Node field) {
        name.getStyleClass().addAll("body-text", "soft");
        form.addRow(row, name, field);
    }
}
