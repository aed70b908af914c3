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
import org.holdfast.construct.Material;
import org.holdfast.construct.ScrewShape;
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
import org.holdfast.progress.Progress;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;

/**
 * Two screws of 6 mm in bone of 250 HU, 20 mm apart, parallel and a little tilted; the first is the measured one. Its zone
 * is a cylinder of fluid of 30 HU.
 */
final class ScrewScan {

    static final LocalDate IMPLANTED = LocalDate.of(2030, 1, 1);
    static final double RADIUS_MM = 3;
    static final double BONE_HU = 250;

    private static final PatientVector AXIS = new PatientVector(0.2, -1, 0.15).unit();
    private static final PatientPoint MIDDLE = new PatientPoint(-6, 0.3, 0.2);
    private static final double HALF_MM = 14;
    private static final double APART_MM = 20;
    private static final double SIGMA_MM = 0.4;

    final Construct construct;
    private final double inBoneFromMm;

    ScrewScan(ComponentKind kind, Material material) {
        this(kind, material, 4);
    }

    ScrewScan(ComponentKind kind, Material material, double inBoneFromMm) {
        this.inBoneFromMm = inBoneFromMm;
        this.construct = new Construct(
                "screws",
                1,
                IMPLANTED,
                "1.2.3",
                "1.2.4",
                new Axes(PatientPoint.ORIGIN, PatientVector.LEFT, PatientVector.POSTERIOR, PatientVector.CRANIAL),
                List.of(new Bone("host", "host bone")),
                List.of(screw("first", 1, 0, kind, material), screw("second", 2, APART_MM, kind, material)),
                List.of(),
                List.of());
    }

    Component first() {
        return construct.component("first");
    }

    private Component screw(String id, int number, double leftMm, ComponentKind kind, Material material) {
        return new Component(
                id,
                number,
                id + " screw",
                kind,
                material,
                IMPLANTED,
                Optional.empty(),
                Optional.empty(),
                new ScrewShape(end(leftMm, -HALF_MM), end(leftMm, HALF_MM), 2 * RADIUS_MM, "host", inBoneFromMm, 24));
    }

    private static PatientPoint end(double leftMm, double alongMm) {
        return MIDDLE.along(PatientVector.LEFT, leftMm).along(AXIS, alongMm);
    }

    /** The scene with a zone of a width round the first screw; 0 for none. */
    Scene scene(double zoneMm) {
        Scene scene = Scene.of(BONE_HU);
        if (zoneMm > 0) {
            scene = scene.with(Body.of(
                    "zone", new CappedCylinder(end(0, -HALF_MM - 5), end(0, HALF_MM + 5), RADIUS_MM + zoneMm), 30));
        }
        return scene.with(Body.of("first", new CappedCylinder(end(0, -HALF_MM), end(0, HALF_MM), RADIUS_MM), 7400))
                .with(Body.of(
                        "second",
                        new CappedCylinder(end(APART_MM, -HALF_MM), end(APART_MM, HALF_MM), RADIUS_MM),
                        7400));
    }

    /** The scene without bone in front of a plane across the screw, so far from its head point. */
    Scene boneUpTo(double fromHeadMm) {
        Scene whole = scene(0);
        PatientPoint place = end(0, -HALF_MM + fromHeadMm);
        Scene scene = Scene.of(BONE_HU).with(Body.of("disc", new HalfSpace(place, AXIS.times(-1)), 40));
        for (Body body : whole.bodies()) {
            scene = scene.with(body);
        }
        return scene;
    }

    HuVolume scan(Scene scene) {
        return ScanSimulator.scan(
                scene,
                new ScanSettings(grid(), new PointSpread(SIGMA_MM, SIGMA_MM), 20, 7, HuScale.EXTENDED_30710),
                Progress.NONE);
    }

    ExamScan exam(HuVolume volume) {
        return exam(volume, Acquisition.unknown());
    }

    ExamScan exam(HuVolume volume, Acquisition acquisition) {
        return new ExamScan(
                "exam",
                "1.2.3",
                "00",
                volume,
                acquisition,
                new PointSpreadEstimate(SIGMA_MM, SIGMA_MM, PointSpreadEstimate.Source.GIVEN),
                RigidTransform.IDENTITY,
                ExamScan.PoseKind.IDENTITY);
    }

    /** A copy with every voxel between the two screws, within a wedge of so many mm of their plane, changed by some HU. */
    HuVolume withWedge(HuVolume volume, double halfMm, double byHu) {
        VolumeGrid grid = volume.grid();
        short[][] hu = new short[grid.slices()][grid.columns() * grid.rows()];
        for (int k = 0; k < grid.slices(); k++) {
            for (int j = 0; j < grid.rows(); j++) {
                for (int i = 0; i < grid.columns(); i++) {
                    PatientPoint p = grid.sliceOrigin(k)
                            .along(grid.rowDirection(), i * grid.columnSpacingMm())
                            .along(grid.columnDirection(), j * grid.rowSpacingMm());
                    double along = p.minus(MIDDLE).dot(AXIS);
                    PatientPoint near = end(0, along);
                    PatientVector off = p.minus(near);
                    PatientVector across = PatientVector.LEFT
                            .minus(AXIS.times(PatientVector.LEFT.dot(AXIS)))
                            .unit();
                    double left = off.dot(across);
                    double beside = off.minus(across.times(left)).norm();
                    boolean isBetween = left > RADIUS_MM && left < APART_MM - RADIUS_MM && beside < halfMm;
                    hu[k][j * grid.columns() + i] = (short) Math.round(volume.hu(i, j, k) + (isBetween ? byHu : 0));
                }
            }
        }
        return HuVolume.ofHu(grid, hu);
    }

    private static VolumeGrid grid() {
        List<PatientPoint> origins = new ArrayList<>();
        for (int k = 0; k < 44; k++) {
            origins.add(new PatientPoint(-18, -18, -13.2 + 0.6 * k));
        }
        return new VolumeGrid(90, 80, 0.45, 0.45, PatientVector.LEFT, PatientVector.POSTERIOR, origins);
    }
}
