package org.holdfast.desktop.render;

import java.lang.ref.WeakReference;
import org.holdfast.volume.FilmFrame;
import org.holdfast.volume.FilmSampler;
import org.holdfast.volume.Radiograph;

/**
 * The last sampled values of a cell's radiograph, kept so that another window costs no new sampling. It does not keep the
 * radiograph in memory. Not thread-safe: one worker at a time draws a cell.
 */
final class LastFilm {

    private WeakReference<Radiograph> film = new WeakReference<>(null);
    private FilmFrame frame;
    private float[] values;

    Picture draw(FilmRequest request) {
        if (film.get() != request.film() || !request.frame().equals(frame)) {
            values = FilmSampler.sample(request.film(), request.frame());
            film = new WeakReference<>(request.film());
            frame = request.frame();
        }
        return FilmPainter.paint(request.film(), values, frame.width(), frame.height(), request.window());
    }
}
