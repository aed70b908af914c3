package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.OptionalDouble;
import org.holdfast.desktop.state.FilmLook;
import org.holdfast.volume.FilmFacts;
import org.holdfast.volume.FilmFrame;
import org.holdfast.volume.FilmOrientation;
import org.holdfast.volume.PixelScale;
import org.holdfast.volume.TestFilms;
import org.junit.jupiter.api.Test;

class FilmGeometryTest {

    /** A few additions and products of numbers under 1000. */
    private static final double ROUNDING = 1e-10;

    /** 100 columns of 0.1 mm, 50 rows of 0.3 mm: 10 × 15 mm. */
    private static FilmFacts tall() {
        return TestFilms.with(
                TestFilms.facts(100, 50), PixelScale.of(PixelScale.Kind.DETECTOR, 0.3, 0.1), FilmOrientation.unknown());
    }

    @Test
    void fittedTheWholeFilmIsSeenInItsTrueProportion() {
        FilmGeometry geometry = new FilmGeometry(tall(), FilmLook.FITTED, 200, 300);
        // By hand: 15 mm over 300 pixels are 0.05 mm a pixel; 10 mm take 200 pixels: half a column, a sixth of a row
        assertEquals(0.05, geometry.mmPerPixel().orElseThrow(), ROUNDING);
        FilmFrame frame = geometry.frame();
        assertEquals(0.5, frame.columnsPerPixel(), ROUNDING);
        assertEquals(1 / 6.0, frame.rowsPerPixel(), ROUNDING);
        // By hand: the film's edge lies at column −0.5; the first pixel's centre a quarter of a column further
        assertEquals(-0.25, frame.originColumn(), ROUNDING);
        assertEquals(-0.5 + 1 / 12.0, frame.originRow(), ROUNDING);
    }

    @Test
    void whatLiesUnderThePointerStaysThereWhenMagnified() {
        FilmGeometry before = new FilmGeometry(tall(), new FilmLook(1.5, 7, -4, FilmLook.FITTED.window()), 211, 305);
        FilmGeometry after = new FilmGeometry(tall(), before.zoomedAt(2.5, 30, 250), 211, 305);
        assertEquals(before.frame().column(29.5), after.frame().column(29.5), ROUNDING);
        assertEquals(before.frame().row(249.5), after.frame().row(249.5), ROUNDING);
        // By hand: 1.5 · 2.5
        assertEquals(3.75, after.look().zoom(), ROUNDING);
    }

    @Test
    void theFilmFollowsADrag() {
        FilmGeometry before = new FilmGeometry(tall(), FilmLook.FITTED, 200, 300);
        FilmGeometry after = new FilmGeometry(tall(), before.panned(12, -30), 200, 300);
        assertEquals(before.frame().column(50), after.frame().column(62), ROUNDING);
        assertEquals(before.frame().row(80), after.frame().row(50), ROUNDING);
    }

    @Test
    void withoutAScaleThereAreNoMillimetres() {
        FilmGeometry geometry = new FilmGeometry(TestFilms.facts(10, 10), FilmLook.FITTED, 20, 20);
        assertEquals(OptionalDouble.empty(), geometry.mmPerPixel());
    }
}
