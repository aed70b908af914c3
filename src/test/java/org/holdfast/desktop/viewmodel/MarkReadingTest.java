package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.holdfast.construct.CutAxes;
import org.holdfast.desktop.state.ImageMark;
import org.holdfast.desktop.state.ImageMark.RegionMark.Kind;
import org.holdfast.geometry.PatientVector;
import org.junit.jupiter.api.Test;

class MarkReadingTest {

    private static String words(ImageMark mark) {
        return MarkReading.of(mark, Optional.of(SampleExam.straight())).words();
    }

    @Test
    void givesALengthInMillimetres() {
        // By hand: a right triangle with sides 3 and 4.
        assertEquals("5.0\u2009mm", words(Marks.length(Marks.at(0, 21), Marks.at(3, 25))));
    }

    @Test
    void givesTheAngleAtTheVertexWithoutASense() {
        // By hand: arms to the left and to posterior; the same with the arms exchanged.
        assertEquals("90.0°", words(Marks.angle(Marks.at(5, 25), Marks.at(0, 25), Marks.at(0, 30))));
        assertEquals("90.0°", words(Marks.angle(Marks.at(0, 30), Marks.at(0, 25), Marks.at(5, 25))));
        // By hand: arms in opposite directions.
        assertEquals("180.0°", words(Marks.angle(Marks.at(5, 25), Marks.at(0, 25), Marks.at(-5, 25))));
    }

    @Test
    void givesNoAngleWithoutAnArm() {
        assertEquals(
                "an arm has no length: no angle",
                words(Marks.angle(Marks.at(0, 25), Marks.at(0, 25), Marks.at(0, 30))));
    }

    @Test
    void readsARegionOnItsOwnPlaneWithPixelsOfTheSmallestSpacing() {
        // By hand: the rectangle from x −8 to −5, y 21.5 to 24.5 on slice 3 is sampled every 0.5 mm, 7 by 7 pixels.
        // There
        // HU = 20·(x + 10) + 20/0.75·(y − 20) + 90: mean at the middle (−6.5, 23) is 70 + 80 + 90 = 240, least at
        // (−8, 21.5) 40 + 40 + 90 = 170, most at (−5, 24.5) 100 + 120 + 90 = 310. The variance of 7 steps of 10 is
        // 400, of 7 steps of 40/3 is 711.1; with n − 1 of 49: √(1111.1 · 49/48) = 33.7. Area 9 mm².
        assertEquals(
                "mean 240\u2009HU, SD 34, median 240, 170 to 310, 9\u2009mm², 49 pixels",
                words(Marks.region(Kind.RECTANGLE, Marks.AXIAL, -8, 21.5, -5, 24.5)));
    }

    @Test
    void readsTheSameFromWhicheverCornerItWasDrawn() {
        String wished = words(Marks.region(Kind.ELLIPSE, Marks.AXIAL, -8, 21.5, -5, 24.5));
        assertEquals(wished, words(Marks.region(Kind.ELLIPSE, Marks.AXIAL, -5, 24.5, -8, 21.5)));
        assertEquals(wished, words(Marks.region(Kind.ELLIPSE, Marks.AXIAL, -8, 24.5, -5, 21.5)));
    }

    @Test
    void readsAPolygonLikeTheRectangleOfTheSameCorners() {
        // By hand: corners off the sampled places, so that no pixel lies on a side: the pixels of the rectangle are
        // those
        // from (−8, 21.5) to (−5.5, 24), 6 by 6.
        String rectangle = words(Marks.region(Kind.RECTANGLE, Marks.AXIAL, -8, 21.5, -5.3, 24.2));
        String polygon = words(Marks.region(Kind.POLYGON, Marks.AXIAL, -8, 21.5, -5.3, 21.5, -5.3, 24.2, -8, 24.2));
        assertTrue(rectangle.contains("36 pixels"), rectangle);
        assertEquals(rectangle, polygon);
    }

    @Test
    void saysThatFewPixelsMeanLittle() {
        // By hand: 1 mm by 0.5 mm hold 3 by 2 pixels of 0.5 mm with those on the sides.
        String words = words(Marks.region(Kind.RECTANGLE, Marks.AXIAL, -8, 21.5, -7, 22));
        assertTrue(words.endsWith("6 pixels; too few pixels to mean much"), words);
    }

    @Test
    void givesNoNumberForAPolygonWithoutInside() {
        String none = "the outline crosses itself or is a mere line: it has no inside";
        assertEquals(none, words(Marks.region(Kind.POLYGON, Marks.AXIAL, -8, 21.5, -6, 23.5, -4, 25.5)));
        // While a polygon is being drawn its third corner begins on the second.
        assertEquals(none, words(Marks.region(Kind.POLYGON, Marks.AXIAL, -8, 21.5, -6, 23.5, -6, 23.5)));
        assertEquals(none, words(Marks.region(Kind.POLYGON, Marks.AXIAL, -8, 21, -5, 24, -5, 21, -8, 24)));
    }

    @Test
    void givesNoNumberForARegionWithoutExtent() {
        assertEquals("the region has no extent", words(Marks.region(Kind.ELLIPSE, Marks.AXIAL, -8, 21, -8, 24)));
    }

    @Test
    void countsPixelsThatLieOutsideTheScan() {
        // By hand: from 1 mm beside the first column, y 21.5 to 24.5: 2 of 7 columns of 7 pixels have no HU.
        String words = words(Marks.region(Kind.RECTANGLE, Marks.AXIAL, -11, 21.5, -8, 24.5));
        assertTrue(words.contains("35 pixels; 14 without a value"), words);
    }

    @Test
    void readsNothingWhereTheScanIsNot() {
        String words = words(Marks.region(Kind.RECTANGLE, Marks.AXIAL, 100, 21.5, 103, 24.5));
        assertEquals("none of the 49 pixels inside lies in the image", words);
    }

    @Test
    void readsObliquePlanesAlongTheirOwnAxes() {
        // By hand: on axes turned by 90° the same corners span the same square.
        CutAxes turned = new CutAxes(PatientVector.POSTERIOR, PatientVector.LEFT.times(-1));
        assertEquals(
                words(Marks.region(Kind.RECTANGLE, Marks.AXIAL, -8, 21.5, -5, 24.5)),
                words(Marks.region(Kind.RECTANGLE, turned, -8, 21.5, -5, 24.5)));
    }

    @Test
    void saysThatImagesAreNotThere() {
        ImageMark region = Marks.region(Kind.RECTANGLE, Marks.AXIAL, -8, 21.5, -5, 24.5);
        assertEquals(
                "the exam's images are not there now",
                MarkReading.of(region, Optional.empty()).words());
    }
}
