package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.construct.Axes;
import org.holdfast.construct.Bone;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.BoxShape;
import org.holdfast.construct.Component;
import org.holdfast.construct.ComponentKind;
import org.holdfast.construct.Construct;
import org.holdfast.construct.Filler;
import org.holdfast.construct.Material;
import org.holdfast.construct.PlanePatch;
import org.holdfast.construct.Porous;
import org.holdfast.construct.RodShape;
import org.holdfast.construct.Shape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.phantom.Body;
import org.holdfast.phantom.Box;
import org.holdfast.phantom.HuScale;
import org.holdfast.phantom.PointSpread;
import org.holdfast.phantom.RoundRod;
import org.holdfast.phantom.ScanSettings;
import org.holdfast.phantom.ScanSimulator;
import org.holdfast.phantom.Scene;
import org.holdfast.progress.Progress;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.VolumeGrid;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PointSpreadFromEdgesTest {

    /** The goal of the measurement definitions' task for phantoms: within 5 %. */
    private static final double GOAL = 0.05;

    private static final List<PatientPoint> ROD =
            List.of(new PatientPoint(9.2, 3.1, -14), new PatientPoint(9.9, 3.4, 14));
    private static final double ROD_MM = 5.5;
    /** A rod is laid out by hand this far from where it lies. */
    private static final double LAID_OUT_OFF_MM = 0.2;

    @ParameterizedTest
    @CsvSource({
        "0.30, 0.35, EXTENDED_30710",
        "0.40, 0.45, EXTENDED_30710",
        "0.50, 0.40, EXTENDED_30710",
        "0.30, 0.35, CLIPPED_3071",
        "0.40, 0.45, CLIPPED_3071",
        "0.50, 0.40, CLIPPED_3071"
    })
    void findsTheBlurOfTheScan(double inPlane, double along, HuScale scale) {
        ExamScan exam = scan(inPlane, along, scale);
        PointSpreadEstimate found = PointSpreadFromEdges.of(construct(), exam, MeasurementSettings.withDefaults());
        assertEquals(PointSpreadEstimate.Source.IMPLANT_EDGES, found.source());
        // Phantom: the blur with which it was scanned.
        assertEquals(inPlane, found.sigmaInPlaneMm(), GOAL * inPlane);
        // Phantom: the same along the table.
        assertEquals(along, found.sigmaAlongTableMm(), GOAL * along);
        assertTrue(found.seMm().value().orElseThrow() < GOAL * inPlane);
    }

    private static ExamScan scan(double inPlane, double along, HuScale scale) {
        List<PatientPoint> origins = new ArrayList<>();
        for (int k = 0; k < 52; k++) {
            origins.add(new PatientPoint(-13, -13, -17 + 0.65 * k));
        }
        VolumeGrid grid = new VolumeGrid(66, 62, 0.42, 0.42, PatientVector.LEFT, PatientVector.POSTERIOR, origins);
        Scene scene = Scene.of(50)
                .with(Body.of(
                        "bone",
                        new Box(
                                new PatientPoint(-5, 0, 9.4),
                                PatientVector.LEFT,
                                PatientVector.POSTERIOR,
                                PatientVector.CRANIAL,
                                7,
                                9,
                                8),
                        180))
                .with(Body.shelled(
                        "body",
                        new Box(
                                new PatientPoint(-5, 0, -5),
                                PatientVector.LEFT,
                                PatientVector.POSTERIOR,
                                PatientVector.CRANIAL,
                                6,
                                8,
                                5),
                        2.5,
                        2100,
                        7400))
                .with(Body.of("rod", new RoundRod(ROD, 0.5 * ROD_MM), 7400));
        return new ExamScan(
                "scan",
                "1.2.3",
                "00",
                ScanSimulator.scan(
                        scene,
                        new ScanSettings(grid, new PointSpread(inPlane, along), 25, 20_260_202, scale),
                        Progress.NONE),
                Acquisition.unknown(),
                new PointSpreadEstimate(0.6, 0.6, PointSpreadEstimate.Source.GIVEN),
                RigidTransform.IDENTITY,
                ExamScan.PoseKind.IDENTITY);
    }

    private static Construct construct() {
        LocalDate day = LocalDate.of(2030, 1, 1);
        PlanePatch face = new PlanePatch(
                PlanePatch.Outline.RECTANGLE,
                new PatientPoint(-5, 0, 0),
                PatientVector.LEFT,
                PatientVector.POSTERIOR,
                PatientVector.CRANIAL,
                6,
                8);
        Shape body = new BoxShape(
                new PatientPoint(-5, 0, -5),
                List.of(PatientVector.LEFT, PatientVector.POSTERIOR, PatientVector.CRANIAL),
                List.of(6.0, 8.0, 5.0));
        Shape rod = new RodShape(
                ROD.stream()
                        .map(p -> p.plus(new PatientVector(LAID_OUT_OFF_MM, 0, 0)))
                        .toList(),
                ROD_MM);
        return new Construct(
                "edges",
                1,
                day,
                "1.2.3",
                "1.2.4",
                new Axes(PatientPoint.ORIGIN, PatientVector.LEFT, PatientVector.POSTERIOR, PatientVector.CRANIAL),
                List.of(new Bone("host", "host bone")),
                List.of(
                        new Component(
                                "body",
                                1,
                                "body",
                                ComponentKind.VERTEBRAL_BODY,
                                Material.TITANIUM_POROUS,
                                day,
                                Optional.empty(),
                                Optional.of(new Porous(0.7, 2.5)),
                                body),
                        new Component(
                                "rod",
                                2,
                                "rod",
                                ComponentKind.MAIN_ROD,
                                Material.TITANIUM_SOLID,
                                day,
                                Optional.empty(),
                                Optional.empty(),
                                rod)),
                List.of(),
                List.of(new BoneInterface("face", 1, "face", "body", "host", Filler.NONE, List.of(face))));
    }
}
