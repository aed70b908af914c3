package org.holdfast.desktop.render;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.holdfast.construct.CutAxes;
import org.holdfast.construct.CylinderPatch;
import org.holdfast.construct.Patch;
import org.holdfast.construct.PatchSample;
import org.holdfast.construct.PlanePatch;
import org.holdfast.construct.SpherePatch;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.measure.SampleReading;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FaceMapPainterTest {

    private static final PatientVector X = PatientVector.LEFT;
    private static final PatientVector Y = PatientVector.POSTERIOR;
    private static final PatientVector Z = PatientVector.CRANIAL;
    private static final PatientPoint CENTRE = new PatientPoint(5, -40, 70);
    /** Seen from above: the patient's left on the right, posterior down. */
    private static final CutAxes FROM_ABOVE = new CutAxes(X, Y);
    /** Seen from the front: the patient's left on the right, caudal down. */
    private static final CutAxes FROM_FRONT = new CutAxes(X, Z.times(-1));

    private static PlanePatch plane(PlanePatch.Outline outline) {
        // u and v run against the picture's directions, so that a map by u and v would come out mirrored.
        return new PlanePatch(outline, CENTRE, Y.times(-1), X.times(-1), Z, 10, 12);
    }

    private static MapPicture paint(
            Patch patch,
            double spacingMm,
            Function<PatchSample, SampleReading> reading,
            CutAxes faceOn,
            PixelSize size) {
        List<SampleReading> readings = SampleReadings.of(patch, spacingMm, reading);
        return FaceMapPainter.paint(SampleReadings.cells(readings), List.of(patch), faceOn, size);
    }

    private static PatchSample sampleOf(MapPicture.Cell cell, Patch patch) {
        return patch.samples(1).get(Integer.parseInt(cell.words()));
    }

    private static int count(Picture picture, int colour) {
        int count = 0;
        for (int pixel : picture.argb()) {
            count += pixel == (0xFF000000 | colour) ? 1 : 0;
        }
        return count;
    }

    /** A quarter of the face each, from left to right on the picture: contact, narrow gap, gap, no bone. */
    private static SampleReading quarter(PatchSample sample) {
        double left = sample.point().x() - CENTRE.x();
        return left < -6
                ? SampleReadings.contact(sample, false)
                : left < 0
                        ? SampleReadings.gap(sample, 1.0)
                        : left < 6 ? SampleReadings.gap(sample, 2.0) : SampleReadings.noBone(sample);
    }

    @Test
    void givesEachClassItsColourAndSize() {
        MapPicture map = paint(
                plane(PlanePatch.Outline.RECTANGLE),
                1,
                FaceMapPainterTest::quarter,
                FROM_ABOVE,
                new PixelSize(900, 800));

        // By hand: 24 · 20 samples, a quarter of them each; every mark of a class has the same whole number of pixels
        int marks = 120;
        double cell = map.cells().get(0).width();
        double full = Math.floor(cell) - Math.max(1, Math.rint(0.08 * cell));
        for (FaceClass each :
                List.of(FaceClass.CONTACT, FaceClass.NARROW_GAP, FaceClass.GAP, FaceClass.WIDE_GAP_OR_NO_BONE)) {
            double side = Math.rint(each.share() * full);
            // The patch's outline may lie over the last row of pixels of a mark at the border.
            assertEquals(marks * side * side, count(map.picture(), each.colour()), 44 * full, each.name());
        }
    }

    @Test
    void liesAsTheFaceIsLookedAt() {
        MapPicture map = paint(
                plane(PlanePatch.Outline.RECTANGLE),
                1,
                sample -> sample.point().x() > CENTRE.x() + 6 && sample.point().y() > CENTRE.y() + 5
                        ? SampleReadings.contact(sample, false)
                        : SampleReadings.noBone(sample),
                FROM_ABOVE,
                new PixelSize(400, 300));

        Picture picture = map.picture();
        for (int y = 0; y < picture.height(); y++) {
            for (int x = 0; x < picture.width(); x++) {
                boolean isContact = picture.at(x, y) == (0xFF000000 | FaceClass.CONTACT.colour());
                // By hand: left and posterior is the lower right corner, a quarter of the face each way
                assertTrue(!isContact || x > 200 + 40 && y > 150 + 40, x + ", " + y);
            }
        }
        assertTrue(count(picture, FaceClass.CONTACT.colour()) > 1000);
        assertEquals(Optional.of(X), map.right());
        assertEquals(Optional.of(Y), map.down());
    }

    @Test
    void tellsWhereAPlaceLies() {
        PlanePatch face = plane(PlanePatch.Outline.ELLIPSE);
        MapPicture map = paint(face, 1, FaceMapPainterTest::quarter, FROM_ABOVE, new PixelSize(400, 300));

        for (MapPicture.Cell cell : map.cells()) {
            PatientPoint place = map.reference()
                    .along(X, (cell.x() - map.referenceX()) * map.mmPerPixel())
                    .along(Y, (cell.y() - map.referenceY()) * map.mmPerPixel());
            // Phantom: a flat face seen straight on; rounding of some products
            assertEquals(0, place.distanceTo(sampleOf(cell, face).point()), 1e-9);
            assertSame(cell.words(), map.wordsAt(cell.x(), cell.y()).orElseThrow());
        }
        assertEquals(Optional.empty(), map.wordsAt(2, 2));
    }

    @ParameterizedTest
    @CsvSource({"ELLIPSE, 0.5", "ELLIPSE, 2.7", "RECTANGLE, 0.5", "RECTANGLE, 1.3"})
    void cellsNeverOverlap(PlanePatch.Outline outline, double spacingMm) {
        MapPicture map =
                paint(plane(outline), spacingMm, FaceMapPainterTest::quarter, FROM_ABOVE, new PixelSize(231, 112));

        List<MapPicture.Cell> cells = map.cells();
        for (int n = 0; n < cells.size(); n++) {
            MapPicture.Cell a = cells.get(n);
            assertTrue(a.x() - a.width() / 2 >= 0 && a.x() + a.width() / 2 <= 231 && a.y() + a.width() / 2 <= 112);
            for (int m = n + 1; m < cells.size(); m++) {
                MapPicture.Cell b = cells.get(m);
                double apart = Math.max(Math.abs(a.x() - b.x()), Math.abs(a.y() - b.y()));
                // Rounding of pixel places up to 231
                assertTrue(apart >= (a.width() + b.width()) / 2 - 1e-9, n + " and " + m);
            }
        }
    }

    @Test
    void bridgedStaysTheLightestInSmallMaps() {
        PixelSize small = new PixelSize(150, 84);
        MapPicture bridged = paint(
                plane(PlanePatch.Outline.RECTANGLE), 0.5, s -> SampleReadings.contact(s, true), FROM_ABOVE, small);
        MapPicture contact = paint(
                plane(PlanePatch.Outline.RECTANGLE), 0.5, s -> SampleReadings.contact(s, false), FROM_ABOVE, small);

        for (int y = 30; y < 54; y++) {
            for (int x = 60; x < 90; x++) {
                assertTrue(green(bridged.picture(), x, y) > green(contact.picture(), x, y), x + ", " + y);
            }
        }
    }

    private static int green(Picture picture, int x, int y) {
        return picture.at(x, y) >> 8 & 0xFF;
    }

    @Test
    void marksWhatCannotBeToldByAStroke() {
        for (PixelSize size : List.of(new PixelSize(150, 84), new PixelSize(900, 800))) {
            MapPicture map =
                    paint(plane(PlanePatch.Outline.RECTANGLE), 0.5, SampleReadings::cannotTell, FROM_ABOVE, size);

            assertTrue(count(map.picture(), FaceClass.CANNOT_TELL.colour()) > 100, size.toString());
            assertTrue(count(map.picture(), FaceClass.STROKE) > 100, size.toString());
        }
    }

    @Test
    void unrollsACylinderWithTheNearSideInTheMiddle() {
        CylinderPatch cylinder = new CylinderPatch(CENTRE, CENTRE.along(Z, 30), 3);
        // Contact on the front, towards the head; the viewer stands in front.
        MapPicture map = paint(
                cylinder,
                1,
                s -> s.normal().y() < -0.8 && s.point().z() > CENTRE.z() + 20
                        ? SampleReadings.contact(s, false)
                        : SampleReadings.noBone(s),
                FROM_FRONT,
                new PixelSize(200, 300));

        double left = Double.POSITIVE_INFINITY;
        double right = Double.NEGATIVE_INFINITY;
        for (MapPicture.Cell cell : map.cells()) {
            PatchSample sample = sampleOf(cell, cylinder);
            if (sample.normal().y() < -0.8 && sample.point().z() > CENTRE.z() + 20) {
                assertTrue(cell.y() < 110, "towards the head is up");
                left = Math.min(left, cell.x());
                right = Math.max(right, cell.x());
            }
            // By hand: the patient's left side, out at +x, is unrolled to the right
            if (sample.normal().x() > 0.5) {
                assertTrue(cell.x() > 100);
            }
        }
        // By hand: the front is the middle of 200 pixels; cells need not lie evenly about it, half a cell at most
        assertEquals(100, (left + right) / 2, map.cells().get(0).width() / 2);
        assertEquals(Optional.empty(), map.right());
        assertEquals(Optional.of(Z.times(-1)), map.down());
        // Phantom: 30 mm long and 2π·3 mm round
        double longest = map.cells().stream()
                        .mapToDouble(MapPicture.Cell::y)
                        .max()
                        .orElseThrow()
                - map.cells().stream().mapToDouble(MapPicture.Cell::y).min().orElseThrow();
        assertEquals(29, longest * map.mmPerPixel(), 1e-6);
    }

    @Test
    void keepsALyingCylinderLying() {
        CylinderPatch cylinder = new CylinderPatch(CENTRE, CENTRE.along(X, 40), 3);
        MapPicture map = paint(cylinder, 1, SampleReadings::noBone, FROM_FRONT, new PixelSize(300, 150));

        for (MapPicture.Cell cell : map.cells()) {
            double alongMm = sampleOf(cell, cylinder).point().x() - CENTRE.x() - 20;
            // Phantom: the axis runs along the picture; rounding of pixel places up to 300
            assertEquals(alongMm, (cell.x() - map.referenceX()) * map.mmPerPixel(), 1e-9);
        }
        assertEquals(Optional.of(X), map.right());
        assertEquals(Optional.empty(), map.down());
    }

    @Test
    void drawsACapSoThatItsMiddleAgreesWithTheView() {
        SpherePatch cap = new SpherePatch(CENTRE, 12, Z, 60);
        MapPicture map = paint(
                cap,
                1,
                s -> SampleReadings.contact(s, s.point().x() > CENTRE.x()),
                FROM_ABOVE,
                new PixelSize(300, 300));

        for (MapPicture.Cell cell : map.cells()) {
            PatientPoint point = sampleOf(cell, cap).point();
            // By hand: the patient's left lies right of the middle, posterior below it
            assertTrue((point.x() - CENTRE.x()) * (cell.x() - 150) >= -1e-9, point.toString());
            assertTrue((point.y() - CENTRE.y()) * (cell.y() - 150) >= -1e-9, point.toString());
        }
    }

    @Test
    void drawsOnlyTheOutlineOfAFaceWithoutReadings() {
        MapPicture map = FaceMapPainter.paint(
                List.of(), List.of(plane(PlanePatch.Outline.RECTANGLE)), FROM_ABOVE, new PixelSize(100, 80));

        assertFalse(map.cells().iterator().hasNext());
        assertTrue(count(map.picture(), FaceClass.WELL) > 6000);
        assertTrue(count(map.picture(), FaceClass.WELL) < 8000);
    }

    @Test
    void paintsALegendsMark() {
        Picture swatch = FaceMapPainter.swatch(FaceClass.GAP, 14);

        // By hand: 14 px leave 13 for a full square, 58 % of it is 7.54, drawn as 8 · 8
        assertEquals(64, count(swatch, FaceClass.GAP.colour()));
    }

    @Test
    void refusesAMapOfNothing() {
        assertThrows(
                IllegalArgumentException.class,
                () -> FaceMapPainter.paint(List.of(), List.of(), FROM_ABOVE, new PixelSize(100, 80)));
        assertThrows(
                IllegalArgumentException.class,
                () -> FaceMapPainter.paint(
                        List.of(), List.of(plane(PlanePatch.Outline.ELLIPSE)), FROM_ABOVE, new PixelSize(0, 80)));
    }
}
