package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeout;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Items of compressed pixel data (PS3.5, section A.4) written by hand. */
class EncapsulatedFramesTest {

    private static final String JPEG_LS = "1.2.840.10008.1.2.4.80";
    private static final String RLE = TransferSyntax.RLE_LOSSLESS;
    private static final String END = "FEFF DDE0 00000000";
    private static final int UNDEFINED = -1;

    @TempDir
    Path folder;

    @Test
    void oneFrameHasAllFragments() throws Exception {
        assertFrames(source(JPEG_LS, 1, item("") + item("FFD8FF01") + item("0203") + END), "FFD8FF010203");
    }

    @Test
    void asManyFragmentsAsFramesAreOneEach() throws Exception {
        assertFrames(
                source(JPEG_LS, 3, item("") + item("0102") + item("0304") + item("0506") + END),
                "0102",
                "0304",
                "0506");
    }

    @Test
    void offsetTableSaysWhereFramesBegin() throws Exception {
        // By hand: items of 10 bytes, so the second frame's first one begins 20 bytes behind the table.
        String items = item("0102") + item("0304") + item("0506");
        assertFrames(source(JPEG_LS, 2, item("00000000 14000000") + items + END), "01020304", "0506");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "00000000",
                "00000000 15000000",
                "00000000 00000000",
                "0A000000 14000000",
                "00000000 F0FFFFFF",
                "00000000 14000000 1E000000",
                "000000"
            })
    void withoutUsableTableFramesBeginLikeImages(String table) throws Exception {
        String items = item("FFD8FF01") + item("0203") + item("FFD8FF04");
        assertFrames(source(JPEG_LS, 2, item(table) + items + END), "FFD8FF010203", "FFD8FF04");
    }

    @Test
    void tableAndStartsThatDoNotMatchAreSaid() throws Exception {
        PixelSource source = source(JPEG_LS, 2, item("") + item("0102") + item("0304") + item("0506") + END);
        DicomReadException e = assertThrows(DicomReadException.class, () -> frames(source));
        assertTrue(e.getMessage().contains("pixel data of 2 frames, got 1 frames in 3 fragments"), e.getMessage());
    }

    @Test
    void delimitersInsideDataMeanNothing() throws Exception {
        String inside = END + "FEFF 00E0 02000000";
        PixelSource source =
                source(JPEG_LS, 2, item("") + item("FFD8FF00" + inside) + item(inside) + item("FFD8FF00") + END);
        assertFrames(source, "FFD8FF00" + inside + inside, "FFD8FF00");
    }

    @Test
    void emptyFragmentsAreNone() throws Exception {
        assertFrames(source(JPEG_LS, 2, item("") + item("0102") + item("") + item("0304") + END), "0102", "0304");
    }

    @Test
    void missingDelimiterIsNoLoss() throws Exception {
        PixelSource source = source(JPEG_LS, 2, item("") + item("0102") + item("0304"));
        assertFrames(source, "0102", "0304");
        assertTrue(frames(source).isCutShort());
        assertFalse(frames(source(JPEG_LS, 1, item("") + item("0102") + END)).isCutShort());
    }

    @Test
    void itemsInDefinedLengthNeedNoDelimiter() throws Exception {
        String items = item("") + item("0102") + item("0304");
        PixelSource source = source(JPEG_LS, 2, items, Bytes.of(items).length);
        assertFrames(source, "0102", "0304");
        assertFalse(frames(source).isCutShort());
    }

    @Test
    void oddLengthMayLeaveOutItsFillingByte() throws Exception {
        String odd = "FEFF 00E0 03000000 FFD8FF 00";
        assertFrames(source(JPEG_LS, 2, item("") + odd + odd + END), "FFD8FF", "FFD8FF");
        String unfilled = "FEFF 00E0 03000000 FFD8FF";
        assertFrames(source(JPEG_LS, 2, item("") + unfilled + unfilled + END), "FFD8FF", "FFD8FF");
    }

    @Test
    void cutFileKeepsTheFramesThatAreThere() throws Exception {
        String cut = "FEFF 00E0 20000000 FFD8FF04";
        PixelSource source = source(JPEG_LS, 4, item("") + item("FFD8FF01") + item("0203") + cut);
        assertFrames(source, "FFD8FF010203", "FFD8FF04");
        assertTrue(frames(source).isCutShort());
        assertEquals(0, new PixelReader().read(source, 3, new short[4]));
    }

    @Test
    void cutFileWithAsManyFragmentsAsFramesIsNotTakenForOneEach() throws Exception {
        // By hand: of four frames in two fragments each, three fragments and a piece are left.
        String cut = "FEFF 00E0 20000000 0405";
        String items = item("FFD8") + item("0102") + item("FFD8") + cut;
        // By hand: frames begin 0, 20, 60 and 80 bytes behind the table.
        PixelSource source = source(JPEG_LS, 4, item("00000000 14000000 3C000000 50000000") + items);
        assertFrames(source, "FFD80102", "FFD80405");
    }

    @Test
    void noFragmentIsSaid() throws Exception {
        for (String items : new String[] {"", item(""), item("") + END, END}) {
            DicomReadException e = assertThrows(DicomReadException.class, () -> frames(source(JPEG_LS, 1, items)));
            assertTrue(e.getMessage().contains("at least one fragment"), e.getMessage());
        }
    }

    @Test
    void whatIsNoItemIsSaidWithItsPlace() throws Exception {
        PixelSource source = source(JPEG_LS, 1, item("") + item("0102") + "28001000 00000000");
        DicomReadException e = assertThrows(DicomReadException.class, () -> frames(source));
        assertTrue(e.getMessage().contains("got (0028,0010)"), e.getMessage());
        assertEquals(source.location().offset() + 18, e.offset());
    }

    @Test
    void rleFramesInSeveralFragmentsAreDecoded() throws Exception {
        String one = HexFormat.of().formatHex(RleDecoderTest.frame("FF 01 FF 03", "FF 02 FF 04"));
        String two = HexFormat.of().formatHex(RleDecoderTest.frame("FD 05", "FD 06"));
        String items = item(one.substring(0, 132))
                + item(one.substring(132))
                + item(two.substring(0, 66))
                + item(two.substring(66, 130))
                + item(two.substring(130));
        PixelSource source = source(RLE, 2, item("") + items + END);
        short[] words = new short[4];
        PixelReader reader = new PixelReader();
        assertEquals(4, reader.read(source, 0, words));
        assertArrayEquals(new short[] {0x0102, 0x0102, 0x0304, 0x0304}, words);
        assertEquals(4, reader.read(source, 1, words));
        assertArrayEquals(new short[] {0x0506, 0x0506, 0x0506, 0x0506}, words);
    }

    @Test
    void damageIsSaidWithItsPlaceInTheFile() throws Exception {
        // By hand: a frame of two fragments of 4 bytes; its byte 6 is byte 2 of the second, behind two more headers.
        String items = item("FFD8 FFE0") + item("0003 0055");
        PixelSource source = source(JPEG_LS, 1, item("") + items + END);
        DicomReadException e =
                assertThrows(DicomReadException.class, () -> new PixelReader().read(source, 0, new short[4]));
        assertTrue(e.getMessage().contains("expected a JPEG-LS marker, got 55"), e.getMessage());
        // By hand: table 8, item 8 + 4, item header 8, then byte 3 of the second fragment.
        assertEquals(source.location().offset() + 8 + 12 + 8 + 3, e.offset());
    }

    @Test
    void errorOfNearLosslessCodingIsReadFromTheFirstFrame() throws Exception {
        PixelLayout layout = CodecImages.grey(2, 2, 16, false);
        short[] words = CodecImages.words(layout, CodecImages.Content.SLOPES);
        for (int near : new int[] {0, 3}) {
            byte[] frame = JpegLsEncoder.encode(layout, words, near, JpegLsHeaders.Interleave.NONE, 0);
            String items = item("") + item(HexFormat.of().formatHex(frame)) + END;
            OptionalInt expected = near == 0 ? OptionalInt.empty() : OptionalInt.of(near);
            assertEquals(expected, source(JPEG_LS, 1, items).nearLosslessError());
            assertEquals(OptionalInt.empty(), source(RLE, 1, items).nearLosslessError());
        }
        assertEquals(
                OptionalInt.empty(),
                source(JPEG_LS, 1, item("") + item("FFD8FF01") + END).nearLosslessError());
    }

    @Test
    void hugeLengthsAreNotAllocated() throws Exception {
        PixelSource table = source(JPEG_LS, 2, "FEFF 00E0 FEFFFFFF 00000000");
        assertThrows(DicomReadException.class, () -> frames(table));
        PixelSource fragment = source(JPEG_LS, 1, item("") + "FEFF 00E0 FEFFFFFF 0102");
        assertFrames(fragment, "0102");
        assertTrue(frames(fragment).isCutShort());
    }

    @Test
    void endlessEmptyItemsAreRefusedSoon() throws Exception {
        String items = item("").repeat(EncapsulatedFrames.MOST_FRAGMENTS + 2);
        PixelSource source = source(JPEG_LS, 1, items);
        DicomReadException e = assertTimeout(
                Duration.ofSeconds(10), () -> assertThrows(DicomReadException.class, () -> frames(source)));
        assertTrue(e.getMessage().contains("at most " + EncapsulatedFrames.MOST_FRAGMENTS), e.getMessage());
    }

    private static void assertFrames(PixelSource source, String... expected) throws Exception {
        try (FileChannel channel = FileChannel.open(source.path())) {
            EncapsulatedFrames frames = EncapsulatedFrames.of(source, channel);
            String[] got = new String[frames.count()];
            for (int i = 0; i < got.length; i++) {
                got[i] = HexFormat.of().withUpperCase().formatHex(frames.read(channel, i));
            }
            assertArrayEquals(
                    Arrays.stream(expected).map(s -> s.replace(" ", "")).toArray(), got);
        }
    }

    private static EncapsulatedFrames frames(PixelSource source) throws Exception {
        try (FileChannel channel = FileChannel.open(source.path())) {
            return EncapsulatedFrames.of(source, channel);
        }
    }

    private static String item(String value) {
        int length = Bytes.of(value).length;
        return "FEFF 00E0 " + HexFormat.of().toHexDigits(Integer.reverseBytes(length)) + value;
    }

    private PixelSource source(String syntax, int frames, String items) throws Exception {
        return source(syntax, frames, items, UNDEFINED);
    }

    /** A file of 2 × 2 pixels of 16 bits. */
    private PixelSource source(String syntax, int frames, String items, int length) throws Exception {
        String header = "2800 0200 'US' 0200 0100  2800 0800 'IS' 0200 '" + frames + " '"
                + "2800 1000 'US' 0200 0200  2800 1100 'US' 0200 0200  2800 0001 'US' 0200 1000"
                + "2800 0101 'US' 0200 1000  2800 0201 'US' 0200 0F00  2800 0301 'US' 0200 0000"
                + "E07F 1000 'OB' 0000 " + HexFormat.of().toHexDigits(Integer.reverseBytes(length));
        Path file = folder.resolve("frames.dcm");
        Files.write(file, Bytes.file(syntax, header + items));
        return PixelSource.of(DicomReader.read(file));
    }
}
