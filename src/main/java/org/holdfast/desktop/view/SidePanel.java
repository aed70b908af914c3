package org.holdfast.desktop.view;

import java.util.List;
import java.util.Optional;
import javafx.geometry.Insets;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.ColumnConstraints;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import org.holdfast.app.FilmExam;
import org.holdfast.app.FilmResult;
import org.holdfast.construct.ConstructPart;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.state.Words;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.desktop.viewmodel.ExamHeading;
import org.holdfast.desktop.viewmodel.NumberUnder;
import org.holdfast.desktop.viewmodel.PartDetail;
import org.holdfast.desktop.viewmodel.PartDetail.Row;
import org.holdfast.desktop.viewmodel.ReviewViewModel;
import org.holdfast.desktop.viewmodel.SettingsRows;

/** The panel at the side: the chosen part in the chosen exam, how its number was made, and what limits it. */
final class SidePanel extends VBox {

    private final ReviewViewModel review;
    private final VBox content = new VBox();
    private final MarkList marks;
    private final CourseStatus status;
    private final NudgePanel nudge;

    SidePanel(ReviewViewModel review, MarkList marks) {
        this.review = review;
        this.marks = marks;
        this.nudge = new NudgePanel(review);
        this.status = new CourseStatus(review.results());
        getStyleClass().addAll("side-panel", "ground-panel");
        content.getStyleClass().add("side-content");
        ScrollPane scroll = new ScrollPane(content);
        scroll.setFitToWidth(true);
        scroll.setHbarPolicy(ScrollPane.ScrollBarPolicy.NEVER);
        scroll.getStyleClass().add("side-scroll");
        VBox.setVgrow(scroll, Priority.ALWAYS);
        getChildren().add(scroll);
    }

    /** Shows marks anew, and nothing else. */
    void showMarks() {
        marks.show();
    }

    /** Shows the pose anew, and nothing else. */
    void showPose() {
        nudge.show();
    }

    /** Shows how far measuring is, and nothing else. */
    void showStatus(Known known) {
        status.show(known);
    }

    void show(Known known, ExamHeading heading) {
        Optional<FilmExam> films =
                review.columns().get(review.exam().index()).filmExamProperty().get();
        if (films.isPresent()) {
            showFilms(films.get(), known, heading);
        } else {
            showVolume(known, heading);
        }
    }

    /** A radiograph carries no number: what it is, what it allows and how its scale came about. */
    private void showFilms(FilmExam films, Known known, ExamHeading heading) {
        content.getChildren().clear();
        add(
                label(review.part().label(), "page-title"),
                label(heading.title() + " · " + heading.aside() + " · " + heading.facts(), "small-text", "soft"));
        showStatus(known);
        add(status, gap(), label(NumberUnder.onFilm().value(), "number", "worded"));
        add(label("Verdict: " + FilmResult.VERDICT.value().words(), "body-text", "strong"));
        FilmResult.VERDICT.causes().forEach(cause -> add(label(Words.sentence(cause), "small-text", "soft")));
        sentences("This exam", FilmSentences.of(films));
    }

    private void showVolume(Known known, ExamHeading heading) {
        ConstructPart part = review.part();
        NumberUnder under = review.number(review.exam().index());
        PartDetail detail = PartDetail.of(
                part,
                review.exam(),
                known,
                review.columns().get(review.exam().index()).factsProperty().get(),
                review.subject().truth());
        content.getChildren().clear();
        add(label(part.label(), "page-title"), label(heading.title() + " · " + heading.facts(), "small-text", "soft"));
        showStatus(known);
        add(status);
        known.staleness(review.exam().label(), part.id())
                .ifPresent(why -> add(Notice.stale(why, review.results()::measureAgain)));
        // While it is measured the bar above says so; there is no number to talk about yet.
        boolean isMeasuring = known.isMeasuring() && !under.isNumber();
        if (!isMeasuring) {
            verdict(under, detail);
        }
        heading.warning().ifPresent(cause -> warn("HU may not be compared with the reference exam: " + cause + "."));
        add(gap(), label("Pose", "section-title"), nudge);
        nudge.show();
        marks.show();
        add(marks);
        detail.sections().forEach(each -> section(each.title(), each.rows()));
        detail.caution().ifPresent(caution -> add(label(caution, "small-text", "soft")));
        sentences("This exam", detail.scan());
        known.report().ifPresent(report -> section("Settings", SettingsRows.of(report.settings())));
    }

    private void verdict(NumberUnder under, PartDetail detail) {
        Label value = label(under.value(), "number");
        StyleClass.toggle(value, "worded", !under.isNumber());
        StyleClass.toggle(value, "stale", under.state() == PartState.STALE);
        add(gap(), value);
        if (under.bar().high().isPresent()) {
            BoundsBar bar = new BoundsBar();
            bar.show(under.bar());
            add(bar);
        }
        String bounds = under.bounds().isEmpty() ? "" : "bounds " + under.bounds() + ", ";
        // Where there is no number the causes below say why.
        if (under.isNumber() || !under.second().isEmpty()) {
            add(label(bounds + under.limit(), "small-text", "soft"));
        }
        if (!under.second().isEmpty()) {
            add(label(under.second().replace('\n', ' '), "small-text", "soft"));
        }
        if (!detail.verdict().isEmpty()) {
            add(label("Verdict: " + detail.verdict(), "body-text", "strong"));
        }
        for (String cause : detail.causes()) {
            add(label(cause, "small-text", "soft"));
        }
    }

    private void warn(String sentence) {
        Label words = label(sentence, "small-text", "ink-change");
        words.setGraphic(new WarningMark(12));
        add(words);
    }

    private void section(String title, List<Row> rows) {
        if (rows.isEmpty()) {
            return;
        }
        add(gap(), label(title, "section-title"));
        GridPane table = new GridPane();
        table.getStyleClass().add("fact-table");
        ColumnConstraints name = new ColumnConstraints();
        name.setHgrow(Priority.ALWAYS);
        ColumnConstraints value = new ColumnConstraints();
        value.setHalignment(javafx.geometry.HPos.RIGHT);
        table.getColumnConstraints().addAll(name, value);
        for (int n = 0; n < rows.size(); n++) {
            Row row = rows.get(n);
            Label what = label(row.name(), "small-text", "faint");
            Label figure = label(row.value(), "small-text");
            figure.setWrapText(false);
            figure.setMinWidth(USE_PREF_SIZE);
            if (!row.why().isEmpty()) {
                Tooltip why = new Tooltip(Words.sentence(row.why()));
                why.setWrapText(true);
                why.setMaxWidth(360);
                what.setTooltip(why);
                figure.setTooltip(why);
                figure.setAccessibleHelp(row.why());
            }
            table.addRow(n, what, figure);
        }
        add(table);
    }

    private void sentences(String title, List<String> sentences) {
        if (sentences.isEmpty()) {
            return;
        }
        add(gap(), label(title, "section-title"));
        sentences.forEach(sentence -> add(label(sentence, "small-text", "soft")));
    }

    private void add(Node... nodes) {
        content.getChildren().addAll(nodes);
    }

    private static Node gap() {
        javafx.scene.layout.Region rule = new javafx.scene.layout.Region();
        rule.getStyleClass().add("section-rule");
        VBox.setMargin(rule, new Insets(6, 0, 2, 0));
        return rule;
    }

    private static Label label(String text, String... classes) {
        Label label = new Label(text);
        label.getStyleClass().addAll(classes);
        label.setWrapText(true);
        label.setMinHeight(USE_PREF_SIZE);
        return label;
    }
}
