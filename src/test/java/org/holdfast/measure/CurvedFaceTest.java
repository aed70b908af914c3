package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.cases.SampleMeshes;
import org.holdfast.construct.Axes;
import org.holdfast.construct.Bone;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.Component;
import org.holdfast.construct.ComponentKind;
import org.holdfast.construct.Construct;
import org.holdfast.construct.Filler;
import org.holdfast.construct.Material;
import org.holdfast.construct.MeshShape;
import org.holdfast.construct.Patch;
import org.holdfast.construct.Porous;
import org.holdfast.construct.SpherePatch;
import org.holdfast.construct.SurfacePatch;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.geometry.TriangleMesh;
import org.holdfast.phantom.Body;
import org.holdfast.phantom.HalfSpace;
import org.holdfast.phantom.HuScale;
import org.holdfast.phantom.PointSpread;
import org.holdfast.phantom.ScanSettings;
import org.holdfast.phantom.ScanSimulator;
import org.holdfast.phantom.Scene;
import org.holdfast.phantom.Solid;
import org.holdfast.phantom.Sphere;
import org.holdfast.progress.Progress;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;
import org.junit.jupiter.api.Test;

/** A curved porous body between two bones: one touches it, the other stands off. */
class CurvedFaceTest {

    private static final double RADIUS_MM = 14;
    private static final double GAP_MM = 2.2;
    private static final double FRONT_MM = 0.8;
    private static final double HALF_ANGLE_DEG = 50;
    private static final PatientPoint CENTRE = new PatientPoint(3.1, -2.2, 5.3);
    /** Between the bones the body tilts against the scanner's axes. */
    private static final PatientVector UP = new PatientVector(0.2, -0.3, 0.9).unit();

    private static final TriangleMesh MESH = SampleMeshes.sphere(CENTRE, RADIUS_MM, 5);
    private static final HuVolume SCAN = scan();

    /** Bone touches above the middle plane, and stands off by the gap under it. */
    private static HuVolume scan() {
        Solid above = new HalfSpace(CENTRE, UP.times(-1));
        Solid below = new HalfSpace(CENTRE, UP);
        Scene scene = Scene.of(220)
                .with(Body.of("front", new Sphere(CENTRE, RADIUS_MM + FRONT_MM).and(above), 700))
                .with(Body.of("front", new Sphere(CENTRE, RADIUS_MM + GAP_MM + FRONT_MM).and(below), 700))
                .with(Body.of("fluid", new Sphere(CENTRE, RADIUS_MM + GAP_MM).and(below), 30))
                .with(Body.shelled("body", new Sphere(CENTRE, RADIUS_MM), 3, 2100, 7500));
        List<PatientPoint> origins = new ArrayList<>();
        for (int k = 0; k < 84; k++) {
            origins.add(new PatientPoint(-25, -30, -20.3 + 0.6 * k));
        }
        VolumeGrid grid = new VolumeGrid(124, 124, 0.45, 0.45, PatientVector.LEFT, PatientVector.POSTERIOR, origins);
        return ScanSimulator.scan(
                scene,
                new ScanSettings(grid, new PointSpread(0.32, 0.28), 20, 501, HuScale.EXTENDED_30710),
                Progress.NONE);
    }

    private static ExamScan exam() {
        return new ExamScan(
                "curved",
                "1.2.3",
                "00",
                SCAN,
                Acquisition.unknown(),
                new PointSpreadEstimate(0.32, 0.28, PointSpreadEstimate.Source.GIVEN),
                RigidTransform.IDENTITY,
                ExamScan.PoseKind.IDENTITY);
    }

    /** A line of latitude about a pole. */
    private static List<PatientPoint> rim(PatientVector pole) {
        PatientVector u = pole.anyPerpendicular();
        PatientVector v = pole.cross(u);
        double angle = Math.toRadians(HALF_ANGLE_DEG);
        List<PatientPoint> line = new ArrayList<>();
        for (int n = 0; n < 72; n++) {
            double azimuth = Math.toRadians(5 * n);
            PatientVector out = pole.times(Math.cos(angle))
                    .plus(u.times(Math.sin(angle) * Math.cos(azimuth)))
                    .plus(v.times(Math.sin(angle) * Math.sin(azimuth)));
            line.add(CENTRE.along(out, RADIUS_MM));
        }
        return line;
    }

    private static Construct construct(Patch upper, Patch lower) {
        LocalDate day = LocalDate.of(2030, 1, 1);
        Component body = new Component(
                "body",
                1,
                "custom body",
                ComponentKind.CUSTOM_BODY,
                Material.TITANIUM_POROUS,
                day,
                Optional.empty(),
                Optional.of(new Porous(0.7, 3)),
                new MeshShape("body.ply", "0".repeat(64), Optional.of(MESH)));
        return new Construct(
                "curved",
                1,
                day,
                "1.2.3",
                "1.2.4",
                new Axes(CENTRE, PatientVector.LEFT, PatientVector.POSTERIOR, PatientVector.CRANIAL),
                List.of(new Bone("upper", "upper bone"), new Bone("lower", "lower bone")),
                List.of(body),
                List.of(),
                List.of(
                        new BoneInterface("upper-face", 1, "upper face", "body", "upper", Filler.NONE, List.of(upper)),
                        new BoneInterface(
                                "lower-face", 2, "lower face", "body", "lower", Filler.NONE, List.of(lower))));
    }

    private static void assertTouchesAboveOnly(Construct construct) {
        List<ThresholdContact> contacts = construct.interfaces().stream()
                .map(face -> new ContactByThreshold(construct, face, MeasurementSettings.withDefaults())
                        .measureReference(exam())
                        .contact())
                .toList();
        ThresholdContact upper = contacts.get(0);
        ThresholdContact lower = contacts.get(1);
        // Phantom: 2π R² (1 − cos 50°) = 440 mm²; an outline takes whole facets and the mesh lies under the sphere
        double cap = 2 * Math.PI * RADIUS_MM * RADIUS_MM * (1 - Math.cos(Math.toRadians(HALF_ANGLE_DEG)));
        assertEquals(cap, upper.areaMm2(), 0.01 * cap);
        // Phantom: bone touches the whole upper face and stands 2.2 mm off the lower one, wider than the limit
        double limit = lower.smallestVisibleGapMm().value().orElseThrow();
        assertTrue(limit < GAP_MM - 0.2, "limit " + limit);
        assertEquals(
                1,
                upper.fraction().value().orElseThrow(),
                0.03,
                upper.fraction().toString());
        assertEquals(
                0,
                lower.fraction().value().orElseThrow(),
                0.03,
                lower.fraction().toString());
        // Phantom: 2.2 mm, read through the model of a flat face, which a radius of 14 mm hardly bends
        assertEquals(GAP_MM, lower.gapMm().mean().orElseThrow(), 0.15);
        double edge = lower.readings().stream()
                .mapToDouble(reading -> reading.edgeMm().orElse(Double.NaN))
                .filter(t -> !Double.isNaN(t))
                .average()
                .orElseThrow();
        // Phantom: bone of about 330 HU at 2 to 4 mm lifts the half-maximum by 150 HU over that against fluid; a flank
        // of 2070 HU
        // blurred by 0.42 mm falls by 1970 HU a mm there, so the edge is found 0.08 mm inside the sphere
        assertEquals(-0.08, edge, 0.03);
    }

    @Test
    void measuresPiecesOfAMesh() {
        assertTouchesAboveOnly(construct(
                SurfacePatch.ofOutline("body.ply", MESH, rim(UP)),
                SurfacePatch.ofOutline("body.ply", MESH, rim(UP.times(-1)))));
    }

    @Test
    void measuresSphericalPatchesOnAMesh() {
        assertTouchesAboveOnly(construct(
                new SpherePatch(CENTRE, RADIUS_MM, UP, HALF_ANGLE_DEG),
                new SpherePatch(CENTRE, RADIUS_MM, UP.times(-1), HALF_ANGLE_DEG)));
    }
}
