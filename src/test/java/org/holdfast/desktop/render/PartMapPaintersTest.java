package org.holdfast.desktop.render;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.construct.BoxShape;
import org.holdfast.construct.ScrewShape;
import org.holdfast.desktop.render.StraightenedPainter.BreakAt;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.figure.Face;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.measure.ScrewLucency.Sector;
import org.holdfast.measure.ScrewLucency.Station;
import org.holdfast.measure.ScrewLucency.Zone;
import org.holdfast.measure.Stated;
import org.holdfast.volume.CutPlane;
import org.junit.jupiter.api.Test;

/** The unrolled zone, the straightened part and the outline of the construct, pixel by pixel where it matters. */
class PartMapPaintersTest {

    private static final Face.GapLimits LIMITS = new Face.GapLimits(1, 2);
    private static final PixelSize SIZE = new PixelSize(400, 200);
    private static final ScrewShape SCREW =
            new ScrewShape(new PatientPoint(0, 0, 0), new PatientPoint(0, -40, 0), 6, "l2", 10, 40);

    /** Sectors of 30° and 1 mm; one width in the cranial half, another in the caudal. */
    private static Zone zone(double cranialMm, double caudalMm) {
        List<Sector> sectors = new ArrayList<>();
        List<Station> stations = new ArrayList<>();
        for (double at = 10.5; at < 40; at++) {
            Stated mean = Stated.of((cranialMm + caudalMm) / 2);
            stations.add(new Station(at, mean, mean, Stated.of(0.1), false));
            for (double angle = 15; angle < 360; angle += 30) {
                boolean isCranial = angle < 90 || angle > 270;
                OptionalDouble width = OptionalDouble.of(isCranial ? cranialMm : caudalMm);
                sectors.add(new Sector(at, 1, angle, 30, width, OptionalDouble.of(0.1), ""));
            }
        }
        Stated any = Stated.of(1);
        return new Zone(any, any, any, any, any, 0, any, any, any, any, false, false, stations, sectors);
    }

    private static MapPicture paint(Zone zone) {
        return ZoneMapPainter.paint(
                zone,
                SCREW,
                LIMITS,
                zone.sectors().stream().map(Object::toString).toList(),
                SIZE);
    }

    private static int count(Picture picture, int fromY, int toY, int colour) {
        int count = 0;
        for (int y = fromY; y < toY; y++) {
            for (int x = 0; x < picture.width(); x++) {
                count += picture.at(x, y) == (0xFF000000 | colour) ? 1 : 0;
            }
        }
        return count;
    }

    @Test
    void cranialLiesInTheMiddleOfTheUnrolledScrew() {
        Picture picture = paint(zone(0.1, 2.5)).picture();
        // By hand: the map takes the lower 68 % of 200 pixels, from 67 to 197; its middle half is 100 to 164
        assertTrue(count(picture, 100, 164, FaceClass.CONTACT.colour()) > 5000);
        assertEquals(0, count(picture, 67, 98, FaceClass.CONTACT.colour()));
        assertEquals(0, count(picture, 167, 200, FaceClass.CONTACT.colour()));
        assertTrue(count(picture, 67, 98, FaceClass.WIDE_GAP_OR_NO_BONE.colour()) > 500);
    }

    @Test
    void classesOfAZonePartAtTheSettingsLimit() {
        assertEquals(FaceClass.CONTACT, ZoneMapPainter.classOf(OptionalDouble.of(0.49), LIMITS));
        assertEquals(FaceClass.NARROW_GAP, ZoneMapPainter.classOf(OptionalDouble.of(0.99), LIMITS));
        assertEquals(FaceClass.GAP, ZoneMapPainter.classOf(OptionalDouble.of(1.01), LIMITS));
        assertEquals(FaceClass.WIDE_GAP_OR_NO_BONE, ZoneMapPainter.classOf(OptionalDouble.of(2.01), LIMITS));
        assertEquals(FaceClass.CANNOT_TELL, ZoneMapPainter.classOf(OptionalDouble.empty(), LIMITS));
    }

    @Test
    void aPlaceAlongTheScrewIsFoundOnItsMap() {
        MapPicture map = paint(zone(0.1, 0.1));
        assertEquals(Optional.of(new PatientVector(0, -1, 0)), map.right());
        assertEquals(Optional.empty(), map.down());
        for (MapPicture.Cell cell : map.cells()) {
            double atMm = (cell.x() - map.referenceX()) * map.mmPerPixel();
            assertTrue(cell.words().contains("atMm=" + Math.round(10 * atMm) / 10.0), cell.words());
        }
    }

    @Test
    void refusesSectorsWithoutWords() {
        assertThrows(
                IllegalArgumentException.class, () -> ZoneMapPainter.paint(zone(1, 1), SCREW, LIMITS, List.of(), SIZE));
    }

    private static StraightenedPainter.Part part(List<BreakAt> breaks) {
        List<StraightenedPainter.Station> stations = new ArrayList<>();
        for (double at = 0; at <= 80; at += 0.5) {
            stations.add(new StraightenedPainter.Station(at, 8000, 24, at < 5, "at " + at));
        }
        float[] hu = new float[161 * 33];
        java.util.Arrays.fill(hu, 8000);
        return new StraightenedPainter.Part(Optional.of(new StraightenedImage(161, 33, 0, 0.5, hu)), stations, breaks);
    }

    private static Picture straightened(List<BreakAt> breaks) {
        return StraightenedPainter.paint(
                        part(breaks), new HuWindow(650, 2700), SCREW.head(), PatientVector.CRANIAL, SIZE)
                .picture();
    }

    @Test
    void aBreakIsMarkedBesideTheImageAndNeverOnIt() {
        int fault = 0xFF7663;
        Picture whole = straightened(List.of());
        Picture broken = straightened(List.of(new BreakAt(40, true)));
        assertEquals(0, count(whole, 0, 200, fault));
        assertTrue(count(broken, 0, 6, fault) > 0, "a tick above");
        assertTrue(count(broken, 100, 200, fault) > 60, "a line through the profile");
        // By hand: the image lies between its ticks of 5 pixels in the upper 46 % of 200 pixels
        for (int y = 7; y < 85; y++) {
            for (int x = 0; x < 400; x++) {
                assertEquals(whole.at(x, y), broken.at(x, y), x + ", " + y);
            }
        }
    }

    @Test
    void anUnconfirmedBreakHasAnotherColourAndABrokenLine() {
        Picture doubt = straightened(List.of(new BreakAt(40, false)));
        assertEquals(0, count(doubt, 0, 200, 0xFF7663));
        int confirmed = count(straightened(List.of(new BreakAt(40, true))), 100, 200, 0xFF7663);
        int pixels = count(doubt, 100, 200, 0xB9A6F5);
        assertTrue(pixels > 0 && pixels < 0.7 * confirmed, pixels + " of " + confirmed);
    }

    @Test
    void aStraightenedImageIsReadBetweenItsPlaces() {
        StraightenedImage image = new StraightenedImage(3, 3, 10, 2, new float[] {0, 10, 20, 30, 40, 50, 60, 70, 80});
        // By hand: the middle row runs 30, 40, 50 at 10, 12, 14 mm
        assertEquals(45, image.hu(13, 0), 1e-6);
        // By hand: half way to the row below, whose numbers are 30 more
        assertEquals(60, image.hu(13, 1), 1e-6);
        assertTrue(Double.isNaN(image.hu(9.9, 0)));
        assertTrue(Double.isNaN(image.hu(13, 2.1)));
    }

    @Test
    void theOutlineFollowsThePose() {
        BoxShape box = new BoxShape(
                new PatientPoint(0, 0, 0),
                List.of(PatientVector.LEFT, PatientVector.POSTERIOR, PatientVector.CRANIAL),
                List.of(10.0, 10.0, 10.0));
        CutPlane plane = CutPlane.centredOn(
                new PatientPoint(0, 0, 0), PatientVector.LEFT, PatientVector.POSTERIOR, 0.5, 100, 100);
        Picture black = new Picture(100, 100, new int[100 * 100]);
        int line = 0xFFFFF1D0;
        Picture there = new ConstructOutline(List.of(box), RigidTransform.IDENTITY).over(black, plane);
        int left = firstLine(there, line);
        RigidTransform moved = RigidTransform.translation(new PatientVector(2, 0, 0));
        Picture shifted = new ConstructOutline(List.of(box), moved.inverse()).over(black, plane);
        // By hand: 2 mm to the left side of the patient are 4 pixels to the right of the picture
        assertEquals(left + 4, firstLine(shifted, line));
        assertEquals(0, black.at(left, 50), "the picture given stays as it is");
    }

    private static int firstLine(Picture picture, int colour) {
        for (int x = 0; x < picture.width(); x++) {
            if (picture.at(x, 50) == colour) {
                return x;
            }
        }
        throw new AssertionError("no outline");
    }
}
