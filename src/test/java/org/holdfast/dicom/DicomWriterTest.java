package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.holdfast.dicom.DicomWriter.SequenceLength;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** What is written is read back unchanged, in every syntax and both ways of writing lengths. */
class DicomWriterTest {

    private static final short[] WORDS = {0, 1, -1, 300, Short.MIN_VALUE, Short.MAX_VALUE, 7, -2000, 1024, 5, 6, 8};

    @TempDir
    Path folder;

    static Stream<Arguments> syntaxesAndLengths() {
        return Stream.of(
                        TransferSyntax.IMPLICIT_LITTLE_ENDIAN,
                        TransferSyntax.EXPLICIT_LITTLE_ENDIAN,
                        TransferSyntax.EXPLICIT_BIG_ENDIAN,
                        TransferSyntax.DEFLATED_EXPLICIT_LITTLE_ENDIAN)
                .flatMap(syntax -> Arrays.stream(SequenceLength.values()).map(length -> Arguments.of(syntax, length)));
    }

    /** A data set with every kind of value, nested items, a private block and signed pixels. */
    static DataSet everyKindOfValue() {
        DataSet inner = DataSet.builder()
                .string(Tag.CODE_VALUE, "T-11503")
                .items(
                        Tag.SOURCE_IMAGE_SEQUENCE,
                        List.of(DataSet.builder()
                                .string(Tag.REFERENCED_SOP_INSTANCE_UID, "1.2.3.4")
                                .build()))
                .build();
        return DataSet.builder()
                .string(Tag.SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.2")
                .string(Tag.SOP_INSTANCE_UID, Uid.fromName("every kind of value"))
                .string(Tag.IMAGE_TYPE, "ORIGINAL", "PRIMARY", "AXIAL")
                .string(Tag.PATIENT_NAME, "Jäger^Zoë=山田^太郎")
                .items(
                        Tag.REFERENCED_IMAGE_SEQUENCE,
                        List.of(inner, DataSet.builder().build()))
                .string(0x00091010, Vr.UC, "private text")
                .string(0x00090010, Vr.LO, "HOLDFAST TEST")
                .decimals(Tag.IMAGE_POSITION_PATIENT, -12.5, 1.0 / 3, 1e-7)
                .integers(Tag.INSTANCE_NUMBER, 12)
                .integers(Tag.ROWS, 3)
                .integers(Tag.COLUMNS, 4)
                .integers(Tag.BITS_ALLOCATED, 16)
                .integers(Tag.PIXEL_REPRESENTATION, 1)
                .integers(Tag.PIXEL_PADDING_VALUE, -2000)
                .bytes(0x00189074, Vr.DT, "20260102030405.5".getBytes(java.nio.charset.StandardCharsets.US_ASCII))
                .decimals(0x00189306, 0.625)
                .words(Tag.PIXEL_DATA, WORDS)
                .build();
    }

    @ParameterizedTest
    @MethodSource("syntaxesAndLengths")
    void readsBackWhatItWrote(TransferSyntax syntax, SequenceLength lengths) throws Exception {
        Path file = folder.resolve("a.dcm");
        DataSet written = everyKindOfValue();
        DicomWriter.write(file, written, syntax, lengths);
        DicomFile read = DicomReader.read(file);
        assertEquals(syntax, read.transferSyntax());
        String expected = written.describe();
        if (!syntax.explicit()) {
            // An implicit file does not say what a private value is.
            expected = expected.replace(
                    "(0009,1010) UC [private text]",
                    "(0009,1010) UN bytes 12 hash "
                            + Arrays.hashCode("private text".getBytes(java.nio.charset.StandardCharsets.US_ASCII)));
        }
        assertEquals(expected, read.withPixels().describe());
        assertEquals(List.of(), read.findings());
        // By hand: the sign of PixelPaddingValue follows PixelRepresentation 1, though the builder wrote US.
        assertArrayEquals(new int[] {-2000}, read.dataSet().integers(Tag.PIXEL_PADDING_VALUE));
        assertEquals(WORDS.length * 2L, read.pixels().orElseThrow().length());
    }

    @Test
    void writesTheTrueGroupLengthOfTheFileMeta() throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        DicomWriter.write(out, everyKindOfValue(), TransferSyntax.EXPLICIT_LITTLE_ENDIAN, SequenceLength.DEFINED);
        byte[] bytes = out.toByteArray();
        int length = bytes[140] & 0xFF | (bytes[141] & 0xFF) << 8;
        // By hand: 128 preamble, 4 magic, 12 for (0002,0000) itself; behind the group comes (0008,0005).
        int next = 144 + length;
        assertArrayEquals(new byte[] {8, 0, 5, 0, 'C', 'S'}, Arrays.copyOfRange(bytes, next, next + 6));
    }

    @Test
    void writesAValueTooLongForItsShortFormAsUnknown() throws Exception {
        String text = "x".repeat(70_000);
        DataSet written =
                everyKindOfValue().toBuilder().string(Tag.IMAGE_COMMENTS, text).build();
        Path file = folder.resolve("long.dcm");
        DicomWriter.write(file, written, TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
        DataSet read = DicomReader.read(file).dataSet();
        assertEquals(Vr.UN, read.vr(Tag.IMAGE_COMMENTS).orElseThrow());
        assertEquals(text, read.string(Tag.IMAGE_COMMENTS).orElseThrow());
    }

    @Test
    void leavesNoUnfinishedFileBehind() throws IOException {
        DicomWriter.write(folder.resolve("b.dcm"), everyKindOfValue(), TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
        try (Stream<Path> files = Files.list(folder)) {
            assertEquals(
                    List.of("b.dcm"), files.map(f -> f.getFileName().toString()).toList());
        }
    }

    @Test
    void refusesCompressedSyntaxesAndMissingInstances() {
        Path file = folder.resolve("c.dcm");
        assertThrows(
                IllegalArgumentException.class,
                () -> DicomWriter.write(file, everyKindOfValue(), TransferSyntax.of("1.2.840.10008.1.2.5")));
        DataSet nameless =
                everyKindOfValue().toBuilder().remove(Tag.SOP_INSTANCE_UID).build();
        IllegalArgumentException e = assertThrows(
                IllegalArgumentException.class,
                () -> DicomWriter.write(file, nameless, TransferSyntax.EXPLICIT_LITTLE_ENDIAN));
        assertTrue(e.getMessage().contains("(0008,0018)"), e.getMessage());
    }
}
