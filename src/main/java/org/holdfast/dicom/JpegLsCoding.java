package org.holdfast.dicom;

/**
 * Parameters that a scan is coded with, and what follows from them (ISO/IEC 14495-1, sections A.2.1, A.3.3 and
 * C.2.4.1.1). Immutable.
 *
 * @param maximum largest sample value, MAXVAL
 * @param near how far a decoded value may be from the original
 * @param range number of values that a prediction error can have
 * @param errorBits bits of an error that is written as it is
 * @param limit most bits of a code
 * @param first lowest gradient of the second class of gradients, T1
 * @param second of the third, T2
 * @param third of the fourth, T3
 * @param reset count at which the statistics are halved
 */
record JpegLsCoding(
        int maximum, int near, int range, int errorBits, int limit, int first, int second, int third, int reset) {

    private static final int DEFAULT_RESET = 64;

    /**
     * Fills in defaults and checks.
     *
     * @param precision bits of a sample
     * @param offset place of the scan, for messages
     */
    static JpegLsCoding of(JpegLsPreset preset, int precision, int near, int offset) throws CorruptFrameException {
        int largest = (1 << precision) - 1;
        int maximum = preset.maximum() == 0 ? largest : preset.maximum();
        require(maximum <= largest, offset, "a largest value of at most " + largest, maximum);
        require(near <= Math.min(255, maximum / 2), offset, "an error of at most half the largest value", near);
        int[] defaults = defaultThresholds(maximum, near);
        int first = preset.first() == 0 ? defaults[0] : preset.first();
        int second = preset.second() == 0 ? defaults[1] : preset.second();
        int third = preset.third() == 0 ? defaults[2] : preset.third();
        int reset = preset.reset() == 0 ? DEFAULT_RESET : preset.reset();
        require(first > near && first <= maximum, offset, "a first threshold above " + near, first);
        require(second >= first && second <= maximum, offset, "a second threshold of " + first + " or more", second);
        require(third >= second && third <= maximum, offset, "a third threshold of " + second + " or more", third);
        require(reset >= 3 && reset <= Math.max(255, maximum), offset, "a reset count of 3 or more", reset);
        int range = (maximum + 2 * near) / (2 * near + 1) + 1;
        int sampleBits = Math.max(2, bitsFor(maximum));
        int limit = 2 * (sampleBits + Math.max(8, sampleBits));
        return new JpegLsCoding(maximum, near, range, bitsFor(range - 1), limit, first, second, third, reset);
    }

    /** Classes −4 to 4 of the gradients from −T3 to T3 (section A.3.3); beyond, the class is that of the end. */
    byte[] gradientClasses() {
        byte[] classes = new byte[2 * third + 1];
        for (int gradient = near + 1; gradient <= third; gradient++) {
            int size = gradient < first ? 1 : gradient < second ? 2 : gradient < third ? 3 : 4;
            classes[third + gradient] = (byte) size;
            classes[third - gradient] = (byte) -size;
        }
        return classes;
    }

    private static int[] defaultThresholds(int maximum, int near) {
        int first;
        int second;
        int third;
        if (maximum >= 128) {
            int factor = (Math.min(maximum, 4095) + 128) / 256;
            first = factor + 2 + 3 * near;
            second = 4 * factor + 3 + 5 * near;
            third = 17 * factor + 4 + 7 * near;
        } else {
            int factor = 256 / (maximum + 1);
            first = Math.max(2, 3 / factor + 3 * near);
            second = Math.max(3, 7 / factor + 5 * near);
            third = Math.max(4, 21 / factor + 7 * near);
        }
        first = clamp(first, near + 1, maximum);
        second = clamp(second, first, maximum);
        return new int[] {first, second, clamp(third, second, maximum)};
    }

    /** The standard's own clamping: a value that is too large becomes the lowest. */
    private static int clamp(int value, int lowest, int highest) {
        return value > highest || value < lowest ? lowest : value;
    }

    private static int bitsFor(int largest) {
        return Integer.SIZE - Integer.numberOfLeadingZeros(largest);
    }

    private static void require(boolean holds, int offset, String expected, int got) throws CorruptFrameException {
        if (!holds) {
            throw new CorruptFrameException(offset, expected, "" + got);
        }
    }
}
