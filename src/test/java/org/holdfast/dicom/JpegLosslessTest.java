package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The lossless process (ISO/IEC 10918-1, annex H) on streams written by hand or by a writer of the tests. */
class JpegLosslessTest {

    private static final long SEED = 20261125;

    @Test
    void readsAStreamMadeByHand() throws Exception {
        // 2 × 2 samples of 8 bits, predictor 1; codes 0 for category 0, 10 for 1, 110 for 3. Differences 0 (from 128)
        // and 5,
        // then 1 (from the sample above) and 0: 0 | 110 101 | 10 1 | 0, filled with ones.
        byte[] stream = Bytes.of("FFD8 FFC4 0016 00 01010100000000000000000000000000 000103"
                + "FFC3 000B 08 0002 0002 01 01 11 00 FFDA 0008 01 01 00 01 00 00 6B 5F FFD9");
        short[] words = new short[4];
        assertEquals(4, JpegDecoder.lossless().decode(stream, layout(2, 2, 1, 8), words));
        // By hand: 128, 128 + 5; 128 + 1, 129 + 0
        assertArrayEquals(new short[] {128, 133, 129, 129}, words);
    }

    @ParameterizedTest
    @ValueSource(ints = {2, 3, 7, 8, 10, 12, 15, 16})
    void everyPredictorGivesBackEverySample(int precision) throws Exception {
        Random random = new Random(SEED);
        for (int predictor = 1; predictor <= 7; predictor++) {
            for (int linesToRestart : new int[] {0, 1, 3}) {
                short[] words = randomWords(random, 11 * 9, precision);
                byte[] stream =
                        new LosslessJpegWriter(precision, predictor, 0, linesToRestart, false).write(11, 9, 1, words);
                assertArrayEquals(words, decode(stream, layout(11, 9, 1, 16)), "predictor " + predictor);
            }
        }
    }

    @ParameterizedTest
    @CsvSource({"true, 0", "false, 0", "true, 2", "false, 2"})
    void componentsComeTogetherOrOneByOne(boolean scanForEach, int linesToRestart) throws Exception {
        short[] words = randomWords(new Random(SEED), 5 * 7 * 3, 8);
        byte[] stream = new LosslessJpegWriter(8, 4, 0, linesToRestart, scanForEach).write(5, 7, 3, words);
        assertArrayEquals(words, decode(stream, layout(5, 7, 3, 8)));
    }

    @Test
    void pointTransformLeavesTheLowestBitsZero() throws Exception {
        short[] words = randomWords(new Random(SEED), 6 * 6, 12);
        byte[] stream = new LosslessJpegWriter(12, 5, 3, 0, false).write(6, 6, 1, words);
        short[] expected = words.clone();
        for (int i = 0; i < expected.length; i++) {
            expected[i] &= ~7;
        }
        assertArrayEquals(expected, decode(stream, layout(6, 6, 1, 16)));
    }

    @Test
    void cutShortGivesWholeLinesOnly() throws Exception {
        short[] words = randomWords(new Random(SEED), 40 * 10, 16);
        byte[] stream = new LosslessJpegWriter(16, 7, 0, 0, false).write(40, 10, 1, words);
        int before = 0;
        for (int length = 80; length < stream.length - 2; length += 13) {
            short[] read = new short[words.length];
            byte[] cut = Arrays.copyOf(stream, length);
            int count;
            try {
                count = JpegDecoder.lossless().decode(cut, layout(40, 10, 1, 16), read);
            } catch (CorruptFrameException e) {
                // Not one line is there.
                continue;
            }
            assertTrue(count % 10 == 0 && count >= before && count <= words.length, "after " + length + ": " + count);
            assertArrayEquals(Arrays.copyOf(words, count), Arrays.copyOf(read, count));
            before = count;
        }
        // By hand: without the last bytes, all but the last line or two.
        assertTrue(before >= 380, "at most " + before);
    }

    @Test
    void anEndBeforeTheLastLineIsDamage() {
        short[] words = randomWords(new Random(SEED), 8 * 8, 16);
        byte[] tall = new LosslessJpegWriter(16, 1, 0, 0, false).write(8, 8, 1, words);
        byte[] taller = tall.clone();
        // By hand: the number of lines stands 5 bytes behind the frame's marker, at 40.
        assertEquals((byte) 0xC3, taller[41]);
        taller[46] = 9;
        CorruptFrameException e = assertThrows(CorruptFrameException.class, () -> decode(taller, layout(9, 8, 1, 16)));
        assertTrue(e.getMessage().contains("data of 9 lines"), e.getMessage());
    }

    @Test
    void sizeMustBeThatOfTheHeader() {
        byte[] stream = new LosslessJpegWriter(8, 1, 0, 0, false).write(4, 6, 1, new short[24]);
        for (PixelLayout other : new PixelLayout[] {layout(6, 4, 1, 8), layout(4, 6, 3, 8), layout(4, 5, 1, 8)}) {
            CorruptFrameException e = assertThrows(CorruptFrameException.class, () -> decode(stream, other));
            assertTrue(e.getMessage().contains("4 rows × 6 columns × 1 samples"), e.getMessage());
        }
    }

    @Test
    void sampleMustFitIntoWhatIsAllocated() {
        byte[] stream = new LosslessJpegWriter(12, 1, 0, 0, false).write(4, 6, 1, new short[24]);
        CorruptFrameException e = assertThrows(CorruptFrameException.class, () -> decode(stream, layout(4, 6, 1, 8)));
        assertEquals("expected 2 to 8 bits a sample, got 12", e.getMessage());
    }

    private static short[] decode(byte[] stream, PixelLayout layout) throws CorruptFrameException {
        short[] words = new short[(int) layout.frameValues()];
        assertEquals(words.length, JpegDecoder.lossless().decode(stream, layout, words));
        return words;
    }

    private static short[] randomWords(Random random, int count, int precision) {
        short[] words = new short[count];
        for (int i = 0; i < count; i++) {
            words[i] = (short) random.nextInt(1 << precision);
        }
        return words;
    }

    private static PixelLayout layout(int rows, int columns, int samples, int bits) {
        return new PixelLayout(rows, columns, 1, samples, bits, bits, bits - 1, false, "MONOCHROME2");
    }
}
