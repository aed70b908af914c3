package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * Damaged frames: flipped bits, overwritten bytes and 16-bit fields, pieces cut out, doubled or cut off. Each ends in words or
 * in a {@link CorruptFrameException}, soon; anything else fails. Seeds are fixed.
 */
class FrameRobustnessTest {

    private static final long SEED = 20261125;

    private static final int OWN_MUTANTS = 6000;
    private static final int LIBRARY_MUTANTS = 3000;

    /** For one frame of at most 64 × 64 samples; a whole run takes some seconds. */
    private static final double MOST_SECONDS = 2;

    private record Seed(FrameDecoder decoder, byte[] frame, PixelLayout layout) {}

    @Test
    void damagedJpegEndsInWordsOrAnException() {
        Random random = new Random(SEED);
        short[] words = new short[48 * 40 * 3];
        for (int i = 0; i < words.length; i++) {
            words[i] = (short) (20 * i + random.nextInt(300));
        }
        hammer(
                List.of(
                        lossless(new LosslessJpegWriter(16, 7, 0, 0, false), words, 1, 16),
                        lossless(new LosslessJpegWriter(12, 1, 0, 5, false), words, 1, 16),
                        lossless(new LosslessJpegWriter(16, 4, 1, 0, true), words, 3, 16),
                        new Seed(JpegDecoder.any(), JdkJpeg.encode(48, 40, false, SEED), layout(48, 40, 1, 8)),
                        new Seed(JpegDecoder.any(), JdkJpeg.encode(48, 40, true, SEED), layout(48, 40, 3, 8))),
                OWN_MUTANTS);
    }

    @Test
    void damagedJpeg2000EndsInWordsOrAnException() {
        FrameDecoder decoder = new Jpeg2000Decoder();
        hammer(
                List.of(
                        new Seed(decoder, Codestreams.of("signed"), Codestreams.layout(16, true)),
                        new Seed(decoder, Codestreams.of("unsigned"), Codestreams.layout(16, true)),
                        new Seed(decoder, Codestreams.of("lossy"), Codestreams.layout(16, true)),
                        new Seed(decoder, Codestreams.of("tiled"), Codestreams.layout(16, true))),
                LIBRARY_MUTANTS);
    }

    private static void hammer(List<Seed> seeds, int mutants) {
        Random random = new Random(SEED);
        int refused = 0;
        for (int i = 0; i < mutants; i++) {
            Seed seed = seeds.get(i % seeds.size());
            byte[] frame = mutate(seed.frame, random);
            short[] words = new short[(int) seed.layout.frameValues()];
            String what = "mutant " + i;
            boolean decoded = assertTimeoutPreemptively(
                    Duration.ofSeconds((long) MOST_SECONDS), () -> decode(seed, frame, words), what);
            refused += decoded ? 0 : 1;
        }
        // By hand: damage in headers is mostly seen, damage in coded samples mostly is not; neither is rare.
        assertTrue(refused > mutants / 10 && refused < mutants, refused + " of " + mutants + " refused");
    }

    private static boolean decode(Seed seed, byte[] frame, short[] words) {
        try {
            int count = seed.decoder.decode(frame, seed.layout, words);
            assertTrue(count > 0 && count <= words.length, "words " + count);
            return true;
        } catch (CorruptFrameException e) {
            assertTrue(!e.expected().isBlank() && !e.got().isBlank());
            return false;
        }
    }

    private static byte[] mutate(byte[] frame, Random random) {
        byte[] out = frame.clone();
        int times = 1 + random.nextInt(4);
        for (int t = 0; t < times && out.length > 4; t++) {
            // Half of the damage goes where the headers are.
            int at = random.nextInt(random.nextBoolean() ? out.length : Math.min(out.length, 180));
            switch (random.nextInt(6)) {
                case 0 -> out[at] ^= (byte) (1 << random.nextInt(8));
                case 1 -> out[at] = (byte) random.nextInt(256);
                case 2 -> out[at] = (byte) (random.nextBoolean() ? 0xFF : 0);
                case 3 -> out = Arrays.copyOf(out, Math.max(1, at));
                case 4 -> Arrays.fill(out, at, Math.min(out.length, at + 4), (byte) random.nextInt(256));
                default -> out = moved(out, at, random.nextInt(out.length));
            }
        }
        return out;
    }

    /** The bytes with a piece put elsewhere, which leaves it out, or doubles it. */
    private static byte[] moved(byte[] bytes, int from, int to) {
        byte[] out = Arrays.copyOf(bytes, bytes.length);
        int length = Math.min(bytes.length - Math.max(from, to), 40);
        System.arraycopy(bytes, from, out, to, length);
        return out;
    }

    private static Seed lossless(LosslessJpegWriter writer, short[] words, int samples, int bits) {
        short[] fitting = Arrays.copyOf(words, 48 * 40 * samples);
        for (int i = 0; i < fitting.length; i++) {
            fitting[i] &= (short) ((1 << writer.precision()) - 1);
        }
        return new Seed(JpegDecoder.lossless(), writer.write(48, 40, samples, fitting), layout(48, 40, samples, bits));
    }

    private static PixelLayout layout(int rows, int columns, int samples, int bits) {
        return new PixelLayout(rows, columns, 1, samples, bits, bits, bits - 1, false, "MONOCHROME2");
    }
}
