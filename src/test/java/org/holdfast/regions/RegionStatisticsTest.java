package org.holdfast.regions;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import org.holdfast.volume.Cut;
import org.junit.jupiter.api.Test;

class RegionStatisticsTest {

    /** HU are kept to 2^−20 voxel weights and floats; sums of some tens of them. */
    private static final double HU = 1e-3;

    private static final double ROUNDING = 1e-12;

    private static RegionStatistics statistics(Cut cut, Outline outline) {
        return assertInstanceOf(RegionStatistics.class, RegionStatistics.of(cut, outline));
    }

    private static String why(Cut cut, Outline outline) {
        return assertInstanceOf(RegionReading.NotComputable.class, RegionStatistics.of(cut, outline))
                .why();
    }

    private static Outline rectangle(double left, double top, double right, double bottom) {
        return new Outline.Rectangle(left, top, right, bottom);
    }

    @Test
    void countsPixelsWhoseCentresLieInside() {
        Cut cut = Cuts.of(12, 9, (x, y) -> 100 * x + 10 * y);
        RegionStatistics found = statistics(cut, rectangle(2.4, 3, 4.6, 4.9));

        // By hand: x 3, 4 and y 3, 4: 330, 340, 430, 440
        assertEquals(4, found.pixels());
        assertEquals(385, found.meanHu(), HU);
        assertEquals(330, found.minHu(), HU);
        assertEquals(440, found.maxHu(), HU);
        // By hand: the middle two are 340 and 430
        assertEquals(385, found.medianHu(), HU);
        // By hand: squares of −55, −45, 45, 55 add up to 10100; √(10100/3)
        assertEquals(58.0230, found.sdHu().getAsDouble(), HU);
        assertEquals(0, found.pixelsWithoutValue());
    }

    @Test
    void tellsDrawnAndCountedAreaApart() {
        RegionStatistics found = statistics(Cuts.of(12, 9, (x, y) -> 0), rectangle(2.4, 3, 4.6, 4.9));

        // By hand: 2.2 · 0.5 mm wide, 1.9 · 0.75 mm high
        assertEquals(1.1 * 1.425, found.areaMm2(), ROUNDING);
        // By hand: 4 pixels of 0.5 · 0.75 mm
        assertEquals(1.5, found.countedAreaMm2(), ROUNDING);
    }

    @Test
    void leavesOutAndCountsPixelsWithoutValue() {
        Cut cut = Cuts.of(12, 9, (x, y) -> x == 3 ? Cuts.NONE : 50 + y);
        RegionStatistics found = statistics(cut, rectangle(2, 2, 4, 4));

        // By hand: of 3 · 3 pixels one column is empty; 52, 53, 54 twice
        assertEquals(6, found.pixels());
        assertEquals(3, found.pixelsWithoutValue());
        assertEquals(53, found.meanHu(), HU);
        assertEquals(53, found.medianHu(), HU);
    }

    @Test
    void readsTheVisiblePartOfARegionPartlyOutside() {
        Cut cut = Cuts.of(12, 9, (x, y) -> 10 * x);
        RegionStatistics found = statistics(cut, new Outline.Ellipse(new PixelPoint(-0.5, 4), 2, 2));

        // By hand: x = 0 (0.25² + dy²/4 ≤ 1: dy −1…1) and x = 1 (0.5625 + dy²/4 ≤ 1: dy −1…1): three of each
        assertEquals(6, found.pixels());
        assertEquals(5, found.meanHu(), HU);
        // Phantom: π·2·2 pixels of 0.375 mm²
        assertEquals(Math.PI * 4 * 0.375, found.areaMm2(), ROUNDING);
    }

    @Test
    void readsASinglePixelWithoutASpread() {
        RegionStatistics found = statistics(Cuts.of(12, 9, (x, y) -> 7 * x), rectangle(4.9, 4.9, 5.1, 5.1));

        // By hand: pixel (5, 5) alone
        assertEquals(1, found.pixels());
        assertEquals(35, found.meanHu(), HU);
        assertEquals(35, found.medianHu(), HU);
        assertEquals(OptionalDouble.empty(), found.sdHu());
    }

    @Test
    void hasNoSpreadInAConstantRegion() {
        RegionStatistics found = statistics(Cuts.of(12, 9, (x, y) -> 3000), rectangle(1, 1, 8, 7));

        // By hand: all 56 pixels are alike
        assertEquals(56, found.pixels());
        assertEquals(0, found.sdHu().getAsDouble(), HU);
    }

    @Test
    void saysWhyThereIsNoNumber() {
        Cut cut = Cuts.of(12, 9, (x, y) -> x < 6 ? Cuts.NONE : 0);

        assertEquals("the region lies outside the picture", why(cut, rectangle(20, 1, 30, 3)));
        assertEquals("none of the 4 pixels inside lies in the image", why(cut, rectangle(1, 1, 2, 2)));
        assertTrue(why(cut, rectangle(7.2, 1.2, 7.8, 1.8)).startsWith("the region holds no pixel's centre"));
        Outline sliver = new Outline.Polygon(
                List.of(new PixelPoint(6.1, 0.9), new PixelPoint(9.9, 1.9), new PixelPoint(9.9, 1.95)));
        assertTrue(why(cut, sliver).startsWith("the region holds no pixel's centre"));
    }
}
