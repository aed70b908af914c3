package org.holdfast.regions;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.holdfast.volume.Cut;
import org.junit.jupiter.api.Test;

class LineProfileTest {

    /** HU are kept to 2^−20 voxel weights and floats. */
    private static final double HU = 1e-3;

    private static final double ROUNDING = 1e-9;

    private static PixelPoint at(double x, double y) {
        return new PixelPoint(x, y);
    }

    @Test
    void followsALinearFieldExactly() {
        Cut cut = Cuts.of(12, 9, (x, y) -> 100 * x - 40 * y);
        LineProfile profile = LineProfile.of(cut, at(1.25, 2), at(7.25, 6.5));

        // By hand: 6 · 0.5 mm across, 4.5 · 0.75 mm down: √(3² + 3.375²)
        assertEquals(Math.sqrt(9 + 11.390625), profile.lengthMm(), ROUNDING);
        // By hand: √(36 + 20.25) = 7.5 pixels in steps of half a pixel
        assertEquals(16, profile.size());
        for (int n = 0; n < profile.size(); n++) {
            double share = n / 15.0;
            // Phantom: bilinear interpolation keeps a linear field
            assertEquals(100 * (1.25 + 6 * share) - 40 * (2 + 4.5 * share), profile.hu(n), HU);
            assertEquals(profile.lengthMm() * share, profile.atMm(n), ROUNDING);
        }
    }

    @Test
    void hasNoValueOutsideThePictureAndBesideEmptyPixels() {
        Cut cut = Cuts.of(12, 9, (x, y) -> x == 5 ? Cuts.NONE : 10 * x);
        LineProfile profile = LineProfile.of(cut, at(-1, 4), at(11, 4));

        for (int n = 0; n < profile.size(); n++) {
            double x = -1 + 0.5 * n;
            boolean empty = x < 0 || x > 4 && x < 6;
            assertEquals(empty, Double.isNaN(profile.hu(n)), "x " + x);
        }
        // By hand: the last place is the centre of the last pixel
        assertEquals(110, profile.hu(profile.size() - 1), HU);
    }

    @Test
    void needsNoPixelThatDoesNotCount() {
        Cut cut = Cuts.of(12, 9, (x, y) -> y == 4 ? 10 * x : Cuts.NONE);
        LineProfile profile = LineProfile.of(cut, at(0.3, 4), at(10.9, 4));

        for (int n = 0; n < profile.size(); n++) {
            assertFalse(Double.isNaN(profile.hu(n)), "place " + n);
        }
        assertTrue(Double.isNaN(LineProfile.of(cut, at(3, 4.1), at(4, 4.1)).hu(0)));
    }

    @Test
    void refusesALineWithoutLength() {
        assertThrows(
                IllegalArgumentException.class, () -> LineProfile.of(Cuts.of(3, 3, (x, y) -> 0), at(1, 1), at(1, 1)));
    }
}
