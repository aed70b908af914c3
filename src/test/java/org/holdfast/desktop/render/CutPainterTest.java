package org.holdfast.desktop.render;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Optional;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.Cut;
import org.holdfast.volume.CutPlane;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.Reslicer;
import org.junit.jupiter.api.Test;

class CutPainterTest {

    private static Picture paint(HuVolume volume, CutPlane plane, HuWindow window) {
        Cut cut = Reslicer.cut(volume, plane, Optional.empty());
        return CutPainter.paint(cut, volume.grid(), window);
    }

    /** One row along x at z = 0, from x = first on in steps of 1 mm. */
    private static CutPlane row(double first, int width) {
        return new CutPlane(new PatientPoint(first, 2, 0), PatientVector.LEFT, PatientVector.POSTERIOR, width, 1);
    }

    private static int grey(int level) {
        return 0xFF000000 | level << 16 | level << 8 | level;
    }

    @Test
    void rampsLinearlyFromBlackToWhite() {
        Picture picture = paint(TestVolumes.ramp(), row(0, 12), new HuWindow(50, 51));

        // By hand: HU 0…110 in steps of 10, round(255·((HU − 50)/51 + ½)) = round(5·HU − 122.5), halves up
        int[] expected = {
            grey(0), grey(0), grey(0), grey(28), grey(78), grey(128), grey(178), grey(228), grey(255), grey(255),
            grey(255), grey(255)
        };
        assertArrayEquals(expected, picture.argb());
    }

    @Test
    void clampsAtTheEndsOfTheWindow() {
        Picture picture = paint(TestVolumes.ramp(), row(0, 12), new HuWindow(55, 1));

        // By hand: 50 HU lies under 54.5, 60 over 55.5
        assertEquals(grey(0), picture.at(5, 0));
        assertEquals(grey(255), picture.at(6, 0));
    }

    @Test
    void givesNoImageItsOwnTone() {
        Picture picture = paint(TestVolumes.ramp(), row(-2, 16), TestVolumes.WINDOW);

        // By hand: x = −2, −1 and 12, 13 lie outside the columns 0…11
        assertEquals(CutPainter.NO_IMAGE, picture.at(0, 0));
        assertEquals(CutPainter.NO_IMAGE, picture.at(1, 0));
        assertEquals(CutPainter.NO_IMAGE, picture.at(14, 0));
        assertEquals(0xFF, picture.at(2, 0) >>> 24);
        assertEquals(picture.at(2, 0) & 0xFF, picture.at(2, 0) >> 8 & 0xFF);
    }

    @Test
    void hatchesOnlyTheMissingStretch() {
        // Slices at 0, 1, 2, 8, 9, 10 mm: 2 to 8 mm is missing. The cut: x to the right, z downwards, z = −3…13.
        HuVolume volume = TestVolumes.ramp(0, 0, 1, 2, 8, 9, 10);
        CutPlane plane = new CutPlane(new PatientPoint(-6, 4, -3), PatientVector.LEFT, PatientVector.CRANIAL, 24, 17);
        Picture picture = paint(volume, plane, TestVolumes.WINDOW);

        int strokes = 0;
        for (int y = 0; y < 17; y++) {
            for (int x = 0; x < 24; x++) {
                boolean missing = x >= 6 && x <= 17 && y > 5 && y < 11;
                boolean stroke = picture.at(x, y) == CutPainter.HOLE_STROKE;
                strokes += stroke ? 1 : 0;
                // By hand: columns 0…11 are pixels 6…17, heights 2 to 8 mm are rows 5 to 11, every sixth is stroked
                assertEquals(missing && (x + y) % 6 == 0, stroke, x + ", " + y);
            }
        }
        // By hand: 12 columns hold each remainder twice, on 5 rows
        assertEquals(10, strokes);
    }
}
