package org.holdfast.desktop.viewmodel;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import org.holdfast.app.FilmExam;
import org.holdfast.desktop.state.FilmLook;
import org.holdfast.desktop.state.History;
import org.holdfast.desktop.viewmodel.BackgroundRunner.Running;
import org.holdfast.volume.Radiograph;

/**
 * The radiographs of one exam, one at a time in full size. Belongs to the window's thread.
 */
public final class FilmViewModel implements FilmSight {

    /**
     * What is shown. Immutable.
     *
     * @param film place among the exam's films
     * @param looks how the films are looked at; one without is fitted
     */
    public record Shown(int film, Map<Integer, FilmLook> looks) {

        public Shown {
            looks = Map.copyOf(looks);
        }

        FilmLook look() {
            return looks.getOrDefault(film, FilmLook.FITTED);
        }

        private Shown with(FilmLook look) {
            Map<Integer, FilmLook> changed = new HashMap<>(looks);
            changed.put(film, look);
            return new Shown(film, changed);
        }
    }

    private final ExamColumns columns;
    private final int exam;
    private final FilmExam films;
    private final History<Shown> history;
    private final ReadOnlyObjectWrapper<Shown> shown = new ReadOnlyObjectWrapper<>();
    private final ReadOnlyStringWrapper notice = new ReadOnlyStringWrapper("");
    private Optional<Radiograph> film = Optional.empty();
    private int asked;
    private Optional<Running> reading = Optional.empty();

    /**
     * @param columns where the images come from
     * @param exam whose radiographs
     * @param films what its files say
     * @param looks how its films are looked at first
     */
    public FilmViewModel(ExamColumns columns, int exam, FilmExam films, Map<Integer, FilmLook> looks) {
        this.columns = columns;
        this.exam = exam;
        this.films = films;
        this.history = new History<>(new Shown(0, looks));
        become();
    }

    /** What the exam's files say. */
    public FilmExam films() {
        return films;
    }

    /** What is shown; changes when the picture does. */
    public ReadOnlyObjectProperty<Shown> shownProperty() {
        return shown.getReadOnlyProperty();
    }

    /** What stands in the place of a film that is not there; empty where it is. */
    public ReadOnlyStringProperty noticeProperty() {
        return notice.getReadOnlyProperty();
    }

    /** What is known of the film that is shown. */
    public FilmExam.Film described() {
        return films.films().get(history.now().film());
    }

    /** Shows another film. */
    public void choose(int index) {
        if (index != history.now().film()) {
            history.become(new Shown(index, history.now().looks()), "choice of a radiograph", new Object());
            become();
        }
    }

    @Override
    public Optional<Radiograph> film() {
        return film;
    }

    @Override
    public FilmLook look() {
        return history.now().look();
    }

    @Override
    public void look(FilmLook next, String act, Object gesture) {
        history.become(history.now().with(next), act, gesture);
        shown.set(history.now());
    }

    /** Goes back to the whole film. */
    public void fit() {
        look(look().fitted(), "fitted view", new Object());
    }

    /** Takes the last act back. */
    public void undo() {
        history.undo();
        become();
    }

    /** Does again what was taken back. */
    public void redo() {
        history.redo();
        become();
    }

    /** Stops reading. */
    public void close() {
        asked++;
        reading.ifPresent(Running::cancel);
    }

    /** Shows the state as it is now; a film that is not there is read. */
    private void become() {
        Shown next = history.now();
        boolean isOther = shown.get() == null || shown.get().film() != next.film();
        if (isOther) {
            film = columns.get(exam).film(next.film());
            notice.set("");
            if (film.isEmpty()) {
                read(next.film());
            }
        }
        shown.set(next);
    }

    private void read(int index) {
        int mine = ++asked;
        notice.set("reading the radiograph");
        Running begun = columns.readFilm(
                exam,
                index,
                read -> {
                    if (mine == asked) {
                        film = Optional.of(read);
                        notice.set("");
                    }
                },
                why -> {
                    if (mine == asked) {
                        notice.set(why);
                    }
                });
        reading = Optional.of(begun);
    }
}
