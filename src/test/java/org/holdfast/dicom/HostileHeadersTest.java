package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.zip.Deflater;
import org.holdfast.finding.Finding;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Headers made to take all memory or time: each is read or refused soon, and what was left out is said. */
@Timeout(60)
class HostileHeadersTest {

    private static final Path NAME = Path.of("hostile.dcm");
    private static final String IMPLICIT = "1.2.840.10008.1.2";
    private static final String EXPLICIT = "1.2.840.10008.1.2.1";
    private static final String DEFLATED = "1.2.840.10008.1.2.1.99";
    private static final String CT = "08006000 'CS' 0200 'CT' ";
    private static final String IMPLICIT_CT = "08006000 02000000 'CT' ";
    /** Two seconds are the goal on a quiet machine; a loaded one gets more before it counts as a hang. */
    private static final Duration SOON = Duration.ofSeconds(10);

    @Test
    void millionsOfEmptyElementsAreRefused() {
        byte[] empties = new byte[8 * (HeaderBudget.MOST_ELEMENTS + 10)];
        ByteBuffer b = ByteBuffer.wrap(empties).order(ByteOrder.LITTLE_ENDIAN);
        for (int n = 0; b.hasRemaining(); n++) {
            b.putShort((short) (0x11 + 2 * (n >> 15)))
                    .putShort((short) (0x1000 + (n & 0x7FFF)))
                    .putInt(0);
        }
        DicomReadException e = refused(joined(Bytes.file(IMPLICIT, IMPLICIT_CT), empties));
        assertTrue(e.reason().contains("at most 1000000 elements"), e.reason());
        // By hand: 132 + 8 + 18 bytes before the data set, its first element of 10 bytes and 999,999 further ones of 8.
        assertEquals(158 + 10 + 8L * 999_999, e.offset());
    }

    @Test
    void valuesBeyondTheMemoryOfAHeaderAreRefused() {
        int longest = (int) HeaderBudget.LONGEST_VALUE;
        long most = new HeaderBudget().most();
        byte[] head = Bytes.of("11001010 'OB' 0000 00000004");
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.writeBytes(Bytes.file(EXPLICIT, CT));
        for (long taken = 0; taken <= most; taken += longest) {
            out.writeBytes(head);
            out.writeBytes(new byte[longest]);
        }
        DicomReadException e = refused(out.toByteArray());
        assertTrue(e.reason().contains("takes at most " + most + " bytes of memory"), e.reason());
    }

    @Test
    void longListsAreLeftOutAndSaid() throws Exception {
        byte[] list = "1\\".repeat((int) HeaderBudget.LONGEST_LIST).getBytes(StandardCharsets.US_ASCII);
        DicomFile file =
                readSoon(joined(Bytes.file(IMPLICIT, IMPLICIT_CT + "28003000 " + littleEndian(list.length)), list));
        assertTrue(file.dataSet().isBlank(Tag.PIXEL_SPACING));
        assertEquals("LONG_VALUE_SKIPPED", codes(file));
    }

    @Test
    void longRunsOfDigitsAreNoNumberAndTakeNoTime() throws Exception {
        byte[] digits = ("1".repeat(1_000_001) + "x").getBytes(StandardCharsets.US_ASCII);
        DicomFile file =
                readSoon(joined(Bytes.file(IMPLICIT, IMPLICIT_CT + "28003000 " + littleEndian(digits.length)), digits));
        Assertions.assertTimeoutPreemptively(
                SOON, () -> assertEquals(0, file.dataSet().decimals(Tag.PIXEL_SPACING).length));
    }

    @Test
    void manyFailingAttemptsAtUnknownValuesAreGivenUp() throws Exception {
        byte[] failing = Bytes.of("11001010 'UN' 0000 0C000000 FEFF00E0 04000000 'ABCD'");
        DicomFile file = readSoon(joined(Bytes.file(EXPLICIT, CT), repeated(failing, 400_000)));
        assertEquals(12, file.dataSet().bytes(0x00111010).orElseThrow().length);
        assertEquals("DUPLICATE_ELEMENT", codes(file));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "08004011 'SQ' 0000 FFFFFFFF FEFF00E0 FFFFFFFF ",
                "11001010 'UN' 0000 FFFFFFFF FEFF00E0 FFFFFFFF "
            })
    void deepNestingOfUndefinedLengthIsRefused(String level) {
        DicomReadException e = refused(joined(Bytes.file(EXPLICIT, CT), repeated(Bytes.of(level), 10_000)));
        assertTrue(e.reason().contains("at most " + ElementParser.DEEPEST + " deep"), e.reason());
    }

    @ParameterizedTest
    @ValueSource(strings = {"SQ", "UN"})
    void deepNestingOfDefinedLengthIsReadOrRefused(String vr) {
        byte[] inner = new byte[0];
        for (int level = 0; level < 10_000; level++) {
            String item = "FEFF00E0 " + littleEndian(inner.length);
            inner = joined(Bytes.of("09001010 '" + vr + "' 0000 " + littleEndian(inner.length + 8) + item), inner);
        }
        byte[] file = joined(Bytes.file(EXPLICIT, CT), inner);
        if (vr.equals("SQ")) {
            assertTrue(refused(file).reason().contains("deeper nesting"));
        } else {
            // What lies too deep under an unknown representation stays bytes.
            DataSet d = Assertions.assertDoesNotThrow(() -> readSoon(file)).dataSet();
            assertEquals(1, d.items(0x00091010).size());
        }
    }

    @Test
    void findingsAboutEveryElementAreBounded() throws Exception {
        DicomFile file =
                readSoon(joined(Bytes.file(EXPLICIT, CT), repeated(Bytes.of("11001010 'zz' 0200 'ab'"), 900_000)));
        assertTrue(file.findings().size() <= 51, file.findings().size() + " findings");
    }

    @Test
    void ofElementsWithOneTagTheFirstIsKeptAndOrderIsRestored() throws Exception {
        DicomFile file = readSoon(Bytes.file(
                EXPLICIT,
                CT + "10002000 'LO' 0200 'b1' 08000500 'CS' 0A00 'ISO_IR 192' 10002000 'LO' 0200 'b2'"
                        + " 08006000 'CS' 0200 'MR'"));
        DataSet d = file.dataSet();
        assertEquals(java.util.List.of(Tag.SPECIFIC_CHARACTER_SET, Tag.MODALITY, Tag.PATIENT_ID), d.tags());
        assertEquals("CT", d.string(Tag.MODALITY).orElseThrow());
        assertEquals("b1", d.string(Tag.PATIENT_ID).orElseThrow());
        assertEquals("DUPLICATE_ELEMENT", codes(file));
    }

    @ParameterizedTest
    @ValueSource(strings = {IMPLICIT, EXPLICIT})
    void secondFileMetaGroupIsLeftOutAndSaid(String syntax) throws Exception {
        boolean implicit = syntax.equals(IMPLICIT);
        DicomFile file = readSoon(Bytes.file(
                syntax,
                (implicit ? IMPLICIT_CT : CT) + "02001000 'UI' 1400 '1.2.840.10008.1.2.1' 00 "
                        + (implicit ? "10002000 02000000 'id'" : "10002000 'LO' 0200 'id'")));
        assertEquals("id", file.dataSet().string(Tag.PATIENT_ID).orElseThrow());
        assertTrue(!file.dataSet().contains(Tag.TRANSFER_SYNTAX_UID));
        assertEquals("META_IN_DATA_SET", codes(file));
    }

    @Test
    void groupLengthsAreNotBelieved() throws Exception {
        DataSet d = readSoon(Bytes.file(
                        EXPLICIT,
                        "08000000 'UL' 0400 FFFFFF7F " + CT + "10000000 'UL' 0400 00000000"
                                + " 10002000 'LO' 0200 'id'"))
                .dataSet();
        assertEquals("CT", d.string(Tag.MODALITY).orElseThrow());
        assertEquals("id", d.string(Tag.PATIENT_ID).orElseThrow());
    }

    @Test
    void zerosUpToTheEndOfABlockAreNoElements() throws Exception {
        DicomFile file = readSoon(joined(Bytes.file(EXPLICIT, CT), new byte[4096]));
        assertEquals(java.util.List.of(Tag.MODALITY), file.dataSet().tags());
        assertEquals("", codes(file));
        refused(new byte[1 << 20]);
    }

    @Test
    void inflatedDataBeyondTheLimitIsRefusedWithItsRatio() {
        Deflater deflater = new Deflater(9, true);
        deflater.setInput(new byte[64 << 20]);
        deflater.finish();
        byte[] deflated = new byte[1 << 20];
        int length = deflater.deflate(deflated);
        deflater.end();
        DicomReadException e = refused(joined(Bytes.file(DEFLATED, ""), java.util.Arrays.copyOf(deflated, length)));
        assertTrue(e.reason().contains("ratio of at most 200") && e.offset() > 0, e.reason());
    }

    private static DicomFile readSoon(byte[] file) throws DicomReadException {
        return Assertions.assertTimeout(SOON, () -> DicomReader.read(NAME, file));
    }

    private static DicomReadException refused(byte[] file) {
        return Assertions.assertTimeout(
                SOON, () -> assertThrows(DicomReadException.class, () -> DicomReader.read(NAME, file)));
    }

    private static String codes(DicomFile file) {
        return String.join(",", file.findings().stream().map(Finding::code).toList());
    }

    private static String littleEndian(int value) {
        return java.util.HexFormat.of().toHexDigits(Integer.reverseBytes(value));
    }

    private static byte[] repeated(byte[] part, int times) {
        ByteBuffer out = ByteBuffer.allocate(Math.multiplyExact(part.length, times));
        while (out.hasRemaining()) {
            out.put(part);
        }
        return out.array();
    }

    private static byte[] joined(byte[] a, byte[] b) {
        return ByteBuffer.allocate(a.length + b.length).put(a).put(b).array();
    }
}
