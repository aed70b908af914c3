package org.holdfast.desktop.render;

import java.util.Objects;
import org.holdfast.volume.FilmFrame;
import org.holdfast.volume.Radiograph;
import org.holdfast.volume.VoiTransform;

/**
 * A picture of a radiograph that is asked for.
 *
 * @param film what is drawn
 * @param frame where, one pixel of it for each device pixel
 * @param window values from dark to light
 */
public record FilmRequest(Radiograph film, FilmFrame frame, VoiTransform window) implements PictureRequest {

    public FilmRequest {
        Objects.requireNonNull(film, "film");
        Objects.requireNonNull(frame, "frame");
        Objects.requireNonNull(window, "window");
    }

    @Override
    public boolean mayFollow(PictureRequest other) {
        return other instanceof FilmRequest request
                && film == request.film
                && frame.width() == request.frame.width()
                && frame.height() == request.frame.height();
    }
}
