package org.holdfast.dicom;

/**
 * Preset coding parameters as they are written (ISO/IEC 14495-1, section C.2.4.1.1); 0 stands for the default.
 *
 * @param maximum largest sample value, MAXVAL
 * @param first threshold of gradients, T1
 * @param second threshold, T2
 * @param third threshold, T3
 * @param reset count at which the statistics are halved, RESET
 */
record JpegLsPreset(int maximum, int first, int second, int third, int reset) {

    /** All of them by default. */
    static final JpegLsPreset DEFAULT = new JpegLsPreset(0, 0, 0, 0, 0);
}
