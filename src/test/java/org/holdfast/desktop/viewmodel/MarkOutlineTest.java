package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.holdfast.construct.CutAxes;
import org.holdfast.desktop.state.ImageMark;
import org.holdfast.desktop.state.ImageMark.RegionMark.Kind;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.junit.jupiter.api.Test;

class MarkOutlineTest {

    private static final double ROUNDING_MM = 1e-9;

    @Test
    void joinsTheEndsOfALength() {
        ImageMark mark = Marks.length(Marks.at(0, 21), Marks.at(3, 25));
        assertEquals(List.of(Marks.at(0, 21), Marks.at(3, 25)), MarkOutline.of(mark));
        assertFalse(MarkOutline.isClosed(mark));
    }

    @Test
    void turnsARectangleWithTheCutOnWhichItWasDrawn() {
        // By hand: axes turned by 45°; the diagonal from (0, 22) to (4, 22) has equal parts along both, so the corners
        // between lie 2 mm above and below its middle (2, 22).
        CutAxes turned = new CutAxes(new PatientVector(1, 1, 0), new PatientVector(-1, 1, 0));
        ImageMark mark = Marks.region(Kind.RECTANGLE, turned, 0, 22, 4, 22);
        List<PatientPoint> corners = MarkOutline.of(mark);
        assertEquals(4, corners.size());
        assertEquals(0, corners.get(0).distanceTo(Marks.at(0, 22)), ROUNDING_MM);
        assertEquals(0, corners.get(1).distanceTo(Marks.at(2, 24)), ROUNDING_MM);
        assertEquals(0, corners.get(2).distanceTo(Marks.at(4, 22)), ROUNDING_MM);
        assertEquals(0, corners.get(3).distanceTo(Marks.at(2, 20)), ROUNDING_MM);
        assertTrue(MarkOutline.isClosed(mark));
    }

    @Test
    void keepsTheCornersOfAnEllipseOnIt() {
        // By hand: half axes 3 and 1.5 mm around (−2, 24.5); on the ellipse (x/3)² + (y/1.5)² = 1.
        ImageMark mark = Marks.region(Kind.ELLIPSE, Marks.AXIAL, -5, 23, 1, 26);
        List<PatientPoint> corners = MarkOutline.of(mark);
        assertEquals(72, corners.size());
        for (PatientPoint corner : corners) {
            double x = (corner.x() + 2) / 3;
            double y = (corner.y() - 24.5) / 1.5;
            assertEquals(1, x * x + y * y, ROUNDING_MM);
            assertEquals(Marks.HEIGHT, corner.z(), ROUNDING_MM);
        }
    }
}
