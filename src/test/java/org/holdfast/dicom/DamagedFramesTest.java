package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertTimeout;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.holdfast.dicom.CodecImages.Content;
import org.holdfast.dicom.JpegLsHeaders.Interleave;
import org.junit.jupiter.api.Test;

/** Frames with bytes changed, cut off or put in: each ends in words or in a message, soon, and in nothing else. */
class DamagedFramesTest {

    private static final int CASES = 5_000;
    private static final long SEED = 20_261_125;

    /** A frame as it should be. */
    private record Sound(PixelLayout layout, byte[] frame) {}

    @Test
    void jpegLsEndsInWordsOrAMessage() throws Exception {
        List<Sound> sound = new ArrayList<>();
        for (Content content : Content.values()) {
            for (Interleave interleave : Interleave.values()) {
                PixelLayout colour = CodecImages.colour(9, 13, 3);
                sound.add(new Sound(
                        colour, JpegLsEncoder.encode(colour, CodecImages.words(colour, content), 0, interleave, 4)));
            }
            PixelLayout grey = CodecImages.grey(17, 15, 16, true);
            sound.add(new Sound(
                    grey, JpegLsEncoder.encode(grey, CodecImages.words(grey, content), 0, Interleave.NONE, 0)));
            PixelLayout near = CodecImages.grey(17, 15, 12, false);
            sound.add(new Sound(
                    near, JpegLsEncoder.encode(near, CodecImages.words(near, content), 5, Interleave.NONE, 0)));
        }
        assertEndsWell(new JpegLsDecoder(), sound);
    }

    @Test
    void rleEndsInWordsOrAMessage() throws Exception {
        assertEndsWell(
                new RleDecoder(),
                List.of(
                        new Sound(
                                CodecImages.grey(3, 3, 8, false),
                                RleDecoderTest.frame("02 010203 FE 07 80 00 FF FF 05")),
                        new Sound(CodecImages.grey(3, 2, 16, false), RleDecoderTest.frame("FB 00", "05 010203040506")),
                        new Sound(
                                CodecImages.colour(2, 3, 3),
                                RleDecoderTest.frame("05 010203040506", "FB 07", "FE 01 FE 02"))));
    }

    private static void assertEndsWell(FrameDecoder decoder, List<Sound> sound) throws Exception {
        Random random = new Random(SEED);
        int[] refused = new int[1];
        // A case is a fraction of a millisecond; a loop without end or a huge array is not.
        assertTimeout(Duration.ofSeconds(10), () -> {
            for (int i = 0; i < CASES; i++) {
                Sound one = sound.get(i % sound.size());
                byte[] damaged = damaged(one.frame, random);
                short[] words = new short[Math.toIntExact(one.layout.frameValues())];
                try {
                    int count = decoder.decode(damaged, one.layout, words);
                    int row = one.layout.columns() * one.layout.samples();
                    assertTrue(count > 0 && count <= words.length && count % row == 0, count + " words");
                } catch (CorruptFrameException e) {
                    assertTrue(e.offset() >= -1 && e.offset() <= damaged.length, e.offset() + "");
                    refused[0]++;
                }
            }
        });
        // Both outcomes must occur, or the damage is none or the frames never were sound.
        assertTrue(refused[0] > CASES / 20 && refused[0] < CASES * 19 / 20, refused[0] + " of " + CASES + " refused");
    }

    private static byte[] damaged(byte[] frame, Random random) {
        byte[] bytes = frame.clone();
        for (int times = 1 + random.nextInt(3); times > 0; times--) {
            int at = random.nextInt(bytes.length);
            switch (random.nextInt(4)) {
                case 0 -> bytes[at] ^= (byte) (1 << random.nextInt(8));
                case 1 -> bytes[at] = (byte) random.nextInt(256);
                case 2 -> bytes = Arrays.copyOf(bytes, Math.max(1, at));
                default -> {
                    byte[] longer = Arrays.copyOf(bytes, bytes.length + 1);
                    System.arraycopy(bytes, at, longer, at + 1, bytes.length - at);
                    longer[at] = (byte) random.nextInt(256);
                    bytes = longer;
                }
            }
        }
        return bytes;
    }
}
