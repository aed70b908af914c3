package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class Jpeg2000DecoderTest {

    /** Where the size marker has the profile, the width, the tile's width, the precision of the first component. */
    private static final int PROFILE = 6;

    private static final int WIDTH = 8;
    private static final int TILE_WIDTH = 24;
    private static final int PRECISION = 42;

    @TempDir
    Path folder;

    @ParameterizedTest
    @CsvSource({"signed, true", "signed, false", "tiled, true", "unsigned, true"})
    void bitsOfTheCodestreamAreTaken(String name, boolean headerIsSigned) throws Exception {
        assertArrayEquals(Codestreams.values(), decode(Codestreams.of(name), Codestreams.layout(16, headerIsSigned)));
    }

    @Test
    void unsignedStaysUnsignedWhereTheHeaderSaysSo() throws Exception {
        short[] expected = Codestreams.values();
        for (int i = 0; i < expected.length; i++) {
            expected[i] &= 0xFFF;
        }
        assertArrayEquals(expected, decode(Codestreams.of("unsigned"), Codestreams.layout(16, false)));
    }

    @Test
    void lossIsSmall() throws Exception {
        short[] words = decode(Codestreams.of("lossy"), Codestreams.layout(16, true));
        short[] exact = Codestreams.values();
        for (int i = 0; i < words.length; i++) {
            // By hand: 60 dB of 2^12 are an error of about 4 in the mean.
            assertTrue(Math.abs(words[i] - exact[i]) <= 20, i + ": " + words[i] + " for " + exact[i]);
        }
    }

    @Test
    void codestreamIsFoundInAJp2File() throws Exception {
        byte[] stream = Codestreams.of("signed");
        ByteArrayOutputStream file = new ByteArrayOutputStream();
        file.writeBytes(Bytes.of("0000000C 'jP  ' 0D0A870A 00000014 'ftypjp2 ' 00000000 'jp2 '"));
        file.writeBytes(ByteBuffer.allocate(8)
                .putInt(8 + stream.length)
                .put(Bytes.of("'jp2c'"))
                .array());
        file.writeBytes(stream);
        assertArrayEquals(Codestreams.values(), decode(file.toByteArray(), Codestreams.layout(16, true)));
    }

    @ParameterizedTest
    @CsvSource({"signed, false, true", "unsigned, false, false", "unsigned, true, true"})
    void signOfTheCodestreamOverrulesTheHeader(String name, boolean headerIsSigned, boolean expected) throws Exception {
        PixelSource source = write(Codestreams.of(name), headerIsSigned);
        assertEquals(expected, source.layout().signed());
        short[] words = new short[256];
        assertEquals(256, new PixelReader().read(source, 0, words));
        // By hand: −1000, or with 2^12 more
        assertEquals(expected ? -1000 : 3096, words[0]);
    }

    @Test
    void damagedStreamLeavesTheHeaderUsable() throws Exception {
        PixelSource source = write(new byte[] {1, 2, 3, 4}, false);
        DicomReadException e =
                assertThrows(DicomReadException.class, () -> new PixelReader().read(source, 0, new short[256]));
        assertTrue(e.getMessage().contains("a JPEG 2000 codestream"), e.getMessage());
    }

    @Test
    void profilesOfPartOneMakeNoDifference() throws Exception {
        byte[] stream = Codestreams.of("signed");
        stream[PROFILE + 1] = 4;
        assertArrayEquals(Codestreams.values(), decode(stream, Codestreams.layout(16, true)));
    }

    @Test
    void highThroughputIsNamed() {
        byte[] stream = Codestreams.of("signed");
        stream[PROFILE] = 0x40;
        CorruptFrameException e =
                assertThrows(CorruptFrameException.class, () -> decode(stream, Codestreams.layout(16, true)));
        assertTrue(e.got().startsWith("High-Throughput JPEG 2000"), e.got());
    }

    @Test
    void impossibleWidthIsTheHeadersIfItsLowerHalfIs() throws Exception {
        byte[] stream = Codestreams.of("signed");
        stream[WIDTH] = (byte) 0xDD;
        stream[WIDTH + 1] = (byte) 0xE0;
        assertArrayEquals(Codestreams.values(), decode(stream, Codestreams.layout(16, true)));
    }

    @Test
    void sizeMustBeThatOfTheHeader() {
        byte[] stream = Codestreams.of("signed");
        PixelLayout other = new PixelLayout(16, 15, 1, 1, 16, 16, 15, true, "MONOCHROME2");
        assertTrue(refused(stream, other).contains("16 rows × 16 columns × 1 samples"));
        assertTrue(refused(stream, Codestreams.layout(8, true)).contains("at most 8 bits"));
        stream[PRECISION] = 37;
        assertTrue(refused(stream, Codestreams.layout(16, true)).contains("38 bits"));
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1, 2})
    void moreTilesThanTheStreamHasBytesForAreRefused(int tileWidth) {
        byte[] stream = Arrays.copyOf(Codestreams.of("signed"), 100);
        ByteBuffer.wrap(stream).putInt(TILE_WIDTH, tileWidth);
        assertTrue(refused(stream, Codestreams.layout(16, true)).contains("tiles"));
    }

    @Test
    void streamThatIsCutShortIsRefusedAndNotShownInPart() {
        byte[] stream = Codestreams.of("tiled");
        assertTimeoutPreemptively(Duration.ofSeconds(60), () -> {
            for (int length = 0; length < stream.length; length++) {
                byte[] cut = Arrays.copyOf(stream, length);
                if (length < stream.length - 2) {
                    assertThrows(
                            CorruptFrameException.class,
                            () -> decode(cut, Codestreams.layout(16, true)),
                            "at " + length);
                } else {
                    // Only the marker of the end is missing.
                    assertArrayEquals(Codestreams.values(), decode(cut, Codestreams.layout(16, true)));
                }
            }
        });
    }

    private static String refused(byte[] stream, PixelLayout layout) {
        return assertThrows(CorruptFrameException.class, () -> decode(stream, layout))
                .getMessage();
    }

    private static short[] decode(byte[] stream, PixelLayout layout) throws CorruptFrameException {
        short[] words = new short[(int) layout.frameValues()];
        assertEquals(words.length, new Jpeg2000Decoder().decode(stream, layout, words));
        return words;
    }

    private PixelSource write(byte[] frame, boolean signed) throws Exception {
        Path file = folder.resolve("image");
        Files.write(file, EncapsulatedFile.of("1.2.840.10008.1.2.4.90", 16, 16, 1, signed, frame));
        return PixelSource.of(DicomReader.read(file));
    }
}
