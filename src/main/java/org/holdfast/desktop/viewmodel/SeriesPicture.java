package org.holdfast.desktop.viewmodel;

import java.util.Optional;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import org.holdfast.app.IntakeSeries;
import org.holdfast.app.IntakeSession;
import org.holdfast.desktop.state.FilmLook;
import org.holdfast.desktop.state.History;
import org.holdfast.volume.Radiograph;

/**
 * The picture of a series that is no stack and is not taken in yet: a radiograph, a localizer, a capture. Belongs to the
 * window's thread.
 */
public final class SeriesPicture implements FilmSight {

    private final IntakeSeries series;
    private final History<FilmLook> history = new History<>(FilmLook.FITTED);
    private final ReadOnlyObjectWrapper<FilmLook> shown = new ReadOnlyObjectWrapper<>(FilmLook.FITTED);
    private final ReadOnlyStringWrapper notice = new ReadOnlyStringWrapper("reading the picture");
    private final BackgroundRunner.Running reading;
    private Optional<Radiograph> film = Optional.empty();
    private boolean isClosed;

    /**
     * @param session holds the series
     * @param series which
     * @param runner reads it
     */
    public SeriesPicture(IntakeSession session, IntakeSeries series, BackgroundRunner runner) {
        this.series = series;
        reading = runner.run(
                "reading a picture",
                progress -> session.film(series.id(), progress),
                this::loaded,
                failure -> failed(FailureText.of(failure)));
    }

    /** The series. */
    public IntakeSeries series() {
        return series;
    }

    /** How the picture is looked at. */
    public ReadOnlyObjectProperty<FilmLook> shownProperty() {
        return shown.getReadOnlyProperty();
    }

    /** What stands in the place of the picture; empty where it is there. */
    public ReadOnlyStringProperty noticeProperty() {
        return notice.getReadOnlyProperty();
    }

    /** Whether the picture is there, or cannot be read. */
    public boolean isSettled() {
        return reading.isDone();
    }

    @Override
    public Optional<Radiograph> film() {
        return film;
    }

    @Override
    public FilmLook look() {
        return history.now();
    }

    @Override
    public void look(FilmLook next, String act, Object gesture) {
        history.become(next, act, gesture);
        shown.set(history.now());
    }

    /** Goes back to the whole picture. */
    public void fit() {
        look(look().fitted(), "fitted view", new Object());
    }

    /** Takes the last act back. */
    public void undo() {
        history.undo();
        shown.set(history.now());
    }

    /** Does again what was taken back. */
    public void redo() {
        history.redo();
        shown.set(history.now());
    }

    /** Stops reading. */
    public void close() {
        isClosed = true;
        reading.cancel();
    }

    private void loaded(Radiograph read) {
        if (!isClosed) {
            film = Optional.of(read);
            notice.set("");
        }
    }

    private void failed(String why) {
        if (!isClosed) {
            notice.set(why);
        }
    }
}
