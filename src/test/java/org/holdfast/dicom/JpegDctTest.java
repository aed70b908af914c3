package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Sequential DCT (ISO/IEC 10918-1, annex F) on streams written by hand: flat blocks, so that samples follow at once. */
class JpegDctTest {

    /** Steps of 1 for all coefficients. */
    private static final String STEPS = "FFDB 0043 00" + " 01".repeat(64);

    /** DC codes 0 for no difference, 10 for one of 4 bits, 110 for one of 7; AC code 0 for the end of a block. */
    private static final String CODES =
            "FFC4 0016 00 01010100000000000000000000000000 000407" + "FFC4 0014 10 01000000000000000000000000000000 00";

    @Test
    void flatBlocksHaveAnEighthOfTheirConstantTerm() throws Exception {
        // 12 bits, 1 × 16 samples: blocks of DC 64 and 64 + 8: 110 1000000 0 | 10 1000 0, filled with ones.
        byte[] stream = jpeg("FFC1 000B 0C 0001 0010 01 01 11 00", "FFDA 0008 01 01 00 00 3F 00 D0 14 3F");
        short[] words = new short[16];
        assertEquals(16, JpegDecoder.any().decode(stream, layout(1, 16, 1, 16), words));
        short[] expected = new short[16];
        // By hand: 2048 + 64 / 8 and 2048 + 72 / 8
        Arrays.fill(expected, 0, 8, (short) 2056);
        Arrays.fill(expected, 8, 16, (short) 2057);
        assertArrayEquals(expected, words);
    }

    @Test
    void restartForgetsTheLastConstantTerm() throws Exception {
        // The same blocks with a restart between them: 110 1000000 0 and 10 1000 0, each filled with ones.
        byte[] stream =
                jpeg("FFDD 0004 0001 FFC0 000B 08 0001 0010 01 01 11 00", "FFDA 0008 01 01 00 00 3F 00 D0 1F FFD0 A1");
        short[] words = decode(stream, layout(1, 16, 1, 8));
        // By hand: 128 + 64 / 8 and 128 + 8 / 8
        assertEquals(136, words[7]);
        assertEquals(129, words[8]);
        stream[stream.length - 4] = (byte) 0xD1;
        assertThrows(CorruptFrameException.class, () -> decode(stream, layout(1, 16, 1, 8)));
    }

    @Test
    void subsampledComponentsAreRepeated() throws Exception {
        // One unit of 16 × 16: four blocks of the first component with DC +64, 0, 0, +8; then one of each other, −8 and
        // +8.
        // 110 1000000 0 | 0 0 | 0 0 | 10 1000 0 | 10 0111 0 | 10 1000 0, filled with ones.
        byte[] stream = jpeg(
                "FFC0 0011 08 0010 0010 03 01 22 00 02 11 00 03 11 00",
                "FFDA 000C 03 01 00 02 00 03 00 00 3F 00 D0 01 42 75 0F");
        short[] words = decode(stream, layout(16, 16, 3, 8));
        // By hand: 128 + 64 / 8 in three blocks, + 72 / 8 in the last; 128 − 1 and 128 + 1 everywhere
        assertArrayEquals(new short[] {136, 127, 129}, Arrays.copyOf(words, 3));
        assertArrayEquals(new short[] {137, 127, 129}, Arrays.copyOfRange(words, words.length - 3, words.length));
        assertEquals(64, count(words, 137));
    }

    @Test
    void greyIsWithinOneOfThePlatformsDecoder() throws Exception {
        byte[] stream = JdkJpeg.encode(61, 83, false, 7);
        // Computed: javax.imageio of the platform, which rounds inside its transform
        int[] expected = JdkJpeg.decodeGrey(stream);
        short[] words = decode(stream, layout(61, 83, 1, 8));
        for (int i = 0; i < words.length; i++) {
            assertEquals(expected[i], words[i], 1, "sample " + i);
        }
    }

    @ParameterizedTest
    @CsvSource({
        "FFC2, progressive DCT (SOF2)",
        "FFC9, extended sequential DCT with arithmetic coding (SOF9)",
        "FFCB, lossless with arithmetic coding (SOF11)",
        "FFC5, hierarchical coding (SOF5)"
    })
    void otherProcessesAreNamed(String marker, String process) {
        byte[] stream = jpeg(marker + "000B 08 0001 0010 01 01 11 00", "FFDA 0008 01 01 00 00 3F 00 D0 14 3F");
        CorruptFrameException e = assertThrows(CorruptFrameException.class, () -> decode(stream, layout(1, 16, 1, 8)));
        assertTrue(e.got().startsWith(process), e.got());
    }

    @Test
    void streamWithLossIsRefusedWhereNoneIsAllowed() {
        byte[] stream = jpeg("FFC0 000B 08 0001 0010 01 01 11 00", "FFDA 0008 01 01 00 00 3F 00 D0 14 3F");
        CorruptFrameException e = assertThrows(CorruptFrameException.class, () -> JpegDecoder.lossless()
                .decode(stream, layout(1, 16, 1, 8), new short[16]));
        assertTrue(e.got().startsWith("baseline DCT (SOF0)"), e.got());
    }

    @Test
    void missingTableIsNamed() {
        byte[] stream = Bytes.of(
                "FFD8" + STEPS + "FFC0 000B 08 0001 0010 01 01 11 00 FFDA 0008 01 01 00 00 3F 00 D0 14 3F FFD9");
        CorruptFrameException e = assertThrows(CorruptFrameException.class, () -> decode(stream, layout(1, 16, 1, 8)));
        assertEquals("expected DC Huffman table 0, got none of that number", e.getMessage());
    }

    private static byte[] jpeg(String frame, String scan) {
        return Bytes.of("FFD8" + STEPS + CODES + frame + scan + "FFD9");
    }

    private static short[] decode(byte[] stream, PixelLayout layout) throws CorruptFrameException {
        short[] words = new short[(int) layout.frameValues()];
        assertEquals(words.length, JpegDecoder.any().decode(stream, layout, words));
        return words;
    }

    private static int count(short[] words, int value) {
        int count = 0;
        for (short word : words) {
            count += word == value ? 1 : 0;
        }
        return count;
    }

    private static PixelLayout layout(int rows, int columns, int samples, int bits) {
        return new PixelLayout(rows, columns, 1, samples, bits, bits, bits - 1, false, "MONOCHROME2");
    }
}
