package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import java.util.zip.Deflater;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Bytes written by hand after PS3.5, sections 7.1 and 7.5, read back; and bytes that no reader should trust. */
class DicomReaderTest {

    private static final Path NAME = Path.of("hand.dcm");
    private static final String IMPLICIT = "1.2.840.10008.1.2";
    private static final String EXPLICIT = "1.2.840.10008.1.2.1";
    private static final String BIG_ENDIAN = "1.2.840.10008.1.2.2";
    private static final String DEFLATED = "1.2.840.10008.1.2.1.99";

    @Test
    void readsImplicitLittleEndian() throws Exception {
        DataSet d = read(
                Bytes.file(IMPLICIT, "08006000 02000000 'CT'  28001000 02000000 0002  28003000 08000000 '0.5\\0.25'"));
        assertEquals("CT", d.string(Tag.MODALITY).orElseThrow());
        // By hand: 00 02 little endian is 512.
        assertEquals(512, d.integer(Tag.ROWS).orElseThrow());
        assertArrayEquals(new double[] {0.5, 0.25}, d.decimals(Tag.PIXEL_SPACING));
    }

    @Test
    void readsExplicitLittleEndian() throws Exception {
        DataSet d = read(Bytes.file(
                EXPLICIT,
                "08006000 'CS' 0200 'CT'  18000693 'FD' 0800 000000000000F03F"
                        + " 20004040 'UC' 0000 04000000 'long'"));
        assertEquals("CT", d.string(Tag.MODALITY).orElseThrow());
        // By hand: 3FF0 0000 0000 0000 is 1.0.
        assertEquals(1.0, d.decimal(0x00189306).orElseThrow());
        assertEquals("long", d.string(0x00204040).orElseThrow());
    }

    @Test
    void readsExplicitBigEndian() throws Exception {
        DataSet d = read(Bytes.file(
                BIG_ENDIAN,
                "00080060 'CS' 0002 'CT'  00280010 'US' 0002 0200"
                        + " 00189306 'FD' 0008 3FE0000000000000  00091010 'OB' 0000 00000004 01020304"));
        assertEquals("CT", d.string(Tag.MODALITY).orElseThrow());
        assertEquals(512, d.integer(Tag.ROWS).orElseThrow());
        // By hand: 3FE0 0000 0000 0000 is 0.5; OB is never turned.
        assertEquals(0.5, d.decimal(0x00189306).orElseThrow());
        assertArrayEquals(new byte[] {1, 2, 3, 4}, d.bytes(0x00091010).orElseThrow());
    }

    @Test
    void readsRawDeflatedDataSets() throws Exception {
        byte[] dataSet = Bytes.of("08006000 'CS' 0200 'MR'");
        Deflater deflater = new Deflater(9, true);
        deflater.setInput(dataSet);
        deflater.finish();
        byte[] deflated = new byte[100];
        int length = deflater.deflate(deflated);
        deflater.end();
        ByteArrayOutputStream file = new ByteArrayOutputStream();
        file.writeBytes(Bytes.file(DEFLATED, ""));
        file.write(deflated, 0, length);
        assertEquals("MR", read(file.toByteArray()).string(Tag.MODALITY).orElseThrow());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                // By hand: lengths of sequence and item defined; both undefined; sequence defined, item undefined.
                "08004011 'SQ' 0000 1A000000  FEFF00E0 12000000  08005511 'UI' 0A00 '1.2.3.4.55'",
                "08004011 'SQ' 0000 FFFFFFFF  FEFF00E0 FFFFFFFF  08005511 'UI' 0A00 '1.2.3.4.55' FEFF0DE0 00000000"
                        + " FEFFDDE0 00000000",
                "08004011 'SQ' 0000 22000000  FEFF00E0 FFFFFFFF  08005511 'UI' 0A00 '1.2.3.4.55' FEFF0DE0 00000000",
                // Undefined item that lacks its delimiter: the end of the sequence ends both.
                "08004011 'SQ' 0000 FFFFFFFF  FEFF00E0 FFFFFFFF  08005511 'UI' 0A00 '1.2.3.4.55' FEFFDDE0 00000000"
            })
    void readsSequencesOfEveryLength(String sequence) throws Exception {
        DataSet d = read(Bytes.file(EXPLICIT, sequence + "10002000 'LO' 0400 'id-7'"));
        List<DataSet> items = d.items(Tag.REFERENCED_IMAGE_SEQUENCE);
        assertEquals(1, items.size());
        assertEquals(
                "1.2.3.4.55",
                items.get(0).string(Tag.REFERENCED_SOP_INSTANCE_UID).orElseThrow());
        assertEquals("id-7", d.string(Tag.PATIENT_ID).orElseThrow());
    }

    @Test
    void readsUnknownOfUndefinedLengthAsImplicitItems() throws Exception {
        // PS3.5, 6.2.2, note 4: the content is implicit little endian, even in a big endian file.
        String items = "FEFF00E0 12000000  08005511 0A000000 '1.2.3.4.55' FEFFDDE0 00000000";
        assertEquals(
                "1.2.3.4.55", nested(read(Bytes.file(EXPLICIT, "09001010 'UN' 0000 FFFFFFFF " + items)), 0x00091010));
        assertEquals(
                "1.2.3.4.55", nested(read(Bytes.file(BIG_ENDIAN, "00091010 'UN' 0000 FFFFFFFF " + items)), 0x00091010));
    }

    @Test
    void readsUnknownOfDefinedLengthThatHoldsItems() throws Exception {
        String implicit = "09001010 'UN' 0000 1A000000  FEFF00E0 12000000  08005511 0A000000 '1.2.3.4.55'";
        String explicit = "09001010 'UN' 0000 1A000000  FEFF00E0 12000000  08005511 'UI' 0A00 '1.2.3.4.55'";
        assertEquals("1.2.3.4.55", nested(read(Bytes.file(EXPLICIT, implicit)), 0x00091010));
        assertEquals("1.2.3.4.55", nested(read(Bytes.file(EXPLICIT, explicit)), 0x00091010));
    }

    @Test
    void keepsUnknownBytesThatOnlyStartLikeAnItem() throws Exception {
        DataSet d = read(Bytes.file(
                EXPLICIT, "09001010 'UN' 0000 0C000000  FEFF00E0 04000000  AABBCCDD 10002000 'LO' 0200 'id'"));
        assertEquals(12, d.bytes(0x00091010).orElseThrow().length);
        assertEquals("id", d.string(Tag.PATIENT_ID).orElseThrow());
    }

    @Test
    void longFormOfTheSixtyFourBitRepresentations() throws Exception {
        DataSet d = read(Bytes.file(
                EXPLICIT,
                "09001010 'SV' 0000 08000000 FEFFFFFFFFFFFFFF"
                        + " 09001110 'UV' 0000 08000000 FFFFFFFFFFFFFFFF  09001210 'OV' 0000 08000000 0102030405060708"
                        + " 10002000 'LO' 0200 'id'"));
        // By hand: two's complement of FFFF…FE is −2; 2^64 − 1.
        assertEquals(-2, d.decimal(0x00091010).orElseThrow());
        assertEquals(18446744073709551615.0, d.decimal(0x00091011).orElseThrow());
        assertEquals(8, d.bytes(0x00091012).orElseThrow().length);
        assertEquals("id", d.string(Tag.PATIENT_ID).orElseThrow());
    }

    @Test
    void takesUnknownLettersInTheLongForm() throws Exception {
        DicomFile file = DicomReader.read(
                NAME,
                Bytes.file(
                        EXPLICIT,
                        "08006000 'CS' 0200 'CT'" + " 09001010 'ZZ' 0000 04000000 'abcd'  10002000 'LO' 0200 'id'"));
        assertEquals("id", file.dataSet().string(Tag.PATIENT_ID).orElseThrow());
        assertTrue(file.findings().stream().anyMatch(f -> f.code().equals("UNKNOWN_VR")));
    }

    @Test
    void takesAnElementWithoutLettersAsImplicit() throws Exception {
        DataSet d =
                read(Bytes.file(EXPLICIT, "08006000 'CS' 0200 'CT'  10002000 02000000 'id' 10004000 'CS' 0200 'F '"));
        assertEquals("id", d.string(Tag.PATIENT_ID).orElseThrow());
        assertEquals("F", d.string(Tag.PATIENT_SEX).orElseThrow());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "08001600 'UI' 0400 '1.2 ' 08006000 'CS' 0200 'CT'",
                "08001600 04000000 '1.2 ' 08006000 02000000 'CT'",
                "00080016 'UI' 0004 '1.2 ' 00080060 'CS' 0002 'CT'",
                "20 08001600 'UI' 0400 '1.2 ' 08006000 'CS' 0200 'CT'"
            })
    void findsTheLayoutWithoutPreambleAndMeta(String bytes) throws Exception {
        DicomFile file = DicomReader.read(NAME, Bytes.of(bytes));
        assertEquals("CT", file.dataSet().string(Tag.MODALITY).orElseThrow());
        assertTrue(file.findings().stream().anyMatch(f -> f.code().equals("NO_FILE_META")));
    }

    @Test
    void isNotDeceivedByTheMagicWordInsideAValue() throws Exception {
        // By hand: (0008,0008) of 130 bytes from byte 8 on; bytes 128 to 131 of the file spell the magic word.
        byte[] bytes = Bytes.of("08000800 82000000 '" + "x".repeat(120) + "DICMxxxxxx' 08006000 02000000 'CT'");
        assertEquals('D', bytes[128]);
        assertEquals(
                "CT",
                DicomReader.read(NAME, bytes).dataSet().string(Tag.MODALITY).orElseThrow());
    }

    @Test
    void readsTheLayoutThatIsThereNotTheOneThatIsNamed() throws Exception {
        DicomFile explicit = DicomReader.read(NAME, Bytes.file(IMPLICIT, "08006000 'CS' 0200 'CT'"));
        DicomFile implicit = DicomReader.read(NAME, Bytes.file(EXPLICIT, "08006000 02000000 'CT'"));
        for (DicomFile file : List.of(explicit, implicit)) {
            assertEquals("CT", file.dataSet().string(Tag.MODALITY).orElseThrow());
            assertTrue(file.findings().stream().anyMatch(f -> f.code().equals("TRANSFER_SYNTAX_MISMATCH")));
        }
    }

    @Test
    void stopsAtTheOutermostPixelDataAndNotAtAnIcon() throws Exception {
        DicomFile file = DicomReader.read(
                NAME,
                Bytes.file(
                        EXPLICIT,
                        "08006000 'CS' 0200 'CT'"
                                + " 88000002 'SQ' 0000 18000000 FEFF00E0 10000000 E07F1000 'OW' 0000 04000000 01020304"
                                + " E07F1000 'OW' 0000 06000000 0A0B0C0D0E0F"));
        PixelLocation pixels = file.pixels().orElseThrow();
        assertEquals(6, pixels.length());
        // By hand: 132 + 8 + 20 meta; 10; 12 + 8 + 16; 12 for the element's own head.
        assertEquals(132 + 28 + 10 + 36 + 12, pixels.offset());
        assertEquals(
                4,
                file.dataSet()
                        .item(Tag.ICON_IMAGE_SEQUENCE)
                        .orElseThrow()
                        .bytes(Tag.PIXEL_DATA)
                        .orElseThrow()
                        .length);
    }

    @Test
    void skipsFragmentsOfAnIconByTheirLengths() throws Exception {
        DicomFile file = DicomReader.read(
                NAME,
                Bytes.file(
                        "1.2.840.10008.1.2.4.50",
                        "08006000 'CS' 0200 'XC'"
                                + " 88000002 'SQ' 0000 FFFFFFFF FEFF00E0 FFFFFFFF"
                                + " E07F1000 'OB' 0000 FFFFFFFF FEFF00E0 00000000 FEFF00E0 08000000 FEFFDDE000000000 FEFFDDE0 00000000"
                                + " FEFF0DE0 00000000 FEFFDDE0 00000000"
                                + " E07F1000 'OB' 0000 FFFFFFFF FEFF00E0 00000000 FEFFDDE0 00000000"));
        assertEquals(-1, file.pixels().orElseThrow().length());
        assertEquals(1, file.dataSet().items(Tag.ICON_IMAGE_SEQUENCE).size());
    }

    @Test
    void signOfAmbiguousElementsFollowsThePixels() throws Exception {
        String padding = "28002001 'US' 0200 30F8";
        DataSet signed = read(Bytes.file(EXPLICIT, "08006000 'CS' 0200 'CT' 28000301 'US' 0200 0100 " + padding));
        DataSet unsigned = read(Bytes.file(EXPLICIT, "08006000 'CS' 0200 'CT' 28000301 'US' 0200 0000 " + padding));
        // By hand: F830 is 63536, or −2000 with a sign.
        assertEquals(-2000, signed.integer(Tag.PIXEL_PADDING_VALUE).orElseThrow());
        assertEquals(63536, unsigned.integer(Tag.PIXEL_PADDING_VALUE).orElseThrow());
        assertEquals(Vr.SS, signed.vr(Tag.PIXEL_PADDING_VALUE).orElseThrow());
    }

    @Test
    void onlyTheSecondValueOfALutDescriptorHasTheSignOfThePixels() throws Exception {
        DataSet d = read(Bytes.file(
                EXPLICIT,
                "08006000 'CS' 0200 'CR' 28000301 'US' 0200 0100"
                        + " 28000030 'SQ' 0000 16000000 FEFF00E0 0E000000 28000230 'US' 0600 FFFF 00F8 1000"));
        // By hand: FFFF entries, first stored value F800 = −2048, 16 bits; the item takes the sign from around it.
        assertArrayEquals(
                new int[] {65535, -2048, 16},
                d.item(Tag.MODALITY_LUT_SEQUENCE).orElseThrow().integers(Tag.LUT_DESCRIPTOR));
    }

    @Test
    void namesFileOffsetTagExpectedAndGot() {
        DicomReadException e = assertThrows(
                DicomReadException.class,
                () -> read(Bytes.file(EXPLICIT, "08006000 'CS' 0200 'CT'  10002000 'LO' F0FF 'id'")));
        assertEquals(NAME, e.file());
        assertEquals(Tag.PATIENT_ID, e.tag().orElseThrow());
        assertTrue(e.expected().contains("at most 2 bytes") && e.got().contains("65520"), e.getMessage());
        assertTrue(e.getMessage().startsWith("hand.dcm at byte 178 (0010,0020): expected"), e.getMessage());
    }

    @Test
    void refusesDeepNestingInBoundedMemory() {
        StringBuilder deep = new StringBuilder("08006000 'CS' 0200 'CT' ");
        for (int i = 0; i < 10_000; i++) {
            deep.append("08004011 'SQ' 0000 FFFFFFFF FEFF00E0 FFFFFFFF ");
        }
        DicomReadException e =
                assertThrows(DicomReadException.class, () -> read(Bytes.file(EXPLICIT, deep.toString())));
        assertTrue(e.getMessage().contains("at most " + ElementParser.DEEPEST + " deep"), e.getMessage());
    }

    @Test
    void refusesLengthsBeyondTheFileBeforeTakingMemory() {
        for (String hostile : List.of(
                "08004011 'SQ' 0000 F0FFFF7F",
                "08004011 'SQ' 0000 FFFFFFFF FEFF00E0 F0FFFF7F",
                "09001010 'OB' 0000 F0FFFFFF 0000",
                "20004040 'UC' 0000 FEFFFF7F 0000")) {
            assertThrows(
                    DicomReadException.class,
                    () -> read(Bytes.file(EXPLICIT, "08006000 'CS' 0200 'CT' " + hostile)),
                    hostile);
        }
    }

    @Test
    void everyTruncationIsADataSetOrAnException() throws Exception {
        for (TransferSyntax syntax : List.of(
                TransferSyntax.IMPLICIT_LITTLE_ENDIAN,
                TransferSyntax.EXPLICIT_LITTLE_ENDIAN,
                TransferSyntax.EXPLICIT_BIG_ENDIAN,
                TransferSyntax.DEFLATED_EXPLICIT_LITTLE_ENDIAN)) {
            for (DicomWriter.SequenceLength lengths : DicomWriter.SequenceLength.values()) {
                ByteArrayOutputStream out = new ByteArrayOutputStream();
                DicomWriter.write(out, DicomWriterTest.everyKindOfValue(), syntax, lengths);
                byte[] whole = out.toByteArray();
                int refused = 0;
                for (int length = 0; length < whole.length; length++) {
                    try {
                        DicomFile file = DicomReader.read(NAME, Arrays.copyOf(whole, length));
                        file.dataSet().describe();
                    } catch (DicomReadException e) {
                        refused++;
                    }
                }
                assertTrue(refused > whole.length / 2, syntax.name() + " refused only " + refused);
            }
        }
    }

    @Test
    void everyDamagedByteIsADataSetOrAnException() throws Exception {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        DicomWriter.write(
                out,
                DicomWriterTest.everyKindOfValue(),
                TransferSyntax.EXPLICIT_LITTLE_ENDIAN,
                DicomWriter.SequenceLength.UNDEFINED);
        byte[] whole = out.toByteArray();
        int read = 0;
        for (int at = 0; at < whole.length; at++) {
            for (int value : new int[] {0x00, 0x7F, 0xFF}) {
                byte[] damaged = whole.clone();
                damaged[at] = (byte) value;
                try {
                    DicomReader.read(NAME, damaged).dataSet().describe();
                    read++;
                } catch (DicomReadException e) {
                    assertTrue(e.getMessage().startsWith("hand.dcm"));
                }
            }
        }
        assertTrue(read > whole.length, "only " + read + " were read");
    }

    @Test
    void decimalCommaIsAPoint() throws Exception {
        DataSet d = read(Bytes.file(EXPLICIT, "08006000 'CS' 0200 'CT'  28003000 'DS' 0C00 '0,143\\0,1430'"));
        assertArrayEquals(new double[] {0.143, 0.143}, d.decimals(Tag.PIXEL_SPACING));
    }

    private static String nested(DataSet d, int tag) {
        return d.items(tag).stream()
                .map(item -> item.string(Tag.REFERENCED_SOP_INSTANCE_UID).orElse("absent"))
                .collect(Collectors.joining());
    }

    private static DataSet read(byte[] bytes) throws DicomReadException {
        return DicomReader.read(NAME, bytes).dataSet();
    }
}
