package org.holdfast.regions;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class OutlineTest {

    /** Rounding of a few sums and products of numbers up to 100. */
    private static final double ROUNDING = 1e-12;

    private static PixelPoint at(double x, double y) {
        return new PixelPoint(x, y);
    }

    @Test
    void ellipseHoldsItsLineAndNothingBeyond() {
        Outline.Ellipse ellipse = new Outline.Ellipse(at(10, 20), 4, 2);

        // By hand: the ends of the axes are 14, 20 and 10, 22
        assertTrue(ellipse.contains(14, 20));
        assertTrue(ellipse.contains(10, 22));
        assertFalse(ellipse.contains(14.001, 20));
        // By hand: (3/4)² + (1.4/2)² = 1.0525 > 1, (3/4)² + (1.3/2)² = 0.985 < 1
        assertFalse(ellipse.contains(13, 21.4));
        assertTrue(ellipse.contains(13, 21.3));
        // Phantom: π·a·b
        assertEquals(Math.PI * 8, ellipse.areaPixels(), ROUNDING);
    }

    @Test
    void polygonsThatShareASideShareNoPixel() {
        Outline.Polygon left = new Outline.Polygon(List.of(at(0, 0), at(4, 0), at(6, 7), at(0, 7)));
        Outline.Polygon right = new Outline.Polygon(List.of(at(4, 0), at(9, 0), at(9, 7), at(6, 7)));

        for (int y = 0; y < 7; y++) {
            for (int x = 0; x < 9; x++) {
                // By hand: together they are the rectangle 0…9 × 0…7, so that each of its places is in one of them
                assertTrue(left.contains(x, y) ^ right.contains(x, y), x + ", " + y);
            }
        }
    }

    @Test
    void polygonMayBeHollowedFromOneSide() {
        // A U, open at the top: 6 wide, 5 high, its notch 2 wide and 4 deep.
        Outline.Polygon shape = new Outline.Polygon(
                List.of(at(0, 0), at(2, 0), at(2, 4), at(4, 4), at(4, 0), at(6, 0), at(6, 5), at(0, 5)));

        assertTrue(shape.contains(1, 2));
        assertFalse(shape.contains(3, 2));
        assertTrue(shape.contains(5, 2));
        assertTrue(shape.contains(3, 4.5));
        // By hand: 6·5 − 2·4
        assertEquals(22, shape.areaPixels(), ROUNDING);
    }

    @Test
    void polygonThatCrossesItselfIsRefused() {
        List<PixelPoint> bow = List.of(at(0, 0), at(4, 4), at(4, 0), at(0, 4));
        List<PixelPoint> doubled = List.of(at(0, 0), at(4, 0), at(1, 0), at(3, 0), at(2, 3));

        assertTrue(Outline.Polygon.crossesItself(bow));
        assertThrows(IllegalArgumentException.class, () -> new Outline.Polygon(bow));
        assertThrows(IllegalArgumentException.class, () -> new Outline.Polygon(doubled));
        assertThrows(IllegalArgumentException.class, () -> new Outline.Polygon(List.of(at(0, 0), at(2, 2), at(4, 4))));
    }

    @Test
    void refusesWhatEnclosesNothing() {
        assertThrows(IllegalArgumentException.class, () -> new Outline.Ellipse(at(1, 1), 0, 2));
        assertThrows(IllegalArgumentException.class, () -> new Outline.Rectangle(3, 0, 3, 4));
        assertThrows(IllegalArgumentException.class, () -> new Outline.Rectangle(0, Double.NaN, 3, 4));
        assertThrows(IllegalArgumentException.class, () -> new Outline.Polygon(List.of(at(0, 0), at(1, 0))));
    }
}
