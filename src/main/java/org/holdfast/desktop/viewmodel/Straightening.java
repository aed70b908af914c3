package org.holdfast.desktop.viewmodel;

import java.util.Optional;
import org.holdfast.desktop.render.StraightenedImage;
import org.holdfast.geometry.PatientVector;
import org.holdfast.measure.Continuity;
import org.holdfast.measure.StraightenedPart;
import org.holdfast.volume.HuVolume;

/** A straightened part's plane as a picture that runs from left to right. Stateless. */
final class Straightening {

    /** Reach on either side of the centre line, mm. */
    private static final double REACH_MM = 8;

    private Straightening() {}

    /**
     * HU along the stations and across; empty where there are too few stations to have a step.
     *
     * @param volume the exam's image
     * @param whole the part in that exam; its stations are evenly spaced
     * @param side direction across the part, in the exam's patient space
     */
    static Optional<StraightenedImage> image(HuVolume volume, Continuity whole, PatientVector side) {
        if (whole.stations().size() < 2) {
            return Optional.empty();
        }
        double step = whole.stations().get(1).atMm() - whole.stations().get(0).atMm();
        StraightenedPart part = StraightenedPart.of(volume, whole, side, REACH_MM, step);
        float[] rows = part.firstPlane();
        float[] hu = new float[rows.length];
        for (int at = 0; at < part.height(); at++) {
            for (int across = 0; across < part.width(); across++) {
                hu[at + part.height() * across] = rows[across + part.width() * at];
            }
        }
        return Optional.of(new StraightenedImage(part.height(), part.width(), part.atMm(0), step, hu));
    }
}
