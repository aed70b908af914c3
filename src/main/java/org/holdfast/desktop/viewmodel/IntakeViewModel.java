package org.holdfast.desktop.viewmodel;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.function.Consumer;
import java.util.function.UnaryOperator;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.util.Subscription;
import org.holdfast.app.IntakeContent;
import org.holdfast.app.IntakeExam;
import org.holdfast.app.IntakePatient;
import org.holdfast.app.IntakeSeries;
import org.holdfast.app.IntakeSession;
import org.holdfast.app.SeriesRole;
import org.holdfast.app.TakeInPlan;
import org.holdfast.app.TakeInQuestion;
import org.holdfast.app.TakeInQuestions;
import org.holdfast.app.TakeInTarget;
import org.holdfast.app.TakenIn;
import org.holdfast.desktop.state.History;
import org.holdfast.desktop.viewmodel.BackgroundRunner.Running;
import org.holdfast.desktop.viewmodel.IntakeStage.Done;
import org.holdfast.desktop.viewmodel.IntakeStage.Reading;
import org.holdfast.desktop.viewmodel.IntakeStage.Shown;

/**
 * Taking exams in: what was pointed at is read, the person says where it belongs, and it is taken into the subject's
 * folder. Every answer can be taken back until then. Belongs to the window's thread.
 */
public final class IntakeViewModel {

    private final BackgroundRunner runner;
    private final Path home;
    private final Consumer<TakenIn> onTakenIn;
    private final ReadOnlyObjectWrapper<IntakeStage> stage = new ReadOnlyObjectWrapper<>(new IntakeStage.Empty());
    private final ReadOnlyObjectWrapper<TakeInPlan> plan;
    private final ReadOnlyObjectWrapper<Optional<String>> chosen = new ReadOnlyObjectWrapper<>(Optional.empty());
    private final ReadOnlyObjectWrapper<TakingIn> takingIn = new ReadOnlyObjectWrapper<>(new TakingIn.Idle());
    private final IntakePictures pictures;
    private Optional<IntakeSession> session = Optional.empty();
    private Optional<Path> subjectFolder = Optional.empty();
    private History<TakeInPlan> history;
    private Running running;
    private int generation;
    private Subscription listening = Subscription.EMPTY;

    /**
     * @param runner does what takes long
     * @param home where folders of new subjects are made
     * @param onTakenIn is told what was taken in
     */
    public IntakeViewModel(BackgroundRunner runner, Path home, Consumer<TakenIn> onTakenIn) {
        this.runner = runner;
        this.home = home;
        this.onTakenIn = onTakenIn;
        this.history = new History<>(TakeInPlan.undecided(TakeInTarget.fresh(home)));
        this.plan = new ReadOnlyObjectWrapper<>(history.now());
        this.pictures = new IntakePictures(runner);
    }

    /** How far it is. */
    public ReadOnlyObjectProperty<IntakeStage> stageProperty() {
        return stage.getReadOnlyProperty();
    }

    /** What the person decided so far. */
    public ReadOnlyObjectProperty<TakeInPlan> planProperty() {
        return plan.getReadOnlyProperty();
    }

    /** The series that is chosen on the page. */
    public ReadOnlyObjectProperty<Optional<String>> chosenProperty() {
        return chosen.getReadOnlyProperty();
    }

    /** How it stands with taking them in. */
    public ReadOnlyObjectProperty<TakingIn> takingInProperty() {
        return takingIn.getReadOnlyProperty();
    }

    /** Small pictures of the series. */
    public IntakePictures pictures() {
        return pictures;
    }

    /** What was read, to look at whole series of it; empty unless something is shown. */
    public Optional<IntakeSession> session() {
        return session;
    }

    /** Takes exams into a subject that is there, or into a new one for none. */
    public void forSubject(Optional<Path> folder) {
        subjectFolder = folder;
        if (session.isPresent()) {
            become("subject", now -> now.withTarget(target(now.code())));
        }
    }

    /** The subject's folder that exams are added to; empty for a new subject. */
    public Optional<Path> subjectFolder() {
        return subjectFolder;
    }

    /** Reads files, folders and zips; what was read before is given up. */
    public void read(List<Path> paths) {
        if (paths.isEmpty() || takingIn.get() instanceof TakingIn.Running) {
            return;
        }
        stopRunning();
        forget();
        String place = place(paths);
        stage.set(new Reading(place, 0, "looking for files", false));
        int own = ++generation;
        running = runner.run(
                "reading " + place,
                progress -> IntakeSession.read(paths, progress),
                read -> shown(own, place, read),
                failure -> readingFailed(own, place, failure));
        Running now = running;
        if (!now.isDone()) {
            listening = now.fractionProperty()
                    .subscribe(() -> readingProgress(now))
                    .and(now.activityProperty().subscribe(() -> readingProgress(now)));
        }
    }

    /** Stops the reading, or the taking in. */
    public boolean stop() {
        if (stage.get() instanceof Reading now && !now.isStopping()) {
            running.cancel();
            stage.set(new Reading(now.place(), now.fraction(), now.activity(), true));
            return true;
        }
        if (takingIn.get() instanceof TakingIn.Running now && !now.isStopping()) {
            running.cancel();
            takingIn.set(new TakingIn.Running(now.fraction(), now.activity(), true));
            return true;
        }
        return false;
    }

    /** Shows the exams of another patient among what was read. */
    public void choosePatient(IntakePatient patient) {
        if (stage.get() instanceof Shown shown && !shown.patient().equals(patient)) {
            chosen.set(Optional.empty());
            stage.set(new Shown(shown.place(), shown.content(), patient));
        }
    }

    /** Chooses a series of the page. */
    public void choose(String seriesId) {
        chosen.set(Optional.of(seriesId));
    }

    /** The exam that the panel asks about: that of the chosen series, else the first with an open question, else the first. */
    public Optional<IntakeExam> exam() {
        if (!(stage.get() instanceof Shown shown)) {
            return Optional.empty();
        }
        if (chosen.get().isPresent()) {
            return Optional.of(shown.patient().examOf(chosen.get().get()));
        }
        List<IntakeExam> exams = shown.patient().exams();
        Optional<String> asked = questions().stream()
                .map(TakeInQuestion::examId)
                .filter(id -> !id.isEmpty())
                .findFirst();
        return exams.stream()
                .filter(exam -> asked.isEmpty() || exam.id().equals(asked.get()))
                .findFirst();
    }

    /** What must be answered before the exams can be taken in. */
    public List<TakeInQuestion> questions() {
        return stage.get() instanceof Shown shown ? TakeInQuestions.of(shown.patient(), plan.get()) : List.of();
    }

    /** Gives a series another role, if it may have it. */
    public void role(IntakeSeries series, SeriesRole role) {
        if (stage.get() instanceof Shown shown && series.possible().contains(role)) {
            IntakeExam exam = shown.patient().examOf(series.id());
            become("role", now -> now.withRole(exam, series, role));
        }
    }

    /** Takes nothing of an exam in, or what is proposed again. */
    public void takeExam(IntakeExam exam, boolean isTaken) {
        become("exam", now -> isTaken ? now.asProposed(exam) : now.without(exam));
    }

    /** Says the subject's code; a new subject's folder is named by it. */
    public void code(String code) {
        become("code", now -> now.withCode(code.strip()).withTarget(target(code.strip())));
    }

    /** Says the day of the operation, or that it is not known yet. */
    public void operation(Optional<LocalDate> day) {
        become("day of the operation", now -> now.withOperation(day));
    }

    /** Says the day of an exam whose files do not. */
    public void date(IntakeExam exam, Optional<LocalDate> day) {
        become("date " + exam.id(), now -> now.withDate(exam.id(), day));
    }

    /** Gives an exam a label; the one that is made from its day for none. */
    public void label(IntakeExam exam, Optional<String> label) {
        become("label " + exam.id(), now -> now.withLabel(exam.id(), label));
    }

    /** Copies the images, or leaves them where they are. */
    public void way(TakeInPlan.Way way) {
        become("way", now -> now.withWay(way));
    }

    /** Takes the last answer back. */
    public void undo() {
        history.undo().ifPresent(act -> plan.set(history.now()));
    }

    /** Gives it again. */
    public void redo() {
        history.redo().ifPresent(act -> plan.set(history.now()));
    }

    /** Takes the exams in, unless something is still to be answered. */
    public void takeIn() {
        if (!(stage.get() instanceof Shown shown)
                || !questions().isEmpty()
                || takingIn.get() instanceof TakingIn.Running) {
            return;
        }
        IntakeSession from = session.orElseThrow();
        TakeInPlan decided = plan.get();
        takingIn.set(new TakingIn.Running(0, "starting", false));
        running = runner.run(
                "taking in exams",
                progress -> from.takeIn(shown.patient(), decided, progress),
                this::takenIn,
                this::takingInFailed);
        Running now = running;
        if (!now.isDone()) {
            listening = now.fractionProperty()
                    .subscribe(() -> takingInProgress(now))
                    .and(now.activityProperty().subscribe(() -> takingInProgress(now)));
        }
    }

    /** Lets go of everything that was read. */
    public void close() {
        stopRunning();
        forget();
    }

    private void shown(int of, String place, IntakeSession read) {
        if (of != generation) {
            read.close();
            return;
        }
        listening.unsubscribe();
        session = Optional.of(read);
        pictures.of(read);
        IntakeContent content = read.content();
        history = new History<>(TakeInPlan.undecided(TakeInTarget.fresh(home)).withTarget(target("")));
        plan.set(history.now());
        chosen.set(Optional.empty());
        takingIn.set(new TakingIn.Idle());
        stage.set(
                content.patients().isEmpty()
                        ? new IntakeStage.NothingFound(place, content)
                        : new Shown(place, content, content.patients().get(0)));
    }

    private void readingFailed(int of, String place, Throwable failure) {
        if (of != generation) {
            return;
        }
        listening.unsubscribe();
        stage.set(
                failure instanceof CancellationException
                        ? new IntakeStage.Empty()
                        : new IntakeStage.Failed(place, FailureText.of(failure)));
    }

    private void readingProgress(Running now) {
        if (now == running && stage.get() instanceof Reading reading) {
            stage.set(new Reading(
                    reading.place(),
                    now.fractionProperty().get(),
                    now.activityProperty().get(),
                    reading.isStopping()));
        }
    }

    private void takingInProgress(Running now) {
        if (now == running && takingIn.get() instanceof TakingIn.Running taking) {
            takingIn.set(new TakingIn.Running(
                    now.fractionProperty().get(), now.activityProperty().get(), taking.isStopping()));
        }
    }

    private void takenIn(TakenIn result) {
        listening.unsubscribe();
        takingIn.set(new TakingIn.Idle());
        forget();
        subjectFolder = Optional.of(result.folder());
        stage.set(new Done(result));
        onTakenIn.accept(result);
    }

    private void takingInFailed(Throwable failure) {
        listening.unsubscribe();
        takingIn.set(
                failure instanceof CancellationException
                        ? new TakingIn.Stopped()
                        : new TakingIn.Failed(FailureText.of(failure)));
        // What is in the folder may be otherwise now.
        become("folder", now -> now.withTarget(target(now.code())));
    }

    private TakeInTarget target(String code) {
        Path folder = subjectFolder.orElseGet(() -> code.isEmpty() ? home : home.resolve(code));
        boolean isNamed = subjectFolder.isPresent() || TakeInQuestions.isCode(code);
        return isNamed && session.isPresent() ? session.get().target(folder) : TakeInTarget.fresh(home);
    }

    private void become(String act, UnaryOperator<TakeInPlan> change) {
        if (!(stage.get() instanceof Shown)) {
            return;
        }
        history.become(change.apply(history.now()), act, act);
        plan.set(history.now());
    }

    /** What still runs is told to stop; whatever comes of it is not shown. */
    private void stopRunning() {
        generation++;
        listening.unsubscribe();
        if (running != null && !running.isDone()) {
            running.cancel();
        }
        running = null;
    }

    private void forget() {
        pictures.forget();
        session.ifPresent(IntakeSession::close);
        session = Optional.empty();
        chosen.set(Optional.empty());
        takingIn.set(new TakingIn.Idle());
    }

    private static String place(List<Path> paths) {
        Path first = paths.get(0).toAbsolutePath().normalize();
        String name = first.getFileName() == null
                ? first.toString()
                : first.getFileName().toString();
        String kind = Files.isDirectory(first) ? "folder" : "file";
        String words = kind + " \u201c" + name + "\u201d";
        return paths.size() == 1 ? words : words + " and " + (paths.size() - 1) + " more";
    }
}
