package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Locale;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Decimal strings, unique identifiers and what a data set refuses to hold. */
class ValueWritingTest {

    @ParameterizedTest
    @CsvSource({
        "0.7, 0.7",
        "0, 0",
        "-0.0, 0",
        "-1024, -1024",
        "100, 100",
        // By hand: 16 characters hold 14 digits behind "0.".
        "0.3333333333333333, 0.33333333333333",
        "-0.3333333333333333, -0.3333333333333",
        "123456789.123456789, 123456789.123457",
        "1e-9, 0.000000001",
        "1e22, 1E+22",
        "4.9e-324, 4.9E-324"
    })
    void decimalStringsKeepAsManyDigitsAsFit(double value, String expected) {
        assertEquals(expected, NumberText.format(value));
    }

    @Property(tries = 500, seed = "20260115")
    void decimalStringsNeverExceedSixteenCharactersAndComeBack(
            @ForAll @DoubleRange(min = -1e12, max = 1e12) double value) {
        String text = NumberText.format(value);
        assertTrue(text.length() <= 16, text);
        // By hand: a sign and a point leave at least 10 digits, also behind "0.0000".
        assertEquals(value, NumberText.parse(text).orElseThrow(), Math.max(1e-9 * Math.abs(value), 1e-13));
    }

    @Test
    void decimalStringsDoNotFollowTheLocale() {
        Locale before = Locale.getDefault();
        Locale.setDefault(Locale.GERMANY);
        try {
            assertEquals("0.5", NumberText.format(0.5));
            DataSet d =
                    DataSet.builder().decimals(Tag.PIXEL_SPACING, 0.5, 1234.5).build();
            assertEquals("[0.5, 1234.5]", d.strings(Tag.PIXEL_SPACING).toString());
        } finally {
            Locale.setDefault(before);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "abc", "1.2.3", "0x10", "1e", "NaN", "Infinity", "1e999", "1 2"})
    void textThatIsNoFiniteNumberIsNone(String text) {
        assertTrue(NumberText.parse(text).isEmpty());
    }

    @ParameterizedTest
    @CsvSource({"+50.00, 50", " 7 , 7", "'0,143', 0.143", "-1.5E-2, -0.015", ".5, 0.5", "3., 3"})
    void lenientNumbersAreRead(String text, double expected) {
        assertEquals(expected, NumberText.parse(text).orElseThrow());
    }

    @Test
    void uidsAreUnderTheUuidRootAndShortEnough() {
        assertTrue(Uid.random().matches("2\\.25\\.[1-9]\\d{1,38}"), Uid.random());
        assertNotEquals(Uid.random(), Uid.random());
        assertEquals(Uid.fromName("a"), Uid.fromName("a"));
        assertNotEquals(Uid.fromName("a"), Uid.fromName("b"));
        // Computed: python3 3.11, uuid.UUID(bytes=hashlib.md5(b"a").digest(), version=3).int
        assertEquals("2.25.16955237001962635719371836282126149217", Uid.fromName("a"));
    }

    @Test
    void refusesWhatAnElementCannotHold() {
        DataSet.Builder b = DataSet.builder();
        assertThrows(IllegalArgumentException.class, () -> b.string(Tag.SOP_INSTANCE_UID, "1.2." + "3".repeat(61)));
        assertThrows(IllegalArgumentException.class, () -> b.string(Tag.SOP_INSTANCE_UID, "1.2.a"));
        assertThrows(IllegalArgumentException.class, () -> b.integers(Tag.ROWS, 70_000));
        assertThrows(IllegalArgumentException.class, () -> b.string(Tag.ROWS, "3"));
        assertThrows(IllegalArgumentException.class, () -> b.decimals(Tag.KVP, Double.NaN));
        assertThrows(IllegalArgumentException.class, () -> b.string(0x00091010, "private"));
    }

    @Test
    void standardElementsHaveTheirRepresentation() {
        // Source: DICOM PS3.6, table 6-1
        assertEquals(Vr.DS, ValueRepresentations.of(Tag.PIXEL_SPACING));
        assertEquals(Vr.SQ, ValueRepresentations.of(Tag.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE));
        assertEquals(Vr.US, ValueRepresentations.of(0x60020010));
        assertEquals(Vr.UI, ValueRepresentations.of(Tag.FRAME_OF_REFERENCE_UID));
        assertEquals(Vr.LO, ValueRepresentations.of(0x00090010));
        assertEquals(Vr.UN, ValueRepresentations.of(0x00091010));
        assertEquals(Vr.UN, ValueRepresentations.of(0x7FDE0010));
    }

    @Test
    void builtDataSetDoesNotChangeWithItsBuilder() {
        DataSet.Builder b = DataSet.builder().string(Tag.MODALITY, "CT");
        DataSet built = b.build();
        b.string(Tag.MODALITY, "MR");
        assertEquals("CT", built.string(Tag.MODALITY).orElseThrow());
    }

    @Test
    void transferSyntaxesAreNamed() {
        assertEquals(
                "JPEG-LS Lossless (1.2.840.10008.1.2.4.80)",
                TransferSyntax.of("1.2.840.10008.1.2.4.80").describe());
        assertEquals(
                "unknown transfer syntax (1.2.3)", TransferSyntax.of("1.2.3").describe());
        assertTrue(TransferSyntax.of("1.2.3").encapsulated());
    }
}
