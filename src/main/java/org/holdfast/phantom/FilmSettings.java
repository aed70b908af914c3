package org.holdfast.phantom;

/**
 * How a radiograph is simulated: a point source, a flat detector square to the central ray.
 *
 * @param sourceToDetectorMm distance of the source from the detector, mm
 * @param sourceToMiddleMm distance of the source from the middle of the scene, mm; less than that to the detector
 * @param pixelMm side of a detector pixel, mm
 * @param photons photons that reach a pixel of an empty beam, for the noise
 * @param seed start of the noise
 */
record FilmSettings(double sourceToDetectorMm, double sourceToMiddleMm, double pixelMm, double photons, long seed) {

    FilmSettings {
        Require.positive(sourceToDetectorMm, "sourceToDetectorMm");
        Require.positive(sourceToMiddleMm, "sourceToMiddleMm");
        Require.positive(pixelMm, "pixelMm");
        Require.positive(photons, "photons");
        if (!(sourceToMiddleMm < sourceToDetectorMm)) {
            throw new IllegalArgumentException("the middle must lie before the detector, got " + sourceToMiddleMm
                    + " of " + sourceToDetectorMm + " mm");
        }
    }

    /** Size on the detector of a unit length in the middle plane. */
    double magnification() {
        return sourceToDetectorMm / sourceToMiddleMm;
    }
}
