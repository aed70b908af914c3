package org.holdfast.desktop.render;

import org.holdfast.volume.Radiograph;
import org.holdfast.volume.VoiTransform;

/**
 * Turns the values of a radiograph into greys of 256 steps: window, then inversion where the film asks for it. A pixel without
 * an image has one flat tone of its own. Stateless.
 */
final class FilmPainter {

    private FilmPainter() {}

    /**
     * Draws sampled values.
     *
     * @param values outputs of the modality transform, index x + width·y; NaN without an image
     */
    static Picture paint(Radiograph film, float[] values, int width, int height, VoiTransform window) {
        int[] argb = new int[values.length];
        for (int n = 0; n < values.length; n++) {
            if (Float.isNaN(values[n])) {
                argb[n] = CutPainter.NO_IMAGE;
            } else {
                int level = (int) (255 * film.brightness(values[n], window) + 0.5);
                argb[n] = 0xFF000000 | level << 16 | level << 8 | level;
            }
        }
        return new Picture(width, height, argb);
    }
}
