package org.holdfast.desktop;

import java.io.File;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import javafx.application.Platform;
import javafx.geometry.Rectangle2D;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.TextInputControl;
import javafx.scene.control.ToggleButton;
import javafx.scene.input.KeyEvent;
import javafx.stage.DirectoryChooser;
import javafx.stage.Screen;
import javafx.stage.Stage;
import javafx.util.Subscription;
import org.holdfast.app.BindingsFile;
import org.holdfast.app.DemoPlace;
import org.holdfast.app.DemoSubject;
import org.holdfast.app.ExamImages;
import org.holdfast.app.ExamVolumes;
import org.holdfast.app.FilmExam;
import org.holdfast.app.ReviewSubject;
import org.holdfast.app.SubjectFolder;
import org.holdfast.app.UseCaseException;
import org.holdfast.desktop.render.CutQueue;
import org.holdfast.desktop.state.Act;
import org.holdfast.desktop.state.Act.Area;
import org.holdfast.desktop.state.Bindings;
import org.holdfast.desktop.view.ExamPage;
import org.holdfast.desktop.view.FilmPage;
import org.holdfast.desktop.view.FirstRunView;
import org.holdfast.desktop.view.FirstRunView.Ways;
import org.holdfast.desktop.view.Fonts;
import org.holdfast.desktop.view.Frame;
import org.holdfast.desktop.view.KeyPage;
import org.holdfast.desktop.view.LimitsPage;
import org.holdfast.desktop.view.ReviewView;
import org.holdfast.desktop.view.Theme;
import org.holdfast.desktop.view.WholeExamPage;
import org.holdfast.desktop.viewmodel.BackgroundRunner;
import org.holdfast.desktop.viewmodel.FailureText;
import org.holdfast.desktop.viewmodel.FirstRunViewModel;
import org.holdfast.desktop.viewmodel.IntakeViewModel;
import org.holdfast.desktop.viewmodel.ReviewViewModel;

/** The one window: which area it shows, pages over it, theme, and what every area has in common. */
public final class MainWindow {

    private static final double WIDTH = 1920;
    private static final double HEIGHT = 1080;
    private static final double LEAST_WIDTH = 1024;
    private static final double LEAST_HEIGHT = 640;

    private static final String BINDINGS_REFUSED = "Keys of your own could not be read; the usual ones count.";

    private final Stage stage;
    private final BackgroundRunner runner;
    private final Frame frame = new Frame();
    private final Scene scene;
    private final CutQueue queue;
    private final FirstRunViewModel firstRun;
    private final IntakeArea intake;
    private Theme theme = Theme.DARK;
    private Bindings bindings = Bindings.usual();
    private Optional<OpenReview> open = Optional.empty();
    private Optional<ExamPage> wholeExam = Optional.empty();

    /** A subject's review as long as it is shown. */
    private record OpenReview(
            ReviewViewModel model, ReviewView view, ReviewKeys keys, List<Node> acts, Subscription listening) {

        void close() {
            listening.unsubscribe();
            view.close();
            model.close();
        }
    }

    /**
     * @param stage the toolkit's window
     * @param runner does what takes long
     */
    public MainWindow(Stage stage, BackgroundRunner runner) {
        this.stage = stage;
        this.runner = runner;
        Fonts.load();
        firstRun = new FirstRunViewModel(runner, DemoPlace.usual(), DemoSubject.Size.FULL, this::openSubject);
        queue = new CutQueue(Platform::runLater, (failure, cell) -> report(failure));
        Rectangle2D screen = Screen.getPrimary().getVisualBounds();
        scene = new Scene(frame, Math.min(WIDTH, screen.getWidth()), Math.min(HEIGHT, screen.getHeight()));
        theme.apply(scene);
        scene.addEventFilter(KeyEvent.KEY_PRESSED, this::key);
        intake = new IntakeArea(
                frame,
                DemoPlace.usual().resolveSibling("subjects"),
                new IntakeArea.Surroundings(
                        stage,
                        runner,
                        queue,
                        () -> bindings,
                        this::cover,
                        this::uncover,
                        this::openSubject,
                        this::showIntake));
        frame.lead(Frame.Step.INTAKE, this::showIntake);
        frame.lead(Frame.Step.REVIEW, this::showReview);
        FileDrop.on(scene, frame::offerDrop, this::read);
        frame.widthProperty()
                .subscribe(width -> open.ifPresent(review -> review.view().setCompact(frame.isCompact())));
        stage.setScene(scene);
        stage.setTitle("Holdfast");
        stage.setMinWidth(Math.min(LEAST_WIDTH, screen.getWidth()));
        stage.setMinHeight(Math.min(LEAST_HEIGHT, screen.getHeight()));
    }

    /** Takes a person's own keys and mouse from a document, if there is one; what is wrong with it is said. */
    public void readBindings(Path file) {
        try {
            Optional<BindingsFile> own = BindingsFile.read(file);
            if (own.isPresent()) {
                bindings = Bindings.of(own.get().keys(), own.get().mouse());
            }
        } catch (UseCaseException e) {
            frame.fault(BINDINGS_REFUSED, e.getMessage());
        } catch (IllegalArgumentException e) {
            frame.fault(BINDINGS_REFUSED, file + ": " + e.getMessage());
        }
    }

    /** Shows the window. */
    public void show() {
        stage.show();
    }

    /** Shows the page that a person without a subject begins with. */
    public void showFirstRun() {
        closeReview();
        intake.leave();
        frame.step(Frame.Step.REVIEW, "", false, false);
        firstRun.arrive();
        frame.show(
                "Holdfast",
                "no subject open",
                new FirstRunView(
                        firstRun,
                        new Ways(intake::chooseFolder, this::chooseSubject, this::showLimits, this::showKeys),
                        bindings),
                List.of(local(), themeButton()));
    }

    /** Reads a subject's documents and shows its review; what is wrong with them is said in place. */
    public void openSubject(Path folder) {
        runner.run("opening " + folder, progress -> ReviewSubject.open(folder), this::showSubject, failure -> {
            showFirstRun();
            frame.fault("This folder cannot be opened as a subject.", FailureText.of(failure));
        });
    }

    /** Opens a subject's folder; one without a subject's document is read as images that are to be taken in. */
    public void open(Path folder) {
        if (Files.exists(folder.resolve(SubjectFolder.DOCUMENT))) {
            openSubject(folder);
        } else {
            read(List.of(folder));
        }
    }

    /** Reads files, folders and zips that are to be taken in, and shows them. */
    public void read(List<Path> paths) {
        intake.read(paths);
    }

    /** Shows where exams are taken in; a review stays open behind it. */
    public void showIntake() {
        uncover();
        firstRun.leave();
        frame.step(Frame.Step.REVIEW, "", false, open.isPresent());
        intake.show(List.of(themeButton()));
    }

    /** Shows the series that is chosen on the intake page as a whole, if there is one. */
    public void showChosenSeries() {
        intake.showChosenSeries();
    }

    /** Shows where exams are added to the subject under review. */
    public void addExams() {
        open.ifPresent(review -> {
            intake.model()
                    .forSubject(Optional.of(review.model().subject().folder().folder()));
            showIntake();
        });
    }

    /** Shows the review that is open behind the intake, if there is one. */
    public void showReview() {
        open.ifPresent(review -> {
            uncover();
            intake.leave();
            showReview(review);
        });
    }

    /** Shows the review of a subject whose images come from its folder. */
    public void showSubject(ReviewSubject subject) {
        showSubject(subject, new ExamImages(subject, ExamImages.defaultBudget()));
    }

    /** Shows the review of a subject whose images come from elsewhere. */
    public ReviewViewModel showSubject(ReviewSubject subject, ExamVolumes volumes) {
        closeReview();
        intake.leave();
        firstRun.leave();
        ReviewViewModel model = new ReviewViewModel(subject, volumes, runner, bindings);
        ReviewView view = new ReviewView(model, queue);
        view.setCompact(frame.isCompact());
        ToggleButton linked = new ToggleButton("All linked");
        linked.setOnAction(event -> model.link(linked.isSelected()));
        linked.setAccessibleHelp("links all exams, or sets them free");
        Label said = new Label();
        said.getStyleClass().addAll("small-text", "soft");
        said.textProperty().bind(model.saidProperty());
        Button add = new Button("Add exams");
        add.setOnAction(event -> addExams());
        Subscription listening = model.stateProperty().subscribe(state -> {
            linked.setSelected(state.linked());
            linked.setText(state.linked() ? "All linked" : "Each free");
        });
        OpenReview review = new OpenReview(
                model, view, new ReviewKeys(model, view), List.of(said, linked, add, themeButton()), listening);
        open = Optional.of(review);
        showReview(review);
        model.start();
        return model;
    }

    private void showReview(OpenReview review) {
        ReviewSubject subject = review.model().subject();
        frame.step(
                Frame.Step.REVIEW,
                review.model().parts().size() + " parts × "
                        + review.model().exams().size() + " exams",
                true,
                true);
        review.view().setCompact(frame.isCompact());
        frame.show(
                "Subject " + subject.folder().code(),
                ConstructWords.of(subject.construct()),
                review.view(),
                review.acts());
    }

    /** Asks for a subject's folder. */
    public void chooseSubject() {
        DirectoryChooser chooser = new DirectoryChooser();
        chooser.setTitle("A subject's folder");
        File chosen = chooser.showDialog(stage);
        if (chosen != null) {
            open(chosen.toPath());
        }
    }

    /** Shows a page over the area with all keys. */
    public void showKeys() {
        cover(KeyPage.of(bindings, BindingsFile.place(), this::uncover));
    }

    /** Shows a page over the area with what is measured and what cannot be. */
    public void showLimits() {
        cover(LimitsPage.of(this::uncover));
    }

    /** Shows the chosen exam as a whole over the review, if there is one. */
    public void showWholeExam() {
        open.ifPresent(review -> {
            ReviewViewModel model = review.model();
            Optional<FilmExam> films =
                    model.columns().get(model.exam().index()).filmExamProperty().get();
            if (films.isPresent()) {
                showFilms(model, films.get());
            } else {
                WholeExamPage page = new WholeExamPage(model, queue, () -> showFilmsBeside(model), this::uncover);
                cover(page);
                wholeExam = Optional.of(page);
            }
        });
    }

    private void showFilmsBeside(ReviewViewModel model) {
        model.columns().get(model.exam().index()).filmsBeside().ifPresent(films -> showFilms(model, films));
    }

    private void showFilms(ReviewViewModel model, FilmExam films) {
        FilmPage page = new FilmPage(model, films, queue, this::uncover);
        cover(page);
        wholeExam = Optional.of(page);
    }

    /** Dark to light and back. */
    public void switchTheme() {
        setTheme(theme == Theme.DARK ? Theme.LIGHT : Theme.DARK);
    }

    /** Puts on a theme. */
    public void setTheme(Theme other) {
        theme = other;
        theme.apply(scene);
    }

    /** Says that something failed which nobody else caught; the window goes on. */
    public void report(Throwable failure) {
        failure.printStackTrace();
        String words = FailureText.of(failure);
        if (Platform.isFxApplicationThread()) {
            frame.fault("Something failed that should not have.", words);
        } else {
            Platform.runLater(() -> frame.fault("Something failed that should not have.", words));
        }
    }

    /** Stops all work. */
    public void close() {
        closeReview();
        intake.close();
        queue.close();
        runner.close();
    }

    /** The review that is shown; empty on the first page. */
    public Optional<ReviewViewModel> review() {
        return open.map(OpenReview::model);
    }

    /** Whether all that was asked for is there: images read and drawn, numbers measured. */
    public boolean isSettled() {
        boolean read = open.map(review -> review.model().isSettled()).orElse(true);
        return read && intake.isSettled() && queue.isIdle();
    }

    /** What is taken in, or to be. */
    public IntakeViewModel intake() {
        return intake.model();
    }

    /** The scene, for pictures of it. */
    public Scene scene() {
        return scene;
    }

    private void closeReview() {
        uncover();
        open.ifPresent(OpenReview::close);
        open = Optional.empty();
    }

    private void key(KeyEvent event) {
        if (event.getTarget() instanceof TextInputControl) {
            return;
        }
        boolean inReview = open.isPresent() && !intake.isShown();
        if (!frame.isCovered() && inReview && open.get().keys().other(event)) {
            event.consume();
            return;
        }
        Area place = intake.isShown() && !frame.isCovered() ? Area.INTAKE : Area.REVIEW;
        Optional<Act> act =
                bindings.act(place, event.getCode(), event.isShortcutDown(), event.isShiftDown(), event.isAltDown());
        if (act.isEmpty()) {
            return;
        }
        boolean done =
                switch (act.get()) {
                    case KEYS -> run(this::showKeys);
                    case LIMITS -> run(this::showLimits);
                    case THEME -> run(this::switchTheme);
                    case OPEN_SUBJECT -> run(this::chooseSubject);
                    case READ_FOLDER -> run(intake::chooseFolder);
                    case READ_FILES -> run(intake::chooseFiles);
                    case ESCAPE -> uncover();
                    case WHOLE_EXAM -> inReview && run(this::toggleWholeExam);
                    default -> false;
                };
        if (done || actOnArea(act.get(), event)) {
            event.consume();
        }
    }

    /** Keys belong to the page that lies over an area, and to the area only while nothing does. */
    private boolean actOnArea(Act act, KeyEvent event) {
        if (intake.isShown()) {
            return intake.act(act, event);
        }
        if (frame.isCovered()) {
            return wholeExam.isPresent() && wholeExam.get().act(act);
        }
        return open.isPresent() && open.get().keys().act(act, event);
    }

    private void toggleWholeExam() {
        if (wholeExam.isPresent()) {
            uncover();
        } else {
            showWholeExam();
        }
    }

    private boolean uncover() {
        wholeExam.ifPresent(ExamPage::close);
        wholeExam = Optional.empty();
        intake.uncovered();
        return frame.uncover();
    }

    private void cover(Node page) {
        uncover();
        frame.cover(page);
    }

    private static boolean run(Runnable act) {
        act.run();
        return true;
    }

    private Button themeButton() {
        Button button = new Button("Dark / light");
        button.setOnAction(event -> switchTheme());
        return button;
    }

    private static Label local() {
        Label label = new Label("local, nothing leaves this computer");
        label.getStyleClass().addAll("small-text", "soft");
        return label;
    }
}
