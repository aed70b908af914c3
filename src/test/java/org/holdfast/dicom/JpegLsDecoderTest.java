package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** JPEG-LS streams made by hand or of our own images. */
class JpegLsDecoderTest {

    private static final String HEADER_4_BY_4 = "FFD8 FFF7 000B 08 0004 0004 01 01 11 00 ";

    /** Source: ISO/IEC 14495-1, section H.3, from memory. */
    private static final String WORKED_SCAN =
            "FFDA 0008 01 01 00 00 00 00 C000006C80208E01C00000574000006EE6000001BC18000005D800009160 FFD9";

    private static final short[] WORKED_IMAGE = {0, 0, 90, 74, 68, 50, 43, 205, 64, 145, 145, 145, 100, 145, 145, 145};

    @Test
    void decodesWorkedExampleOfTheStandard() throws Exception {
        short[] words = new short[16];
        int count = new JpegLsDecoder().decode(Bytes.of(HEADER_4_BY_4 + WORKED_SCAN), grey(4, 4, 8), words);
        assertEquals(16, count);
        assertArrayEquals(WORKED_IMAGE, words);
    }

    private static PixelLayout grey(int rows, int columns, int bits) {
        return new PixelLayout(rows, columns, 1, 1, bits > 8 ? 16 : 8, bits, bits - 1, false, "MONOCHROME2");
    }
}
