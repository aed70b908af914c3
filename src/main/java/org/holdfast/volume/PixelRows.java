package org.holdfast.volume;

/** Fills rows of pixels with HU sampled at evenly spaced places. An instance belongs to one thread. */
interface PixelRows {

    /** How many pixels of a row are best filled before those below them. */
    int patch();

    /**
     * Samples a row by the rules of {@link HuVolume#sample(org.holdfast.geometry.PatientPoint)}.
     *
     * @param x mm, the row's first place
     * @param y mm
     * @param z mm
     * @param hu gets {@code count} values from index {@code at} on
     */
    void fill(double x, double y, double z, int count, float[] hu, int at);
}
