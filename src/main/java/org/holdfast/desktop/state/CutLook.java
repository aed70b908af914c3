package org.holdfast.desktop.state;

import java.util.Objects;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * Where the cuts of a part go through it and how they are shown. All places are in the space of the construct, so that
 * the same look shows the same place of the part on every exam. Immutable.
 *
 * @param crossing the point through which both cuts go
 * @param zoom magnification over the fitted view, 1 for fitted
 * @param panMm how far the middle of the pictures is moved from the middle of the part; each cut uses what lies in it
 * @param window HU from black to white
 */
public record CutLook(PatientPoint crossing, double zoom, PatientVector panMm, HuWindow window) {

    /** Smallest and largest magnification over the fitted view. */
    public static final double MIN_ZOOM = 0.25;

    public static final double MAX_ZOOM = 32;

    private static final PatientVector NO_PAN = new PatientVector(0, 0, 0);

    public CutLook {
        Objects.requireNonNull(crossing, "crossing");
        Objects.requireNonNull(panMm, "panMm");
        Objects.requireNonNull(window, "window");
        if (!(zoom >= MIN_ZOOM && zoom <= MAX_ZOOM)) {
            throw new IllegalArgumentException("zoom must lie in [" + MIN_ZOOM + ", " + MAX_ZOOM + "], got " + zoom);
        }
    }

    /** The fitted view of a place. */
    public static CutLook fitted(PatientPoint crossing, HuWindow window) {
        return new CutLook(crossing, 1, NO_PAN, window);
    }

    /** This look with its cuts crossing elsewhere. */
    public CutLook at(PatientPoint other) {
        return new CutLook(other, zoom, panMm, window);
    }

    /** This look through another window. */
    public CutLook through(HuWindow other) {
        return new CutLook(crossing, zoom, panMm, other);
    }

    /** This look magnified and moved; the magnification is kept within its limits. */
    public CutLook framed(double otherZoom, PatientVector otherPanMm) {
        return new CutLook(crossing, Math.max(MIN_ZOOM, Math.min(MAX_ZOOM, otherZoom)), otherPanMm, window);
    }

    /** This look back in the fitted view; place and window stay. */
    public CutLook fitted() {
        return new CutLook(crossing, 1, NO_PAN, window);
    }
}
