package org.holdfast.desktop.state;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Locale;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

class WordsTest {

    @Test
    void writesATrueMinus() {
        assertEquals("\u22121.5", Words.number(-1.5, 1));
        assertEquals("\u22121000", Words.number(-1000, 0));
    }

    @Test
    void writesNoMinusBeforeZero() {
        assertEquals("0.0", Words.number(-0.04, 1));
        assertEquals("0", Words.number(-0.0, 0));
        assertEquals("\u22120.1", Words.number(-0.06, 1));
    }

    @Test
    void writesAPointWhateverTheLanguage() {
        Locale before = Locale.getDefault();
        Locale.setDefault(Locale.GERMANY);
        try {
            assertEquals("1234.50", Words.number(1234.5, 2));
        } finally {
            Locale.setDefault(before);
        }
    }

    @Test
    void putsAThinSpaceBeforeUnits() {
        assertEquals("0.5\u2009mm", Words.quantity(0.5, 1, "mm"));
        assertEquals("\u2212200\u2009HU", Words.quantity(-200, 0, "HU"));
        // By hand: 0.615 of 1 is 61.5 of 100
        assertEquals("61.5\u2009%", Words.percent(0.615));
    }

    @Test
    void writesNominalValuesAsFinelyAsTheyWereChosen() {
        assertEquals("1.0\u2009mm", Words.nominal(1, "mm"));
        assertEquals("0.6\u2009mm", Words.nominal(0.6, "mm"));
        assertEquals("0.75\u2009mm", Words.nominal(0.75, "mm"));
        assertEquals("0.625\u2009mm", Words.nominal(0.625, "mm"));
        assertEquals("0.7\u2009mm", Words.nominal(0.69999999, "mm"));
    }

    @Test
    void putsThinSpacesAboutTheDashOfARange() {
        assertEquals("51.0\u2009–\u200972.5", Words.percentRange(0.51, 0.725));
    }

    @Test
    void saysWhatStandsForNoLength() {
        assertEquals("1.25\u2009mm", Words.millimetres(OptionalDouble.of(1.25), 2, "unknown"));
        assertEquals("unknown", Words.millimetres(OptionalDouble.empty(), 2, "unknown"));
    }

    @Test
    void beginsASentence() {
        assertEquals("Not measured", Words.sentence("not measured"));
        assertEquals("", Words.sentence(""));
    }
}
