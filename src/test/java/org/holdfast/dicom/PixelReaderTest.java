package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Stored words of uncompressed pixels (PS3.5, section 8.1.1), written by hand and read frame by frame. */
class PixelReaderTest {

    @TempDir
    Path folder;

    @Test
    void framesOfSingleBitsFollowEachOtherWithoutFilling() throws Exception {
        // By hand: 3 × 5 pixels, 15 bits a frame, lowest bit first. Frame 0 has bits 0 and 14; frame 1 bits 0 and 8.
        PixelSource source = write(
                image(5, 3, 1).integers(Tag.NUMBER_OF_FRAMES, 2).bytes(Tag.PIXEL_DATA, Vr.OB, Bytes.of("01 C0 80 00")));
        assertTrue(source.isComplete());
        short[] words = new short[15];
        PixelReader reader = new PixelReader();
        assertEquals(15, reader.read(source, 0, words));
        assertArrayEquals(withOnesAt(15, 0, 14), words);
        assertEquals(15, reader.read(source, 1, words));
        assertArrayEquals(withOnesAt(15, 0, 8), words);
    }

    @ParameterizedTest
    @ValueSource(strings = {"1.2.840.10008.1.2.1", "1.2.840.10008.1.2.2"})
    void bytesInWordsKeepTheirOrder(String syntax) throws Exception {
        DataSet d = image(3, 1, 8)
                .bytes(Tag.PIXEL_DATA, Vr.OW, new byte[] {1, 2, (byte) 0xFF, 0})
                .build();
        Path file = folder.resolve("bytes");
        DicomWriter.write(file, d, TransferSyntax.of(syntax));
        short[] words = new short[3];
        assertEquals(3, new PixelReader().read(PixelSource.of(DicomReader.read(file)), 0, words));
        assertArrayEquals(new short[] {1, 2, 255}, words);
    }

    @Test
    void secondFrameAndSamplesInTheirOrder() throws Exception {
        PixelSource source = write(image(2, 1, 16)
                .integers(Tag.SAMPLES_PER_PIXEL, 3)
                .integers(Tag.NUMBER_OF_FRAMES, 2)
                .words(Tag.PIXEL_DATA, new short[] {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12}));
        short[] words = new short[6];
        assertEquals(6, new PixelReader().read(source, 1, words));
        assertArrayEquals(new short[] {7, 8, 9, 10, 11, 12}, words);
    }

    @Test
    void shortFileGivesTheWordsItHas() throws Exception {
        PixelSource whole = write(image(4, 2, 16).words(Tag.PIXEL_DATA, new short[] {1, 2, 3, 4, 5, 6, 7, 8}));
        byte[] bytes = Files.readAllBytes(whole.path());
        Files.write(whole.path(), Arrays.copyOf(bytes, bytes.length - 5));
        PixelSource cut = PixelSource.of(DicomReader.read(whole.path()));
        // By hand: 16 − 5 bytes hold five words and a half.
        assertEquals(5, new PixelReader().read(cut, 0, new short[8]));
        assertThrows(DicomReadException.class, () -> new PixelReader().read(whole, 0, new short[8]));
    }

    @Test
    void saysWhatItDoesNotRead() throws Exception {
        assertTrue(write(image(2, 1, 32).bytes(Tag.PIXEL_DATA, Vr.OW, new byte[8]))
                .whyUnreadable()
                .orElseThrow()
                .contains("32 bits"));
        PixelSource subsampled = write(image(2, 1, 8)
                .integers(Tag.SAMPLES_PER_PIXEL, 3)
                .string(Tag.PHOTOMETRIC_INTERPRETATION, "YBR_FULL_422")
                .bytes(Tag.PIXEL_DATA, Vr.OB, new byte[4]));
        assertTrue(subsampled.whyUnreadable().orElseThrow().contains("YBR_FULL_422"));
        assertThrows(IllegalArgumentException.class, () -> new PixelReader().read(subsampled, 0, new short[6]));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "1.2.840.10008.1.2.4.201|High-Throughput JPEG 2000 (Lossless Only)",
                "1.2.840.10008.1.2.4.203|High-Throughput JPEG 2000",
                "1.2.840.10008.1.2.4.110|JPEG XL Lossless",
                "1.2.840.10008.1.2.4.102|MPEG-4 AVC/H.264 High Profile / Level 4.1",
                "1.2.3.4|unknown transfer syntax"
            })
    void compressionThatIsNotReadIsNamed(String uid, String name) throws Exception {
        Path file = folder.resolve("image");
        Files.write(file, EncapsulatedFile.of(uid, 2, 2, 1, false, new byte[8]));
        PixelSource source = PixelSource.of(DicomReader.read(file));
        assertEquals(
                "compressed pixels, " + name + " (" + uid + "), are not read by this version",
                source.whyUnreadable().orElseThrow());
    }

    @Test
    void compressedPixelsOfManyBitsAreRefusedForTheirBits() throws Exception {
        Path file = folder.resolve("image");
        byte[] bytes = EncapsulatedFile.of("1.2.840.10008.1.2.4.90", 2, 2, 1, false, new byte[8]);
        String text = new String(bytes, StandardCharsets.ISO_8859_1);
        Files.writeString(
                file,
                text.replace("(\u0000\u0000\u0001US\u0002\u0000\u0010", "(\u0000\u0000\u0001US\u0002\u0000\u0020"),
                StandardCharsets.ISO_8859_1);
        assertEquals(
                "compressed pixels of 32 bits allocated, JPEG 2000 (Lossless Only) (1.2.840.10008.1.2.4.90),"
                        + " are not read by this version",
                PixelSource.of(DicomReader.read(file)).whyUnreadable().orElseThrow());
    }

    @Test
    void impossibleLayoutsAreRefused() {
        assertThrows(DicomReadException.class, () -> write(image(2, 1, 12).words(Tag.PIXEL_DATA, new short[2])));
        assertThrows(
                DicomReadException.class,
                () -> write(image(2, 1, 16).integers(Tag.BITS_STORED, 17).words(Tag.PIXEL_DATA, new short[2])));
        assertThrows(
                DicomReadException.class,
                () -> write(image(2, 1, 16).remove(Tag.ROWS).words(Tag.PIXEL_DATA, new short[2])));
        assertThrows(
                IllegalArgumentException.class,
                () -> new PixelLayout(65535, 65535, Integer.MAX_VALUE, 4, 64, 64, 63, false, ""));
    }

    private static DataSet.Builder image(int columns, int rows, int bitsAllocated) {
        return DataSet.builder()
                .string(Tag.SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.7")
                .string(Tag.SOP_INSTANCE_UID, Uid.fromName("pixels"))
                .integers(Tag.ROWS, rows)
                .integers(Tag.COLUMNS, columns)
                .integers(Tag.BITS_ALLOCATED, bitsAllocated);
    }

    private PixelSource write(DataSet.Builder image) throws Exception {
        Path file = folder.resolve("image");
        DicomWriter.write(file, image.build(), TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
        return PixelSource.of(DicomReader.read(file));
    }

    private static short[] withOnesAt(int length, int... at) {
        short[] words = new short[length];
        for (int i : at) {
            words[i] = 1;
        }
        return words;
    }
}
