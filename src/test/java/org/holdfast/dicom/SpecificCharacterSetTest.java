package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.nio.charset.StandardCharsets;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Names in the character sets of PS3.3, C.12.1.1.2; the examples of PS3.5, annexes H to K. */
class SpecificCharacterSetTest {

    private static final String ESC = "1B";

    static Stream<Arguments> names() {
        return Stream.of(
                // Source: DICOM PS3.5, H.3.1, example 1
                Arguments.of(
                        "\\ISO 2022 IR 87",
                        "'Yamada^Tarou=' " + ESC + "'$B;3ED'" + ESC + "'(B^'" + ESC + "'$BB@O:'" + ESC + "'(B='" + ESC
                                + "'$B$d$^$@'" + ESC + "'(B^'" + ESC + "'$B$?$m$&'" + ESC + "'(B'",
                        "Yamada^Tarou=山田^太郎=やまだ^たろう"),
                // Source: DICOM PS3.5, H.3.2, example 2
                Arguments.of(
                        "ISO 2022 IR 13\\ISO 2022 IR 87",
                        "D4CFC0DE'^'C0DBB3'='" + ESC + "'$B;3ED'" + ESC + "'(J^'" + ESC + "'$BB@O:'" + ESC + "'(J='"
                                + ESC + "'$B$d$^$@'" + ESC + "'(J^'" + ESC + "'$B$?$m$&'" + ESC + "'(J'",
                        "ﾔﾏﾀﾞ^ﾀﾛｳ=山田^太郎=やまだ^たろう"),
                // Source: DICOM PS3.5, I.2, example 1
                Arguments.of(
                        "\\ISO 2022 IR 149",
                        "'Hong^Gildong='" + ESC + "'$)C'FBF3'^'" + ESC + "'$)C'D1CED4D7'='" + ESC + "'$)C'C8AB'^'" + ESC
                                + "'$)C'B1E6B5BF",
                        "Hong^Gildong=洪^吉洞=홍^길동"),
                // Source: DICOM PS3.5, J.2, example 2 (GB18030) and J.1, example 1 (Unicode)
                Arguments.of("GB18030", "'Wang^XiaoDong='CDF5'^'D0A1B6AB'='", "Wang^XiaoDong=王^小东="),
                Arguments.of("ISO_IR 192", "'Wang^XiaoDong='E78E8B'^'E5B08FE69DB1'='", "Wang^XiaoDong=王^小東="),
                // Source: DICOM PS3.5, K.2, example 1
                Arguments.of(
                        "\\ISO 2022 IR 58",
                        "'Zhang^XiaoDong='" + ESC + "'$)A'D5C5'^'" + ESC + "'$)A'D0A1B6AB'='",
                        "Zhang^XiaoDong=张^小东="),
                // By hand: code tables of ISO 8859 parts 1, 2, 5, 7, 8, 9, 15, TIS 620 and GBK
                Arguments.of("ISO_IR 100", "'Buc^J'E9'r'F4'me'", "Buc^Jérôme"),
                Arguments.of("ISO_IR 101", "'Wa'B3E6'sa'", "Wałćsa"),
                Arguments.of("ISO_IR 144", "BBEEDA", "Люк"),
                Arguments.of("ISO_IR 126", "C4E9EFEDF5F3E9EFF2", "Διονυσιος"),
                Arguments.of("ISO_IR 127", "E2C8C7E6EA", "قباني"),
                Arguments.of("ISO_IR 138", "F9F8E5EF", "שרון"),
                Arguments.of("ISO_IR 148", "C7'avu'FE'o'F0'lu'", "Çavuşoğlu"),
                Arguments.of("ISO_IR 203", "'prix 5 'A4", "prix 5 €"),
                Arguments.of("ISO_IR 166", "B9D2C2", "นาย"),
                Arguments.of("GBK", "CDF5'^'D0A196C3", "王^小柮"),
                Arguments.of("ISO 2022 IR 100\\ISO 2022 IR 144", "'J'E9'^'" + ESC + "'-L'BBEEDA'^'E9", "Jé^Люк^é"));
    }

    @ParameterizedTest
    @MethodSource("names")
    void readsNames(String terms, String bytes, String expected) {
        byte[] element = terms.getBytes(StandardCharsets.US_ASCII);
        assertEquals(expected, SpecificCharacterSet.ofElement(element).decode(Bytes.of(bytes), Vr.PN));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "ISO-IR 100",
                "ISO IR 100",
                "iso_ir_100",
                "ISO_IR100",
                "IR 100",
                "ISO 2022 IR 100",
                "ISO8859-1",
                "latin1"
            })
    void takesMisspeltTerms(String term) {
        assertEquals("é", SpecificCharacterSet.ofTerm(term).decode(new byte[] {(byte) 0xE9}, Vr.LO));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "nonsense", "ISO_IR 999", "ISO_IR 6", "\\\\"})
    void unknownTermsNeverFail(String term) {
        SpecificCharacterSet set = SpecificCharacterSet.ofTerm(term);
        // By hand: C3 A9 is é in UTF-8; E9 alone is no UTF-8 and é in Latin 1.
        assertEquals("é", set.decode(new byte[] {(byte) 0xC3, (byte) 0xA9}, Vr.LO));
        assertEquals("é", set.decode(new byte[] {(byte) 0xE9}, Vr.LO));
        assertEquals("\u001b%G", set.decode(new byte[] {0x1B, '%', 'G'}, Vr.LO));
    }

    @Test
    void secondByteThatLooksLikeABackslashDoesNotSplitValues() {
        // By hand: 95 5C is one character in GB18030; the backslash between the values is a byte of its own.
        DataSet d = DataSet.builder()
                .string(Tag.SPECIFIC_CHARACTER_SET, "GB18030")
                .bytes(Tag.SERIES_DESCRIPTION, Vr.LO, Bytes.of("955C'\\'955C'a'"))
                .build();
        assertEquals(2, d.strings(Tag.SERIES_DESCRIPTION).size());
        assertEquals(1, d.strings(Tag.SERIES_DESCRIPTION).get(0).length());
    }

    @Test
    void writesUtf8AndSaysSo() {
        DataSet d = DataSet.builder().string(Tag.PATIENT_NAME, "Zoë").build();
        assertEquals("ISO_IR 192", d.string(Tag.SPECIFIC_CHARACTER_SET).orElseThrow());
        assertArrayEquals(Bytes.of("'Zo'C3AB"), d.bytes(Tag.PATIENT_NAME).orElseThrow());
        assertEquals("Zoë", d.string(Tag.PATIENT_NAME).orElseThrow());
    }

    @Test
    void refusesTextThatTheNamedSetLacks() {
        DataSet.Builder latin = DataSet.builder().string(Tag.SPECIFIC_CHARACTER_SET, "ISO_IR 100");
        assertEquals(
                "Zoë",
                latin.string(Tag.PATIENT_NAME, "Zoë")
                        .build()
                        .string(Tag.PATIENT_NAME)
                        .orElseThrow());
        assertThrows(IllegalArgumentException.class, () -> latin.string(Tag.PATIENT_NAME, "山田"));
        assertThrows(IllegalArgumentException.class, () -> latin.string(Tag.MODALITY, "é"));
    }
}
