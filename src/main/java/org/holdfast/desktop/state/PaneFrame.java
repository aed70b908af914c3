package org.holdfast.desktop.state;

import java.util.Objects;
import org.holdfast.geometry.PatientVector;

/**
 * How near a picture of a whole exam is, and how far it is moved. Immutable.
 *
 * @param zoom magnification over the fitted view, 1 for fitted
 * @param panMm how far the middle of the picture is moved from the middle of the exam
 */
public record PaneFrame(double zoom, PatientVector panMm) {

    /** The whole exam, in the middle. */
    public static final PaneFrame FITTED = new PaneFrame(1, new PatientVector(0, 0, 0));

    public PaneFrame {
        Objects.requireNonNull(panMm, "panMm");
        if (!(zoom >= CutLook.MIN_ZOOM && zoom <= CutLook.MAX_ZOOM)) {
            throw new IllegalArgumentException(
                    "zoom must lie in [" + CutLook.MIN_ZOOM + ", " + CutLook.MAX_ZOOM + "], got " + zoom);
        }
    }
}
