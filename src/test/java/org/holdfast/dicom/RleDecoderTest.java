package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** RLE segments (PS3.5, annex G) written by hand. */
class RleDecoderTest {

    @Test
    void literalsRunsAndNoOperations() throws Exception {
        // By hand: 02 = three bytes as they are, FE = three times, 80 = nothing, 00 = one byte, FF = twice.
        short[] words = decoded(CodecImages.grey(3, 3, 8, false), "02 010203 FE 07 80 00 FF FF 05");
        assertArrayEquals(new short[] {1, 2, 3, 7, 7, 7, 255, 5, 5}, words);
    }

    @Test
    void longestLiteralAndLongestRun() throws Exception {
        StringBuilder literal = new StringBuilder("7F ");
        short[] expected = new short[256];
        Arrays.fill(expected, (short) 9);
        for (int i = 0; i < 128; i++) {
            literal.append(String.format("%02X", i));
            expected[i] = (short) i;
        }
        // By hand: 7F = 128 bytes as they are, 81 = 128 times.
        assertArrayEquals(expected, decoded(CodecImages.grey(1, 256, 8, false), literal + " 81 09"));
    }

    @Test
    void highBytesComeFirst() throws Exception {
        // By hand: high bytes 12, FF, low bytes 34, FE.
        short[] words = decoded(CodecImages.grey(1, 2, 16, true), "01 12FF", "01 34FE");
        assertArrayEquals(new short[] {0x1234, -2}, words);
    }

    @Test
    void thirtyTwoBitsArePutTogether() throws Exception {
        int[] values = new int[2];
        int count = RleDecoder.unpack(
                frame("01 8012", "01 0034", "01 0056", "01 0178"),
                new PixelLayout(1, 2, 1, 1, 32, 32, 31, false, "MONOCHROME2"),
                values);
        // By hand: bytes 80 00 00 01 and 12 34 56 78
        assertArrayEquals(new int[] {0x80000001, 0x12345678}, values);
        assertEquals(2, count);
    }

    @Test
    void samplesOfAPixelStandTogether() throws Exception {
        PixelLayout wide = new PixelLayout(1, 2, 1, 3, 16, 16, 15, false, "RGB");
        short[] words = decoded(wide, "01 0102", "01 A1A2", "01 0304", "01 A3A4", "01 0506", "01 A5A6");
        // By hand: red 01A1 02A2, green 03A3 04A4, blue 05A5 06A6.
        assertArrayEquals(new short[] {0x01A1, 0x03A3, 0x05A5, 0x02A2, 0x04A4, 0x06A6}, words);
        assertArrayEquals(
                new short[] {1, 3, 5, 7, 2, 4, 6, 8},
                decoded(CodecImages.colour(1, 2, 4), "01 0102", "01 0304", "01 0506", "01 0708"));
    }

    @Test
    void storedBitsAreMovedDownButNotMasked() throws Exception {
        // By hand: 12 bits stored in bits 15 to 4, so ABC7 becomes 0ABC.
        PixelLayout high = new PixelLayout(1, 1, 1, 1, 16, 12, 15, false, "MONOCHROME2");
        assertArrayEquals(new short[] {0x0ABC}, decoded(high, "00 AB", "00 C7"));
        assertArrayEquals(new short[] {(short) 0xFABC}, decoded(CodecImages.grey(1, 1, 12, false), "00 FA", "00 BC"));
    }

    @Test
    void tooManyBytesAreLeft() throws Exception {
        assertArrayEquals(new short[] {4, 4}, decoded(CodecImages.grey(1, 2, 8, false), "FA 04 00"));
        assertArrayEquals(new short[] {1, 2}, decoded(CodecImages.grey(1, 2, 8, false), "03 01020304"));
    }

    @Test
    void rowsThatAreWholeInAllSegmentsAreKept() throws Exception {
        PixelLayout layout = CodecImages.grey(3, 2, 16, false);
        byte[] frame = frame("FB 00", "04 0102030405");
        short[] words = new short[6];
        // By hand: five of six low bytes are two rows of two.
        assertEquals(4, new RleDecoder().decode(frame, layout, words));
        assertArrayEquals(new short[] {1, 2, 3, 4}, Arrays.copyOf(words, 4));
        // By hand: without the last three bytes it is one row.
        assertEquals(2, new RleDecoder().decode(Arrays.copyOf(frame, frame.length - 3), layout, words));
        CorruptFrameException e = assertThrows(CorruptFrameException.class, () -> new RleDecoder()
                .decode(Arrays.copyOf(frame, frame.length - 5), layout, words));
        assertTrue(e.expected().contains("a row of 2 bytes"), e.getMessage());
    }

    @ParameterizedTest
    @CsvSource({
        "1, 64, 0, '2 RLE segments'",
        "-1, 64, 66, '2 RLE segments'",
        "2, 0, 66, 'begins at byte 64 or later'",
        "2, 66, 64, 'begins at byte 66 or later'",
        "2, 64, -1, 'a row of 2 bytes'",
        "2, 5000, 6000, 'a row of 2 bytes'",
    })
    void damagedHeadersAreRefused(int segments, int first, int second, String words) {
        byte[] frame = frame("FF 00", "FF 01");
        ByteBuffer.wrap(frame)
                .order(ByteOrder.LITTLE_ENDIAN)
                .putInt(segments)
                .putInt(first)
                .putInt(second);
        assertRefused(words, frame, CodecImages.grey(1, 2, 16, false));
    }

    @Test
    void shortHeadersAndOtherDepthsAreRefused() {
        assertRefused("a header of 64 bytes", new byte[63], CodecImages.grey(1, 2, 16, false));
        PixelLayout bits = new PixelLayout(1, 8, 1, 1, 1, 1, 0, false, "MONOCHROME2");
        assertRefused("8, 16 or 32 bits allocated", frame("00 01"), bits);
    }

    private static void assertRefused(String words, byte[] frame, PixelLayout layout) {
        CorruptFrameException e =
                assertThrows(CorruptFrameException.class, () -> new RleDecoder().decode(frame, layout, new short[8]));
        assertTrue(e.getMessage().contains(words), e.getMessage());
    }

    private static short[] decoded(PixelLayout layout, String... segments) throws CorruptFrameException {
        short[] words = new short[Math.toIntExact(layout.frameValues())];
        // Bits of an earlier frame must not shine through.
        Arrays.fill(words, (short) 0x5A5A);
        assertEquals(words.length, new RleDecoder().decode(frame(segments), layout, words));
        return words;
    }

    /** A header and segments. */
    static byte[] frame(String... segments) {
        ByteBuffer out = ByteBuffer.allocate(4096).order(ByteOrder.LITTLE_ENDIAN);
        out.putInt(segments.length).position(64);
        for (int i = 0; i < segments.length; i++) {
            out.putInt(4 * (i + 1), out.position());
            out.put(Bytes.of(segments[i]));
        }
        return Arrays.copyOf(out.array(), out.position());
    }
}
