package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.holdfast.construct.Component;
import org.holdfast.construct.ComponentKind;
import org.holdfast.construct.Material;
import org.holdfast.construct.RodShape;
import org.holdfast.construct.ScrewShape;
import org.holdfast.geometry.PatientPoint;
import org.junit.jupiter.api.Test;

class PartAxisTest {

    private static final double ROUNDING_MM = 1e-9;

    private static PartAxis rod(PatientPoint... points) {
        return PartAxis.of(
                RodScan.component(
                        "rod", 1, ComponentKind.MAIN_ROD, Material.TITANIUM_SOLID, new RodShape(List.of(points), 5.5)),
                0.25);
    }

    @Test
    void cutsAScrewEvenlyFromHeadToTip() {
        Component screw = RodScan.component(
                "screw",
                1,
                ComponentKind.PEDICLE_SCREW,
                Material.TITANIUM_SOLID,
                new ScrewShape(new PatientPoint(1, 2, 3), new PatientPoint(1, -8, 3), 6.5, "host", 1, 9));
        PartAxis axis = PartAxis.of(screw, 0.25);
        // By hand: 10 mm in steps of 0.25 mm, both ends
        assertEquals(41, axis.size());
        // By hand: a quarter of the way along −y
        assertEquals(0, axis.station(10).point().distanceTo(new PatientPoint(1, -0.5, 3)), ROUNDING_MM);
        // By hand: 10 steps
        assertEquals(2.5, axis.station(10).atMm(), ROUNDING_MM);
    }

    @Test
    void runsThroughAllPointsOfARod() {
        PatientPoint middle = new PatientPoint(0, 3, 30);
        PartAxis axis = rod(new PatientPoint(0, 0, 0), middle, new PatientPoint(0, 0, 80));
        double nearest = axis.stations().stream()
                .mapToDouble(s -> s.point().distanceTo(middle))
                .min()
                .orElseThrow();
        assertTrue(nearest <= 0.13, () -> "the curve passes the point at " + nearest + " mm");
        double sharpest = 0;
        for (int n = 1; n < axis.size(); n++) {
            sharpest = Math.max(
                    sharpest,
                    axis.station(n).along().angleDegTo(axis.station(n - 1).along()));
        }
        // By hand: the poly-line turns by 5.7 + 3.4 = 9.1° at once; the curve spreads that over tens of mm
        assertTrue(sharpest < 0.3, "a kink of " + sharpest + "°");
    }

    @Test
    void followsACircle() {
        PatientPoint[] points = new PatientPoint[5];
        for (int n = 0; n < 5; n++) {
            double angle = 0.1 * n;
            points[n] = new PatientPoint(100 * Math.cos(angle), 0, 100 * Math.sin(angle));
        }
        for (PartAxis.Station station : rod(points).stations()) {
            // Phantom: circle of 100 mm; a parabola's direction at the ends errs by the third order of 10 / 100
            assertEquals(100, station.point().distanceTo(PatientPoint.ORIGIN), 0.03);
        }
    }

    @Test
    void framesAreRightHandedAndDoNotTurnAboutTheLine() {
        PartAxis axis = rod(new PatientPoint(0, 0, 0), new PatientPoint(5, 3, 30), new PatientPoint(0, 9, 60));
        for (int n = 0; n < axis.size(); n++) {
            PartAxis.Station s = axis.station(n);
            assertEquals(1, s.along().cross(s.u()).dot(s.v()), ROUNDING_MM);
            if (n > 0) {
                PartAxis.Station before = axis.station(n - 1);
                // Turning about the line would show as u against the last v.
                assertEquals(0, s.u().dot(before.v()), 1e-4);
            }
        }
    }

    @Test
    void aPartShorterThanAStepHasBothItsEnds() {
        assertEquals(
                2, rod(new PatientPoint(0, 0, 0), new PatientPoint(0, 0, 0.2)).size());
    }
}
