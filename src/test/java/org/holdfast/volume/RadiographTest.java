package org.holdfast.volume;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.holdfast.volume.VoiTransform.Function;
import org.holdfast.volume.VoiTransform.Window;
import org.junit.jupiter.api.Test;

class RadiographTest {

    private static final Window WHOLE = new Window("", 100, 200, Function.LINEAR_EXACT);

    private static Radiograph inverted(boolean isInverted, int... stored) {
        return TestFilms.film(
                TestFilms.facts(stored.length, 1, ModalityTransform.NONE, List.of(WHOLE), isInverted, Optional.empty()),
                stored);
    }

    @Test
    void invertsTheGreyLastAndTheStoredValuesNever() {
        Radiograph film = inverted(true, 0, 50, 200);
        // By hand: grey (50 − 100) / 200 + 0.5 = 0.25, inverted 0.75
        assertEquals(0.75, film.brightness(film.value(1, 0), WHOLE));
        assertEquals(1, film.brightness(film.value(0, 0), WHOLE));
        assertEquals(0, film.brightness(film.value(2, 0), WHOLE));
        assertEquals(50, film.stored(1, 0));
        assertEquals(0.25, inverted(false, 0, 50, 200).brightness(50, WHOLE));
    }

    @Test
    void lineComesBeforeTheWindow() {
        Radiograph film = TestFilms.film(
                TestFilms.facts(2, 1, new ModalityTransform.Line(0.684, 200), List.of(), false, Optional.empty()),
                1994,
                2802);
        // By hand: 0.684 · 1994 + 200 and 0.684 · 2802 + 200; kept as floats, whose steps are 1.2e-4 there
        assertEquals(1563.896, film.value(0, 0), 6.2e-5);
        assertEquals(2116.568, film.value(1, 0), 1.3e-4);
    }

    @Test
    void paddingIsNoValueAndNotInAutomaticWindows() {
        Radiograph film = TestFilms.film(
                TestFilms.facts(
                        5, 1, ModalityTransform.NONE, List.of(), false, Optional.of(new PaddingRange(4000, 4095))),
                4095,
                10,
                30,
                20,
                4000);
        assertTrue(Double.isNaN(film.value(0, 0)));
        assertEquals(4095, film.stored(0, 0));
        assertEquals(3, film.statistics().count());
        // By hand: of 10, 20, 30 the quantiles 0.5 % and 99.5 % are 10 and 30.
        assertEquals(Window.between("automatic", 10, 30), film.automaticWindow().orElseThrow());
    }

    @Test
    void quantilesAreValuesThatOccur() {
        FilmStatistics statistics = TestFilms.film(4, 7, 5, 9, 5).statistics();
        // By hand: sorted 5 5 7 9; ranks 1, 2, 3, 4 for shares up to 0.25, 0.5, 0.75, 1
        assertEquals(5, statistics.quantile(0));
        assertEquals(5, statistics.quantile(0.5));
        assertEquals(7, statistics.quantile(0.51));
        assertEquals(9, statistics.quantile(1));
        assertThrows(IllegalArgumentException.class, () -> statistics.quantile(1.1));
    }

    @Test
    void bitsThatDoNotCountAreLeftOut() {
        // By hand: 0xF123 with 12 bits is 0x123.
        assertEquals(0x123, TestFilms.film(1, 0xF123).stored(0, 0));
    }

    @Test
    void whatWasCutOffCarriesNoImage() {
        Radiograph film = new Radiograph(TestFilms.facts(2, 2), new short[] {1, 2, 3, 0}, 3);
        assertEquals(3, film.value(0, 1));
        assertTrue(Double.isNaN(film.value(1, 1)));
        assertEquals(3, film.statistics().count());
    }

    @Test
    void opensInTheFirstWindowThatShowsSomething() {
        Window elsewhere = new Window("elsewhere", 3000, 10, Function.LINEAR);
        Radiograph film = TestFilms.film(
                TestFilms.facts(3, 1, ModalityTransform.NONE, List.of(elsewhere, WHOLE), false, Optional.empty()),
                20,
                50,
                80);
        assertEquals(WHOLE, film.opening().orElseThrow());
        Radiograph blind = TestFilms.film(
                TestFilms.facts(3, 1, ModalityTransform.NONE, List.of(elsewhere), false, Optional.empty()), 20, 50, 80);
        assertEquals("automatic", blind.opening().orElseThrow().name());
    }

    @Test
    void nothingButPaddingHasNoWindow() {
        Radiograph film = TestFilms.film(
                TestFilms.facts(
                        1, 1, ModalityTransform.NONE, List.of(WHOLE), false, Optional.of(new PaddingRange(5, 5))),
                5);
        assertEquals(Optional.empty(), film.automaticWindow());
        assertEquals(Optional.empty(), film.opening());
        assertTrue(Double.isNaN(film.statistics().shareShown(WHOLE)));
    }

    @Test
    void tableOfSignedValuesGivesUnsignedOnes() {
        ModalityTransform table =
                new ModalityTransform.Table(new LookupTable(-2048, 16, new char[] {0, 16, 32, 65535}));
        assertEquals(0, table.apply(-2048));
        assertEquals(16, table.apply(-2047));
        assertEquals(65535, table.apply(2047));
    }
}
