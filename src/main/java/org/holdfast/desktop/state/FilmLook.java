package org.holdfast.desktop.state;

import java.util.Objects;
import java.util.Optional;
import org.holdfast.volume.VoiTransform;

/**
 * How a radiograph is looked at. Immutable. Lengths are in widths of a film pixel, so that pixels which are not square keep
 * their shape.
 *
 * @param zoom magnification over the fitted view, 1 for fitted; within the limits of {@link CutLook}
 * @param panRight how far the middle of the picture is moved from the middle of the film to its right
 * @param panDown the same downwards
 * @param window values from dark to light; empty for the one in which the film opens
 */
public record FilmLook(double zoom, double panRight, double panDown, Optional<VoiTransform> window) {

    /** The whole film in the window in which it opens. */
    public static final FilmLook FITTED = new FilmLook(1, 0, 0, Optional.empty());

    public FilmLook {
        Objects.requireNonNull(window, "window");
        if (!(zoom >= CutLook.MIN_ZOOM && zoom <= CutLook.MAX_ZOOM)) {
            throw new IllegalArgumentException(
                    "zoom must lie in [" + CutLook.MIN_ZOOM + ", " + CutLook.MAX_ZOOM + "], got " + zoom);
        }
        if (!Double.isFinite(panRight) || !Double.isFinite(panDown)) {
            throw new IllegalArgumentException("a pan must be finite, got " + panRight + ", " + panDown);
        }
    }

    /** The whole film; the window stays. */
    public FilmLook fitted() {
        return new FilmLook(1, 0, 0, window);
    }

    /** This look through another window. */
    public FilmLook through(VoiTransform other) {
        return new FilmLook(zoom, panRight, panDown, Optional.of(other));
    }

    /** This look magnified and moved; the magnification is kept within its limits. */
    public FilmLook framed(double otherZoom, double right, double down) {
        return new FilmLook(Math.max(CutLook.MIN_ZOOM, Math.min(CutLook.MAX_ZOOM, otherZoom)), right, down, window);
    }
}
