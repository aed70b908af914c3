package org.holdfast.desktop.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javafx.scene.control.ComboBox;
import javafx.util.StringConverter;
import org.holdfast.desktop.viewmodel.FilmSight;
import org.holdfast.desktop.viewmodel.FilmWords;
import org.holdfast.volume.VoiTransform;

/** The windows of a radiograph to choose from: the file's, an automatic one, the whole range, and the person's own. */
final class FilmWindowBox extends ComboBox<VoiTransform> {

    private Optional<FilmSight> sight = Optional.empty();
    private boolean isShowing;

    FilmWindowBox() {
        setAccessibleText("window of the radiograph");
        setMaxWidth(Double.MAX_VALUE);
        setPromptText("no window");
        setConverter(new StringConverter<>() {
            @Override
            public String toString(VoiTransform window) {
                return window == null ? "" : words(window);
            }

            @Override
            public VoiTransform fromString(String words) {
                throw new UnsupportedOperationException("windows are chosen, not written");
            }
        });
        setOnAction(event -> {
            if (!isShowing && getValue() != null) {
                sight.ifPresent(s -> s.look(s.look().through(getValue()), "window", new Object()));
            }
        });
    }

    private static String words(VoiTransform window) {
        return window.name().equals(FilmSight.OWN) ? "own: " + FilmWords.window(window) : FilmWords.window(window);
    }

    /** Offers the windows of a radiograph and marks the one that it is seen through. */
    void show(FilmSight seen) {
        sight = Optional.of(seen);
        isShowing = true;
        List<VoiTransform> all =
                new ArrayList<>(seen.film().map(FilmSight::windows).orElse(List.of()));
        Optional<VoiTransform> now = seen.window();
        now.filter(window -> !all.contains(window)).ifPresent(all::add);
        if (!getItems().equals(all)) {
            getItems().setAll(all);
        }
        setValue(now.orElse(null));
        setDisable(seen.film().filter(film -> !all.isEmpty()).isEmpty());
        isShowing = false;
    }
}
