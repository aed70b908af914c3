package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import org.holdfast.dicom.DicomWriter.SequenceLength;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The same bytes wherever the program runs, each value within its length (PS3.5, table 6.2-1) and filled up to even. */
class WriterLocaleTest {

    private final Locale before = Locale.getDefault();

    @AfterEach
    void restoreLocale() {
        Locale.setDefault(before);
    }

    /** Commas as decimal points, Arabic, Thai and Devanagari digits, and the dotless i of Turkish. */
    @ParameterizedTest
    @ValueSource(strings = {"de-DE", "ar-EG-u-nu-arab", "th-TH-u-nu-thai", "hi-IN-u-nu-deva", "tr-TR"})
    void everyKindOfValueIsTheSameInEveryLocale(String language) throws Exception {
        Locale.setDefault(Locale.ROOT);
        byte[] expected = written();
        Locale.setDefault(Locale.forLanguageTag(language));
        // By hand: the locale is one that matters, else equal bytes would say nothing.
        assertTrue(!String.format("%.1f %d", 0.5, 7).equals("0.5 7")
                || !"I".toLowerCase().equals("i"));
        assertArrayEquals(expected, written());
        DataSet d = DataSet.builder()
                .decimals(Tag.PIXEL_SPACING, 0.5, 1234.5)
                .decimals(Tag.RESCALE_SLOPE, -1.0 / 3)
                .integers(Tag.INSTANCE_NUMBER, 1234567)
                .build();
        assertEquals("0.5\\1234.5", text(d, Tag.PIXEL_SPACING));
        // By hand: 16 characters hold 13 digits behind "-0.".
        assertEquals("-0.3333333333333", text(d, Tag.RESCALE_SLOPE));
        assertEquals("1234567", text(d, Tag.INSTANCE_NUMBER));
        assertEquals("(7FE0,0010)", org.holdfast.dicom.Tag.format(Tag.PIXEL_DATA));
    }

    @Test
    void oddValuesAreFilledWithTheByteOfTheirKind() throws Exception {
        DataSet d = DataSet.builder()
                .string(Tag.SOP_CLASS_UID, "1.2.3")
                .string(Tag.SOP_INSTANCE_UID, "1.2.840.4")
                .string(Tag.MODALITY, "CTX")
                .bytes(0x00420011, Vr.OB, new byte[] {1, 2, 3})
                .build();
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        DicomWriter.write(out, d, TransferSyntax.EXPLICIT_LITTLE_ENDIAN, SequenceLength.DEFINED);
        String file = out.toString(StandardCharsets.ISO_8859_1);
        // Source: DICOM PS3.5, table 6.2-1: UIDs and bytes end with 00, text with a space.
        assertTrue(file.contains("\u0008\0\u0016\0UI\u0006\0001.2.3\0"));
        assertTrue(file.contains("\u0008\0\u0060\0CS\u0004\0CTX "));
        assertTrue(file.endsWith("\u0042\0\u0011\0OB\0\0\u0004\0\0\0\u0001\u0002\u0003\0"));
        assertEquals(0, out.size() % 2);
    }

    private static byte[] written() throws Exception {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        for (SequenceLength lengths : SequenceLength.values()) {
            DicomWriter.write(out, DicomWriterTest.everyKindOfValue(), TransferSyntax.EXPLICIT_LITTLE_ENDIAN, lengths);
        }
        return out.toByteArray();
    }

    private static String text(DataSet d, int tag) {
        return new String(d.bytes(tag).orElseThrow(), StandardCharsets.US_ASCII);
    }
}
