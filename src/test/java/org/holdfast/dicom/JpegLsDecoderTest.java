package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.holdfast.dicom.CodecImages.Content;
import org.holdfast.dicom.JpegLsHeaders.Interleave;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** JPEG-LS streams made by hand or of our own images. */
class JpegLsDecoderTest {

    private static final String HEADER_4_BY_4 = "FFD8 FFF7 000B 08 0004 0004 01 01 11 00 ";

    /** Source: ISO/IEC 14495-1, section H.3, from memory. */
    private static final String WORKED_SCAN =
            "FFDA 0008 01 01 00 00 00 00 C000006C80208E01C00000574000006EE6000001BC18000005D800009160 FFD9";

    /** By hand: of four zeros each is a run of one, and the order of runs stays 0 for the first four: four bits 1. */
    private static final String FIRST_ROW_AND_END = "FFDA 0008 01 01 00 00 00 00 F0 FFD9";

    private static final PixelLayout GREY_4_BY_4 = CodecImages.grey(4, 4, 8, false);

    private static final short[] WORKED_IMAGE = {0, 0, 90, 74, 68, 50, 43, 205, 64, 145, 145, 145, 100, 145, 145, 145};

    @Test
    void decodesWorkedExampleOfTheStandard() throws Exception {
        short[] words = decoded(GREY_4_BY_4, Bytes.of(HEADER_4_BY_4 + WORKED_SCAN));
        assertArrayEquals(WORKED_IMAGE, words);
    }

    @ParameterizedTest
    @ValueSource(ints = {2, 3, 5, 7, 8, 11, 12, 15, 16})
    void everyDepthIsExact(int bits) throws Exception {
        for (Content content : Content.values()) {
            PixelLayout layout = CodecImages.grey(23, 31, bits, false);
            short[] words = CodecImages.words(layout, content);
            assertArrayEquals(words, decoded(layout, JpegLsEncoder.encode(layout, words, 0, Interleave.NONE, 0)));
        }
    }

    @ParameterizedTest
    @EnumSource(Interleave.class)
    void severalComponentsAreExact(Interleave interleave) throws Exception {
        for (int samples = 1; samples <= 4; samples++) {
            for (Content content : Content.values()) {
                PixelLayout layout = CodecImages.colour(19, 27, samples);
                short[] words = CodecImages.words(layout, content);
                assertArrayEquals(words, decoded(layout, JpegLsEncoder.encode(layout, words, 0, interleave, 0)));
            }
        }
    }

    @ParameterizedTest
    @CsvSource({"1, 8", "2, 8", "7, 12", "100, 12", "255, 16"})
    void nearLosslessIsWithinItsError(int near, int bits) throws Exception {
        for (Content content : Content.values()) {
            PixelLayout layout = CodecImages.grey(23, 31, bits, false);
            short[] words = CodecImages.words(layout, content);
            byte[] frame = JpegLsEncoder.encode(layout, words, near, Interleave.NONE, 0);
            assertEquals(near, JpegLsDecoder.nearLosslessError(frame));
            short[] decoded = decoded(layout, frame);
            for (int i = 0; i < words.length; i++) {
                assertTrue(Math.abs((words[i] & 0xFFFF) - (decoded[i] & 0xFFFF)) <= near);
            }
        }
    }

    @ParameterizedTest
    @CsvSource({"1, NONE", "2, LINE", "5, SAMPLE", "22, NONE", "23, LINE", "60, SAMPLE"})
    void restartsBeginAfresh(int rows, Interleave interleave) throws Exception {
        for (Content content : Content.values()) {
            PixelLayout layout = CodecImages.colour(23, 31, 3);
            short[] words = CodecImages.words(layout, content);
            assertArrayEquals(words, decoded(layout, JpegLsEncoder.encode(layout, words, 0, interleave, rows)));
        }
    }

    @Test
    void frameThatIsCutKeepsItsWholeRows() throws Exception {
        PixelLayout layout = CodecImages.grey(23, 31, 12, false);
        short[] words = CodecImages.words(layout, Content.SLOPES);
        byte[] frame = JpegLsEncoder.encode(layout, words, 0, Interleave.NONE, 0);
        short[] cut = new short[words.length];
        int count = new JpegLsDecoder().decode(Arrays.copyOf(frame, frame.length / 2), layout, cut);
        // By hand: noise of equal size in all rows, so half the bytes hold about half of them.
        assertTrue(count % 31 == 0 && count >= 9 * 31 && count <= 13 * 31, count + " words");
        assertArrayEquals(Arrays.copyOf(words, count), Arrays.copyOf(cut, count));
    }

    @Test
    void cutInFirstRowIsDamage() {
        assertDamage("a whole row of every component", HEADER_4_BY_4 + "FFDA 0008 01 01 00 00 00 00 C0");
    }

    @Test
    void rowsNeedNotBeCountedAhead() throws Exception {
        String header = HEADER_4_BY_4.replace("0004 0004", "0000 0004");
        short[] words = decoded(GREY_4_BY_4, Bytes.of(header + WORKED_SCAN));
        assertArrayEquals(WORKED_IMAGE, words);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "the start of an image, FF D8 | FF D9",
                "a JPEG-LS marker | FFD8 00",
                "a further byte of a marker segment | FFD8 FF",
                "a marker segment of 2 to | FFD8 FFE0 0100 00",
                "a marker segment of 2 to | FFD8 FFE0 0001 00",
                "a JPEG-LS frame header before the scan | FFD8 FFDA 0008 01 01 00 00 00 00",
                "a scan of every component | FFD8 FFF7 000B 08 0004 0004 01 01 11 00 FFD9",
                "a JPEG-LS frame header, FF F7 | FFD8 FFC3 000B 08 0004 0004 01 01 11 00",
                "one frame header | FFD8 FFF7 000B 08 0004 0004 01 01 11 00 FFF7 000B 08 0004 0004 01 01 11 00",
                "2 to 16 bits | FFD8 FFF7 000B 11 0004 0004 01 01 11 00",
                "components that are not subsampled | FFD8 FFF7 000B 08 0004 0004 01 01 21 00",
                "4 rows of 4 pixels | FFD8 FFF7 000B 08 0005 0004 01 01 11 00 FFDA 0008 01 01 00 00 00 00",
                "1 samples a pixel | FFD8 FFF7 000E 08 0004 0004 02 01 11 00 02 11 00 FFDA 0008 01 01 00 00 00 00",
                "samples of at most 8 bits | FFD8 FFF7 000B 0C 0004 0004 01 01 11 00 FFDA 0008 01 01 00 00 00 00",
                "type 2 | FFD8 FFF8 0005 02 01 01",
                "transform 1 | FFD8 FFE8 0007 6D726678 01",
                "without a mapping table | FFD8 FFF7 000B 08 0004 0004 01 01 11 00 FFDA 0008 01 01 01 00 00 00",
                "point transform 2 | FFD8 FFF7 000B 08 0004 0004 01 01 11 00 FFDA 0008 01 01 00 00 00 02",
                "interleave mode 3 | FFD8 FFF7 000B 08 0004 0004 01 01 11 00 FFDA 0008 01 01 00 00 03 00",
                "a component of the frame | FFD8 FFF7 000B 08 0004 0004 01 01 11 00 FFDA 0008 01 07 00 00 00 00",
                "an error of at most half | FFD8 FFF7 000B 08 0004 0004 01 01 11 00 FFDA 0008 01 01 00 80 00 00",
            })
    void saysWhatIsWrongWithHeaders(String words, String bytes) {
        assertDamage(words, bytes);
    }

    @Test
    void scanThatGoesOnIsDamage() {
        assertDamage("the end of the coded data", HEADER_4_BY_4 + WORKED_SCAN.replace("FFD9", "1234 5678 FFD9"));
    }

    @Test
    void missingRestartIsDamage() {
        assertDamage("restart marker 0", "FFD8 FFDD 0004 0001" + HEADER_4_BY_4.substring(4) + FIRST_ROW_AND_END);
    }

    private static void assertDamage(String words, String bytes) {
        CorruptFrameException e = assertThrows(CorruptFrameException.class, () -> new JpegLsDecoder()
                .decode(Bytes.of(bytes), GREY_4_BY_4, new short[16]));
        assertTrue(e.getMessage().contains(words), e.getMessage());
        assertTrue(e.offset() >= 0 && e.offset() <= Bytes.of(bytes).length, e.offset() + "");
    }

    private static short[] decoded(PixelLayout layout, byte[] frame) throws CorruptFrameException {
        short[] words = new short[Math.toIntExact(layout.frameValues())];
        assertEquals(words.length, new JpegLsDecoder().decode(frame, layout, words));
        return words;
    }
}
