package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.desktop.state.FilmLook;
import org.holdfast.volume.Radiograph;
import org.holdfast.volume.VoiTransform;

/** A radiograph that is looked at: what it is, how it is seen, and how that is changed. Used on the window's thread only. */
public interface FilmSight {

    /** What a window is called that a person made by hand. */
    String OWN = "own window";

    /** The radiograph, if it is there now. */
    Optional<Radiograph> film();

    /** How it is looked at. */
    FilmLook look();

    /** Looks at it otherwise; acts with an equal gesture are taken back together. */
    void look(FilmLook next, String act, Object gesture);

    /** The window that it is seen through; empty where no pixel carries an image, or it is not there. */
    default Optional<VoiTransform> window() {
        return look().window().or(() -> film().flatMap(Radiograph::opening));
    }

    /** All windows to choose from: the file's, then the automatic one and the whole range. */
    static List<VoiTransform> windows(Radiograph film) {
        List<VoiTransform> all = new ArrayList<>(film.facts().windows());
        film.automaticWindow().ifPresent(all::add);
        film.wholeRange().ifPresent(all::add);
        return all;
    }

    /**
     * Drags the window; one that is a table or has another shape gives way to a straight one over the same range.
     *
     * @param right logical pixels
     * @param down logical pixels
     */
    default void dragWindow(double right, double down, Object gesture) {
        Optional<Radiograph> film = film();
        if (film.isEmpty()) {
            return;
        }
        Optional<VoiTransform.Window> start = window().filter(VoiTransform.Window.class::isInstance)
                .map(VoiTransform.Window.class::cast)
                .or(film.get()::automaticWindow);
        start.ifPresent(window -> look(look().through(window.dragged(OWN, right, down)), "window", gesture));
    }
}
