package org.holdfast.measure;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.construct.Axes;
import org.holdfast.construct.Bone;
import org.holdfast.construct.Component;
import org.holdfast.construct.ComponentKind;
import org.holdfast.construct.Construct;
import org.holdfast.construct.Join;
import org.holdfast.construct.Material;
import org.holdfast.construct.RodShape;
import org.holdfast.construct.Shape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.phantom.Body;
import org.holdfast.phantom.CappedCylinder;
import org.holdfast.phantom.HalfSpace;
import org.holdfast.phantom.HuScale;
import org.holdfast.phantom.PointSpread;
import org.holdfast.phantom.ScanSettings;
import org.holdfast.phantom.ScanSimulator;
import org.holdfast.phantom.Scene;
import org.holdfast.phantom.Solid;
import org.holdfast.progress.Progress;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.VolumeGrid;

/** A titanium rod of 5.5 mm along the table, laid out over 40 mm, σ 0.4 mm, noise 20 HU, in small grids. */
final class RodScan {

    static final double METAL_HU = 7500;
    static final double TISSUE_HU = 40;
    static final double RADIUS_MM = 2.75;
    static final double HALF_MM = 20;
    static final double SIGMA_MM = 0.4;
    static final PatientPoint MIDDLE = new PatientPoint(0.13, 0.21, 0.07);
    private static final LocalDate DAY = LocalDate.of(2030, 1, 1);
    private static final double PIXEL_MM = 0.45;
    private static final double PITCH_MM = 0.6;

    private RodScan() {}

    /** The rod, whole. */
    static Solid whole() {
        return new CappedCylinder(
                MIDDLE.along(PatientVector.CRANIAL, HALF_MM), MIDDLE.along(PatientVector.CRANIAL, -HALF_MM), RADIUS_MM);
    }

    /** The cranial end, cut so far above the middle across a direction. */
    static Solid cranialEnd(double halfGapMm, PatientVector normal) {
        return whole().and(new HalfSpace(MIDDLE.along(normal.unit(), halfGapMm), normal.times(-1)));
    }

    static Solid caudalEnd(double halfGapMm, PatientVector normal) {
        return whole().and(new HalfSpace(MIDDLE.along(normal.unit(), -halfGapMm), normal));
    }

    static Construct construct(Material material) {
        return construct(material, List.of(), List.of());
    }

    /** Laid out from cranial to caudal, so a place z of the scene lies 20 − z mm along it. */
    static Construct construct(Material material, List<Component> others, List<Join> joins) {
        List<Component> components = new ArrayList<>();
        components.add(component(
                "rod",
                1,
                ComponentKind.MAIN_ROD,
                material,
                new RodShape(
                        List.of(
                                MIDDLE.along(PatientVector.CRANIAL, HALF_MM),
                                MIDDLE.along(PatientVector.CRANIAL, 3),
                                MIDDLE.along(PatientVector.CRANIAL, -HALF_MM)),
                        2 * RADIUS_MM)));
        components.addAll(others);
        return new Construct(
                "scene",
                1,
                DAY,
                "1.2.3",
                "1.2.4",
                new Axes(PatientPoint.ORIGIN, PatientVector.LEFT, PatientVector.POSTERIOR, PatientVector.CRANIAL),
                List.of(new Bone("host", "host bone")),
                components,
                joins,
                List.of());
    }

    static Component component(String id, int number, ComponentKind kind, Material material, Shape shape) {
        return new Component(id, number, id, kind, material, DAY, Optional.empty(), Optional.empty(), shape);
    }

    static ExamScan scan(HuScale scale, Acquisition.Known artefactReduction, List<Solid> metal) {
        Scene scene = Scene.of(TISSUE_HU);
        for (Solid solid : metal) {
            scene = scene.with(Body.of("metal", solid, METAL_HU));
        }
        ScanSettings settings = new ScanSettings(grid(), new PointSpread(SIGMA_MM, SIGMA_MM), 20, 11, scale);
        return new ExamScan(
                "scene",
                "1.2.3",
                "00",
                ScanSimulator.scan(scene, settings, Progress.NONE),
                acquisition(artefactReduction),
                new PointSpreadEstimate(SIGMA_MM, SIGMA_MM, PointSpreadEstimate.Source.GIVEN),
                RigidTransform.IDENTITY,
                ExamScan.PoseKind.IDENTITY);
    }

    private static Acquisition acquisition(Acquisition.Known artefactReduction) {
        Acquisition a = Acquisition.unknown();
        return new Acquisition(
                a.date(),
                a.kvp(),
                a.kernel(),
                a.reconstruction(),
                a.sliceThicknessMm(),
                a.fieldOfViewMm(),
                a.contrastAgent(),
                artefactReduction,
                a.monoEnergyKeV(),
                a.detector(),
                a.scannerModel(),
                a.posture(),
                a.coneBeam(),
                a.lossy());
    }

    private static VolumeGrid grid() {
        List<PatientPoint> origins = new ArrayList<>();
        for (int k = 0; k < 77; k++) {
            origins.add(new PatientPoint(-11, -11, (k - 38) * PITCH_MM));
        }
        return new VolumeGrid(50, 50, PIXEL_MM, PIXEL_MM, PatientVector.LEFT, PatientVector.POSTERIOR, origins);
    }
}
