package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.HexFormat;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Streams with text beside the picture, and without. */
final class JpegCommentsTest {

    @ParameterizedTest
    @CsvSource({
        // By hand: ISO/IEC 10918-1, annex B: FFD8 start, FFFE comment, FFE1 application data, FFDB table, FFDA scan.
        "FFD8 FFFE0006 41424344 FFDA0002, true",
        "FFD8 FFDB0004 0000 FFFE0003 41 FFDA0002, true",
        "FFD8 FFE10014 000000000000000000000000000000000000 FFDA0002, true",
        "FFD8 FFE00010 0000000000000000000000000000 FFDA0002, false",
        "FFD8 FFDB0004 0000 FFDA0002 FFFE0003 41, false",
        "FFD8 FFFE0002 FFDA0002, false",
        "FFD8 FFFE, false",
        "FFD8 00000000, false",
        "FF4F FFFE0006 41424344, false",
        "FFD8 FFDBFFFF 00, false"
    })
    void commentsBeforeTheScanAreFound(String stream, boolean found) throws Exception {
        byte[] bytes = HexFormat.of().parseHex(stream.replace(" ", ""));
        assertEquals(found, JpegComments.in(ByteSource.of(bytes), 0, bytes.length));
    }
}
