package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleBinaryOperator;
import java.util.stream.IntStream;
import org.holdfast.construct.CylinderPatch;
import org.holdfast.construct.PatchSample;
import org.holdfast.construct.PlanePatch;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.junit.jupiter.api.Test;

/** Which samples count as changed: borders of strong changes, spots of noise, samples that cannot be compared. */
class ChangedSpotsTest {

    private static final double SPACING_MM = 0.5;
    private static final double ERROR_HU = 10;
    /** The disc over which differences are smoothed, 2 mm wide. */
    private static final double DISC_MM2 = Math.PI;

    private static final List<PatchSample> SAMPLES = new PlanePatch(
                    PlanePatch.Outline.RECTANGLE,
                    PatientPoint.ORIGIN,
                    PatientVector.LEFT,
                    PatientVector.POSTERIOR,
                    PatientVector.CRANIAL,
                    8,
                    8)
            .samples(SPACING_MM);

    private static ChangeReading.Kind[] classes(DoubleBinaryOperator differenceHu) {
        double[] difference = SAMPLES.stream()
                .mapToDouble(s -> differenceHu.applyAsDouble(s.uMm(), s.vMm()))
                .toArray();
        double[] error = new double[SAMPLES.size()];
        Arrays.fill(error, ERROR_HU);
        return new ChangedSpots(SAMPLES, difference, error, 1.96)
                .classes(new SurfaceNeighbours(SAMPLES, 2.5), new SurfaceNeighbours(SAMPLES, 0.8), DISC_MM2);
    }

    private static double shareOf(ChangeReading.Kind[] kinds, ChangeReading.Kind kind) {
        return (double) Arrays.stream(kinds).filter(k -> k == kind).count() / kinds.length;
    }

    @Test
    void aStrongChangeEndsWhereItFallsToHalf() {
        // A change of 300 HU for u > 0 whose border is blurred by σ = 0.7 mm: at u = −0.75 mm it still reads 43 HU.
        ChangeReading.Kind[] kinds = classes((u, v) -> 300 * ProfileModel.normalCdf(u / 0.7));
        ChangeReading.Kind[] expected = SAMPLES.stream()
                .map(s -> s.uMm() > 0 ? ChangeReading.Kind.MORE : ChangeReading.Kind.NONE)
                .toArray(ChangeReading.Kind[]::new);
        assertArrayEquals(expected, kinds);
    }

    @Test
    void aWeakChangeBesideAStrongOneStays() {
        ChangeReading.Kind[] kinds = classes((u, v) -> u > 0 ? -300 : -60);
        // By hand: both are over 1.96 · 10 HU, everywhere.
        assertEquals(1, shareOf(kinds, ChangeReading.Kind.LESS), 0);
    }

    @Test
    void oppositeChangesMeetWithoutGap() {
        ChangeReading.Kind[] kinds = classes((u, v) -> u > 0 ? 100 : -100);
        // By hand: half of 32 columns each.
        assertEquals(0.5, shareOf(kinds, ChangeReading.Kind.MORE), 0);
        // By hand: as above.
        assertEquals(0.5, shareOf(kinds, ChangeReading.Kind.LESS), 0);
    }

    @Test
    void aSpotSmallerThanTheDiscIsNoChange() {
        // By hand: within 0.8 mm of a place there are at most 2.0 mm² of samples, under the disc's 3.1 mm².
        ChangeReading.Kind[] small = classes((u, v) -> Math.hypot(u, v) < 0.8 ? 35 : 0);
        assertEquals(1, shareOf(small, ChangeReading.Kind.NONE), 0);
        ChangeReading.Kind[] large = classes((u, v) -> Math.hypot(u, v) < 1.6 ? 35 : 0);
        assertTrue(shareOf(large, ChangeReading.Kind.MORE) > 0);
    }

    @Test
    void whatCannotBeComparedIsSaid() {
        ChangeReading.Kind[] kinds = classes((u, v) -> u > 0 ? Double.NaN : 0);
        // By hand: half of 32 columns.
        assertEquals(0.5, shareOf(kinds, ChangeReading.Kind.NOT_COMPARABLE), 0);
    }

    @Test
    void smoothingKeepsLevelsAndGaps() {
        SurfaceNeighbours disc = new SurfaceNeighbours(SAMPLES, 1);
        double[] values =
                SAMPLES.stream().mapToDouble(s -> s.uMm() > 6 ? Double.NaN : 40).toArray();
        double[] smooth = disc.smoothed(values);
        for (int n : IntStream.range(0, values.length).toArray()) {
            // By hand: the mean of equal values is that value; what is not there stays away.
            assertEquals(values[n], smooth[n], 1e-9);
        }
    }

    @Test
    void theTwoSidesOfAPlateAreNoNeighbours() {
        PatchSample above = SAMPLES.get(0);
        PatchSample below = new PatchSample(
                above.point().along(above.normal(), -0.5),
                above.normal().times(-1),
                above.areaMm2(),
                above.uMm(),
                above.vMm());
        SurfaceNeighbours plate = new SurfaceNeighbours(List.of(above, below), 1);
        assertArrayEquals(new int[] {0}, plate.of(0));
        assertArrayEquals(new int[] {1}, plate.of(1));
    }

    @Test
    void neighboursGoRoundACurvedFace() {
        List<PatchSample> ring =
                new CylinderPatch(new PatientPoint(0, 0, -10), new PatientPoint(0, 0, 10), 3).samples(SPACING_MM);
        SurfaceNeighbours disc = new SurfaceNeighbours(ring, 1);
        for (int n = 0; n < ring.size(); n++) {
            if (Math.abs(ring.get(n).point().z()) < 8.5) {
                double area = Arrays.stream(disc.of(n))
                        .mapToDouble(m -> ring.get(m).areaMm2())
                        .sum();
                // Phantom: a disc of radius 1 mm, 3.14 mm²; what lies on its border may be in or out.
                assertEquals(Math.PI, area, 0.8);
            }
        }
    }
}
