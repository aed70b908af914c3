package org.holdfast.desktop;

import javafx.scene.input.KeyCode;
import org.holdfast.desktop.state.FilmLook;
import org.holdfast.desktop.viewmodel.FilmSight;

/** Keys that change the window of a radiograph: arrows change it, Enter keeps it, Escape restores it. */
final class FilmWindowKeys {

    /** One key press is a drag over so many pixels: a twentieth of the width. */
    private static final double STEP = 12.5;

    private final FilmSight sight;
    private final FilmLook before;
    private final Object gesture = new Object();

    FilmWindowKeys(FilmSight sight) {
        this.sight = sight;
        this.before = sight.look();
    }

    /** Changes the window if the key is for that; tells whether it was. */
    boolean changes(KeyCode code) {
        switch (code) {
            case UP -> sight.dragWindow(STEP, 0, gesture);
            case DOWN -> sight.dragWindow(-STEP, 0, gesture);
            case RIGHT -> sight.dragWindow(0, STEP, gesture);
            case LEFT -> sight.dragWindow(0, -STEP, gesture);
            case ESCAPE -> {
                sight.look(before, "window", gesture);
                return false;
            }
            default -> {
                return false;
            }
        }
        return true;
    }

    /** Whether a key that changes nothing more is used up by ending the change. */
    static boolean ends(KeyCode code) {
        return code == KeyCode.ENTER || code == KeyCode.ESCAPE;
    }
}
