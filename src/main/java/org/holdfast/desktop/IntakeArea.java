package org.holdfast.desktop;

import java.io.File;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ButtonBase;
import javafx.scene.control.ScrollPane;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.stage.DirectoryChooser;
import javafx.stage.FileChooser;
import javafx.stage.Window;
import javafx.util.Subscription;
import org.holdfast.app.IntakeContent;
import org.holdfast.app.IntakeSeries;
import org.holdfast.app.IntakeSeries.Kind;
import org.holdfast.app.TakenIn;
import org.holdfast.desktop.render.CutQueue;
import org.holdfast.desktop.state.Act;
import org.holdfast.desktop.state.Bindings;
import org.holdfast.desktop.view.Frame;
import org.holdfast.desktop.view.IntakeView;
import org.holdfast.desktop.view.LeftAsidePage;
import org.holdfast.desktop.view.SeriesPage;
import org.holdfast.desktop.view.SeriesPicturePage;
import org.holdfast.desktop.view.SeriesSight;
import org.holdfast.desktop.viewmodel.BackgroundRunner;
import org.holdfast.desktop.viewmodel.IntakeStage;
import org.holdfast.desktop.viewmodel.IntakeStage.Shown;
import org.holdfast.desktop.viewmodel.IntakeViewModel;
import org.holdfast.desktop.viewmodel.SeriesPicture;

/** The area in which exams are taken in, as a part of the window: its header, its keys, and the pages over it. */
final class IntakeArea {

    private final Frame frame;
    private final Surroundings surroundings;
    private final IntakeViewModel model;
    private final IntakeView view;
    private final Button counts = new Button();
    private final Button another = new Button();
    private final Subscription listening;
    private Optional<SeriesSight> seriesPage = Optional.empty();
    private boolean isShown;

    /**
     * What the area needs of the window.
     *
     * @param window owns what asks for files
     * @param runner does what takes long
     * @param queue draws
     * @param bindings the person's keys
     * @param cover lays a page over the area
     * @param uncover takes it away
     * @param openSubject opens a subject's review
     * @param goThere shows the area
     */
    record Surroundings(
            Window window,
            BackgroundRunner runner,
            CutQueue queue,
            java.util.function.Supplier<Bindings> bindings,
            java.util.function.Consumer<Node> cover,
            Runnable uncover,
            java.util.function.Consumer<Path> openSubject,
            Runnable goThere) {}

    IntakeArea(Frame frame, Path home, Surroundings surroundings) {
        this.frame = frame;
        this.surroundings = surroundings;
        model = new IntakeViewModel(surroundings.runner(), home, this::takenIn);
        view = new IntakeView(
                model, new IntakeView.Ways(this::chooseFolder, this::chooseFiles, this::showSeries, this::openReview));
        counts.getStyleClass().addAll("link", "small-text", "intake-counts");
        counts.setOnAction(event -> showLeftAside());
        another.setOnAction(event -> chooseFolder());
        listening = model.stageProperty()
                .subscribe(this::stageChanged)
                .and(model.planProperty().subscribe(plan -> showStep()));
    }

    IntakeViewModel model() {
        return model;
    }

    /** Shows the area in the window. */
    void show(List<Node> more) {
        isShown = true;
        frame.show(
                "Intake",
                place(),
                view,
                java.util.stream.Stream.concat(java.util.stream.Stream.of(counts, another), more.stream())
                        .toList());
        showStep();
    }

    /** Something else is shown. */
    void leave() {
        closeSeries();
        isShown = false;
        showStep();
    }

    /** Shows the chosen series as a whole, if there is one. */
    void showChosenSeries() {
        view.openChosen();
    }

    boolean isShown() {
        return isShown;
    }

    /** Whether all that was asked for is there. */
    boolean isSettled() {
        boolean read = !(model.stageProperty().get() instanceof IntakeStage.Reading);
        return read
                && model.pictures().isIdle()
                && seriesPage.map(SeriesSight::isSettled).orElse(true);
    }

    /** Reads what was pointed at, and shows the area. */
    void read(List<Path> paths) {
        surroundings.goThere().run();
        model.read(paths);
    }

    void chooseFolder() {
        DirectoryChooser chooser = new DirectoryChooser();
        chooser.setTitle("A folder with images");
        File chosen = chooser.showDialog(surroundings.window());
        if (chosen != null) {
            read(List.of(chosen.toPath()));
        }
    }

    void chooseFiles() {
        FileChooser chooser = new FileChooser();
        chooser.setTitle("Images or zips");
        List<File> chosen = chooser.showOpenMultipleDialog(surroundings.window());
        if (chosen != null) {
            read(chosen.stream().map(File::toPath).toList());
        }
    }

    /** Does what a key is for; tells whether it was for anything here. */
    boolean act(Act act, KeyEvent event) {
        if (frame.isCovered()) {
            return seriesPage.isPresent() && seriesPage.get().act(act);
        }
        if (belongsToFocused(event)) {
            return false;
        }
        return switch (act) {
            case SERIES_UP -> view.move(0, -1);
            case SERIES_DOWN -> view.move(0, 1);
            case SERIES_LEFT -> view.move(-1, 0);
            case SERIES_RIGHT -> view.move(1, 0);
            case SERIES_OPEN -> view.openChosen();
            case SERIES_ROLE -> view.chooseFate();
            case NEXT_QUESTION -> run(view::answerNext);
            case TAKE_IN -> run(model::takeIn);
            case NEXT_REGION -> run(view::focusNextRegion);
            case UNDO -> run(model::undo);
            case REDO -> run(model::redo);
            case ESCAPE -> model.stop();
            default -> false;
        };
    }

    /** A page over the area is gone. */
    void uncovered() {
        closeSeries();
    }

    void close() {
        closeSeries();
        listening.unsubscribe();
        view.close();
        model.close();
    }

    private static boolean belongsToFocused(KeyEvent event) {
        boolean presses = event.getCode() == KeyCode.ENTER || event.getCode() == KeyCode.SPACE;
        boolean arrow = event.getCode().isArrowKey();
        return event.getTarget() instanceof ButtonBase && (presses && !event.isShortcutDown() || arrow)
                || event.getTarget() instanceof javafx.scene.control.ComboBoxBase && (presses || arrow)
                || event.getTarget() instanceof ScrollPane && arrow;
    }

    private static boolean run(Runnable act) {
        act.run();
        return true;
    }

    private void showSeries(IntakeSeries series) {
        model.session().ifPresent(session -> {
            if (series.kind() == Kind.VOLUME || series.kind() == Kind.SLICES || series.kind() == Kind.OTHER) {
                SeriesPage page = new SeriesPage(
                        session,
                        series,
                        surroundings.runner(),
                        surroundings.queue(),
                        surroundings.bindings().get(),
                        surroundings.uncover());
                surroundings.cover().accept(page);
                seriesPage = Optional.of(page);
            } else {
                SeriesPicturePage page = new SeriesPicturePage(
                        new SeriesPicture(session, series, surroundings.runner()),
                        surroundings.queue(),
                        surroundings.bindings().get(),
                        surroundings.uncover());
                surroundings.cover().accept(page);
                seriesPage = Optional.of(page);
            }
        });
    }

    private void closeSeries() {
        seriesPage.ifPresent(SeriesSight::close);
        seriesPage = Optional.empty();
    }

    private void showLeftAside() {
        if (model.stageProperty().get() instanceof Shown shown
                && !shown.content().leftAside().isEmpty()) {
            surroundings.cover().accept(LeftAsidePage.of(shown.content(), surroundings.uncover()));
        }
    }

    private void takenIn(TakenIn result) {
        if (result.hasConstruct() && isShown) {
            surroundings.openSubject().accept(result.folder());
        }
    }

    private void openReview() {
        model.subjectFolder().ifPresent(surroundings.openSubject());
    }

    private void stageChanged(IntakeStage stage) {
        boolean shown = stage instanceof Shown;
        counts.setVisible(shown);
        counts.setManaged(shown);
        another.setText(shown ? "Read another folder" : "Read a folder");
        another.setVisible(!(stage instanceof IntakeStage.Empty));
        another.setManaged(another.isVisible());
        another.setDisable(stage instanceof IntakeStage.Reading);
        if (stage instanceof Shown now) {
            counts.setText(counts(now.content()));
            counts.setDisable(now.content().leftAside().isEmpty());
        }
        if (isShown) {
            frame.say(place());
        }
        showStep();
    }

    private void showStep() {
        IntakeStage stage = model.stageProperty().get();
        String open = "";
        if (stage instanceof Shown) {
            int questions = model.questions().size();
            open = questions == 0 ? "ready" : questions == 1 ? "1 question open" : questions + " questions open";
        } else if (stage instanceof IntakeStage.Reading) {
            open = "reading";
        }
        frame.step(Frame.Step.INTAKE, open, isShown, true);
    }

    private String place() {
        IntakeStage stage = model.stageProperty().get();
        if (stage instanceof Shown shown) {
            return shown.place() + ", read to the end";
        }
        if (stage instanceof IntakeStage.Reading reading) {
            return reading.place() + ", being read";
        }
        return model.subjectFolder()
                .map(folder -> "exams for the subject in " + org.holdfast.desktop.state.ShownPath.of(folder))
                .orElse("");
    }

    private static String counts(IntakeContent content) {
        int left = content.filesLeftAside();
        return count(content.files(), "file") + " · " + content.series() + " series · " + count(content.exams(), "exam")
                + (left == 0 ? "" : " · " + count(left, "file") + " left aside, with reasons");
    }

    private static String count(int number, String what) {
        return grouped(number) + " " + what + (number == 1 ? "" : "s");
    }

    /** Thousands apart by a thin space. */
    private static String grouped(int number) {
        return String.format(java.util.Locale.ROOT, "%,d", number).replace(',', '\u2009');
    }
}
