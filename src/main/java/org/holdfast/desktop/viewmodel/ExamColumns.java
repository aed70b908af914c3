package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CancellationException;
import java.util.function.Consumer;
import javafx.util.Subscription;
import org.holdfast.app.ExamFacts;
import org.holdfast.app.ExamVolumes;
import org.holdfast.app.FilmExam;
import org.holdfast.app.ReviewSubject;
import org.holdfast.app.UseCaseException;
import org.holdfast.desktop.viewmodel.BackgroundRunner.Running;
import org.holdfast.desktop.viewmodel.ExamColumn.Images;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.Radiograph;

/**
 * The images of all exams of a subject: those on the screen are read, the chosen one first, one exam at a time, since the
 * disk has one head; those out of sight may be given up. Used on the thread of the window only.
 */
public final class ExamColumns {

    private final ExamVolumes volumes;
    private final BackgroundRunner runner;
    private final List<ExamColumn> columns = new ArrayList<>();
    private final Set<Integer> wanted = new HashSet<>();
    private int chosen;
    private int reading = NOTHING;
    private Running running;
    private Subscription listening = Subscription.EMPTY;
    private boolean closed;

    private static final int NOTHING = -1;
    /** Share of an exam's work that goes into finding out what its files are. */
    private static final double HEADERS = 0.2;

    /** Films that a column shows. */
    static final int FILMS_SHOWN = 2;

    /** What comes back from reading one exam. */
    private sealed interface Read {}

    private record ReadVolume(ExamFacts facts, Optional<FilmExam> beside, HuVolume volume) implements Read {}

    private record ReadFilms(FilmExam exam, List<Radiograph> films) implements Read {}

    /**
     * @param subject whose exams
     * @param volumes where their images come from
     * @param runner does what takes long
     */
    public ExamColumns(ReviewSubject subject, ExamVolumes volumes, BackgroundRunner runner) {
        this.volumes = volumes;
        this.runner = runner;
        subject.exams().forEach(exam -> columns.add(new ExamColumn(exam)));
    }

    /** One column an exam, in order of time. */
    public List<ExamColumn> all() {
        return List.copyOf(columns);
    }

    /** The column of an exam. */
    public ExamColumn get(int exam) {
        return columns.get(exam);
    }

    /** Tells which exams can be seen, and which of them is chosen: it is read first. */
    public void show(Set<Integer> onScreen, int chosenExam) {
        chosen = chosenExam;
        wanted.clear();
        wanted.addAll(onScreen);
        volumes.onScreen(Set.copyOf(onScreen));
        letGo();
        readNext();
    }

    /** Stops reading an exam; what was read of it is dropped, and it is not read again until asked for. */
    public void stop(int exam) {
        if (exam == reading) {
            running.cancel();
        } else if (columns.get(exam).imagesProperty().get() instanceof Images.Absent) {
            columns.get(exam).become(new Images.Stopped());
        }
    }

    /** Reads an exam again that failed or was stopped; while it is still stopping, once it has. */
    public void retry(int exam) {
        columns.get(exam).become(new Images.Absent());
        readNext();
    }

    /** Whether nothing is being read and nothing in sight waits to be. */
    public boolean isSettled() {
        return reading == NOTHING && nextAbsent() == NOTHING;
    }

    /** Stops all reading and gives everything up. */
    public void close() {
        closed = true;
        if (running != null) {
            running.cancel();
        }
        listening.unsubscribe();
        volumes.close();
    }

    /** A volume that was given up must not be held here, or the memory is not free. */
    private void letGo() {
        for (int n = 0; n < columns.size(); n++) {
            Images there = columns.get(n).imagesProperty().get();
            boolean isGone = there instanceof Images.Loaded && volumes.loaded(n).isEmpty()
                    || there instanceof Images.Films && !volumes.hasFilmsLoaded(n);
            if (!wanted.contains(n) && isGone) {
                columns.get(n).become(new Images.Absent());
            }
        }
    }

    private void readNext() {
        if (reading != NOTHING || closed) {
            return;
        }
        int next = nextAbsent();
        if (next == NOTHING) {
            return;
        }
        reading = next;
        ExamColumn column = columns.get(next);
        column.become(new Images.Loading(0, "reading the files"));
        running = runner.run(
                "reading " + column.exam().label(),
                progress -> read(next, progress),
                read -> finished(next, read),
                failure -> failed(next, failure));
        if (!running.isDone()) {
            Running now = running;
            listening = now.fractionProperty().subscribe(fraction -> {
                if (reading == next && column.imagesProperty().get() instanceof Images.Loading) {
                    column.become(new Images.Loading(
                            fraction.doubleValue(), now.activityProperty().get()));
                }
            });
        }
    }

    private Read read(int exam, Progress progress) throws UseCaseException {
        Optional<FilmExam> films = volumes.films(exam, progress.part(0, HEADERS));
        if (films.isPresent()) {
            return readFilms(exam, films.get(), progress.part(HEADERS, 1));
        }
        ExamFacts facts = volumes.facts(exam, progress.part(0, HEADERS));
        Optional<FilmExam> beside = volumes.filmsBeside(exam, progress.part(0, HEADERS));
        HuVolume volume = volumes.volume(exam, progress.part(HEADERS, 1));
        // The windows by purpose need them; here they cost the window no time.
        volume.statistics();
        return new ReadVolume(facts, beside, volume);
    }

    private Read readFilms(int exam, FilmExam films, Progress progress) throws UseCaseException {
        int count = Math.min(FILMS_SHOWN, films.films().size());
        List<Radiograph> read = new ArrayList<>();
        for (int n = 0; n < count; n++) {
            read.add(volumes.film(exam, n, progress.part((double) n / count, (n + 1.0) / count)));
        }
        return new ReadFilms(films, read);
    }

    /**
     * Reads a film of an exam of radiographs that its column does not show.
     *
     * @param then takes it, on the window's thread
     * @param failed takes what went wrong, in words
     */
    public Running readFilm(int exam, int film, Consumer<Radiograph> then, Consumer<String> failed) {
        return runner.run(
                "reading a radiograph of " + columns.get(exam).exam().label(),
                progress -> volumes.film(exam, film, progress),
                then,
                failure -> failed.accept(FailureText.of(failure)));
    }

    private int nextAbsent() {
        if (isMissing(chosen)) {
            return chosen;
        }
        for (int n = 0; n < columns.size(); n++) {
            if (isMissing(n)) {
                return n;
            }
        }
        return NOTHING;
    }

    private boolean isMissing(int exam) {
        return wanted.contains(exam) && columns.get(exam).imagesProperty().get() instanceof Images.Absent;
    }

    private void finished(int exam, Read read) {
        done();
        ExamColumn column = columns.get(exam);
        if (read instanceof ReadVolume volume) {
            column.know(volume.facts());
            column.knowBeside(volume.beside());
            column.become(new Images.Loaded(volume.volume()));
        } else if (read instanceof ReadFilms films) {
            column.know(films.exam());
            column.become(new Images.Films(films.films()));
        }
        letGo();
        readNext();
    }

    private void failed(int exam, Throwable failure) {
        done();
        boolean stopped = failure instanceof CancellationException;
        if (!(stopped && columns.get(exam).imagesProperty().get() instanceof Images.Absent)) {
            columns.get(exam).become(stopped ? new Images.Stopped() : new Images.Failed(FailureText.of(failure)));
        }
        readNext();
    }

    private void done() {
        reading = NOTHING;
        listening.unsubscribe();
    }
}
