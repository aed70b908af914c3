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
        assertTrue(write(image(2, 1, 64).bytes(Tag.PIXEL_DATA, Vr.OW, new byte[16]))
                .whyUnreadable()
                .orElseThrow()
                .contains("64 bits"));
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

    @ParameterizedTest
    @ValueSource(
            strings = {"1.2.840.10008.1.2", "1.2.840.10008.1.2.1", "1.2.840.10008.1.2.2", "1.2.840.10008.1.2.1.99"})
    void thirtyTwoBitsComeBackInEverySyntax(String syntax) throws Exception {
        byte[] values = Bytes.of("FFFFFFFF 00000080 01000000 40E20100");
        for (int signed : new int[] {0, 1}) {
            DataSet d = image(2, 1, 32)
                    .integers(Tag.NUMBER_OF_FRAMES, 2)
                    .integers(Tag.PIXEL_REPRESENTATION, signed)
                    .bytes(Tag.PIXEL_DATA, Vr.OW, values)
                    .build();
            Path file = folder.resolve("wide");
            DicomWriter.write(file, d, TransferSyntax.of(syntax));
            PixelSource source = PixelSource.of(DicomReader.read(file));
            int[] read = new int[2];
            PixelReader reader = new PixelReader();
            assertEquals(2, reader.readValues(source, 0, read));
            // By hand: −1 and −2^31 with a sign, the same bits without; 1E240 hexadecimal is 123456.
            assertArrayEquals(new int[] {-1, Integer.MIN_VALUE}, read);
            assertEquals(2, reader.readValues(source, 1, read));
            assertArrayEquals(new int[] {1, 123456}, read);
            assertArrayEquals(
                    values,
                    DicomReader.read(file).withPixels().bytes(Tag.PIXEL_DATA).orElseThrow());
            DicomReadException e = assertThrows(DicomReadException.class, () -> reader.read(source, 1, new short[2]));
            assertTrue(e.reason().contains("16 bits, got 123456"), e.reason());
        }
    }

    @Test
    void bitsThatDoNotCountAreMaskedInThirtyTwoBits() throws Exception {
        // By hand: 12 bits up to bit 15 of 32: F 7FF3 and A 8004 hold 7FF and 800 = −2048; the rest is junk.
        PixelSource source = write(image(2, 1, 32)
                .integers(Tag.BITS_STORED, 12)
                .integers(Tag.HIGH_BIT, 15)
                .integers(Tag.PIXEL_REPRESENTATION, 1)
                .bytes(Tag.PIXEL_DATA, Vr.OW, Bytes.of("F37F0F00 04800A00")));
        int[] values = new int[2];
        assertEquals(2, new PixelReader().readValues(source, 0, values));
        assertArrayEquals(new int[] {2047, -2048}, values);
        short[] words = new short[2];
        assertEquals(2, new PixelReader().read(source, 0, words));
        assertArrayEquals(new short[] {2047, -2048}, words);
    }

    @Test
    void storedValuesOfSixteenBitsAreMaskedAndSigned() throws Exception {
        // By hand: F801 has 12 low bits 801, −2047 with a sign, 2049 without.
        for (int signed : new int[] {0, 1}) {
            PixelSource source = write(image(2, 1, 16)
                    .integers(Tag.BITS_STORED, 12)
                    .integers(Tag.PIXEL_REPRESENTATION, signed)
                    .words(Tag.PIXEL_DATA, new short[] {(short) 0xF801, 5}));
            int[] values = new int[2];
            assertEquals(2, new PixelReader().readValues(source, 0, values));
            assertArrayEquals(new int[] {signed == 1 ? -2047 : 2049, 5}, values);
        }
    }

    @ParameterizedTest
    @CsvSource({
        // By hand: 3 × 1 pixels of 8 bits take 3 bytes; a filling byte more or less is nothing.
        "3, ''",
        "4, ''",
        "6, PIXEL_DATA_LONG",
        "2, PIXEL_DATA_SHORT"
    })
    void lengthOfPixelDataIsCompared(int bytes, String code) throws Exception {
        Path file = folder.resolve("length");
        DataSet d = image(3, 1, 8).build();
        DicomWriter.write(file, d, TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
        byte[] header = Files.readAllBytes(file);
        byte[] head = Bytes.of("E07F1000 'OB' 0000 0" + bytes + "000000");
        byte[] whole = Arrays.copyOf(header, header.length + head.length + bytes);
        System.arraycopy(head, 0, whole, header.length, head.length);
        DicomFile read = DicomReader.read(Files.write(file, whole));
        assertEquals(
                code, read.findings().stream().map(f -> f.code()).collect(java.util.stream.Collectors.joining(",")));
        assertEquals(Math.min(3, bytes), new PixelReader().read(PixelSource.of(read), 0, new short[3]));
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
