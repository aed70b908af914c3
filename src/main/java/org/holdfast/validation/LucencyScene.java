package org.holdfast.validation;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
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
import org.holdfast.measure.ExamScan;
import org.holdfast.measure.PointSpreadEstimate;
import org.holdfast.measure.ScrewLucency;
import org.holdfast.phantom.Body;
import org.holdfast.phantom.CappedCylinder;
import org.holdfast.phantom.HuScale;
import org.holdfast.phantom.PointSpread;
import org.holdfast.phantom.ScanSettings;
import org.holdfast.phantom.ScanSimulator;
import org.holdfast.phantom.Scene;
import org.holdfast.progress.Progress;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.VolumeGrid;

/**
 * One simulated screw in bone with a zone round it, drawn by a seed: the same draw and seed give the same scene. A smooth
 * solid titanium screw, tilted against the grid, in a round piece of bone with a cortex; between screw and bone a cylinder
 * of fluid, with or without a denser rim behind it. The zone is the same all along (concentric), or the bone's hole is
 * moved or tilted against the screw (toggling), so that its width differs with direction and place.
 *
 * @param scene what is scanned
 * @param scan grid, blur, noise and scale
 * @param statedSpread the point spread that the estimator is told
 * @param screw the screw as it lies
 * @param hole the hole in the bone; its radius is the screw's plus the mean width of the zone
 */
record LucencyScene(Scene scene, ScanSettings scan, PointSpread statedSpread, ScrewShape screw, CappedCylinder hole) {

    /** How the hole lies against the screw. */
    enum Zone {
        CONCENTRIC,
        TOGGLING
    }

    private static final int CELL_DIRECTIONS = 6;
    private static final double LENGTH_MM = 30;
    private static final double IN_BONE_FROM_MM = 4;
    private static final double IN_BONE_TO_MM = 26;
    private static final double FIELD_MM = 36;
    private static final double LARGEST_SPREAD_ERROR = 0.10;

    /** Draws a scene with a mean width of the zone, mm; 0 for none. */
    static LucencyScene draw(
            ContactScene.Conditions c, Zone kind, double widthMm, boolean hasRim, HuScale scale, long seed) {
        UniformRandomProvider random = RandomSource.XO_RO_SHI_RO_128_PP.create(seed);
        double radius = between(random, 2.25, 3.75);
        PatientPoint middle = new PatientPoint(random.nextDouble(), random.nextDouble(), random.nextDouble());
        PatientVector axis = axis(random);
        PatientPoint head = middle.along(axis, -0.5 * LENGTH_MM);
        PatientPoint tip = middle.along(axis, 0.5 * LENGTH_MM);
        ScrewShape screw = new ScrewShape(head, tip, 2 * radius, "host", IN_BONE_FROM_MM, IN_BONE_TO_MM);
        double bone = between(random, Math.max(100, c.boneLow), 280);
        double fluid = between(random, 10, 50);
        PatientVector across = turned(axis, random.nextDouble());
        CappedCylinder hole = hole(kind, head, tip, axis, across, radius, widthMm, random);
        // The cortex stands at least 5 mm from the screw and lies to one side of it.
        double boneRadius = between(random, 13, 16);
        PatientPoint boneMiddle = middle.along(turned(axis, random.nextDouble()), between(random, 0, 4));
        Scene scene = Scene.of(50)
                .with(Body.shelled(
                        "bone",
                        new CappedCylinder(boneMiddle.along(axis, -40), boneMiddle.along(axis, 40), boneRadius),
                        between(random, 1, 2),
                        between(random, 500, 800),
                        bone));
        double rimHu = bone + between(random, 150, 400);
        double rimMm = between(random, 0.4, 1.4);
        if (hasRim) {
            scene = scene.with(Body.of("rim", new CappedCylinder(hole.p(), hole.q(), hole.radiusMm() + rimMm), rimHu));
        }
        if (widthMm > 0) {
            scene = scene.with(Body.of("fluid", hole, fluid));
        }
        scene = scene.with(Body.of("screw", new CappedCylinder(head, tip, radius), between(random, 7000, 8000)));
        PointSpread spread =
                new PointSpread(between(random, c.sigmaLow, c.sigmaHigh), between(random, c.sigmaLow, c.sigmaHigh));
        ScanSettings scan = new ScanSettings(
                grid(between(random, c.pixelLow, c.pixelHigh), between(random, c.pitchLow, c.pitchHigh)),
                spread,
                between(random, c.noiseLow, c.noiseHigh),
                random.nextLong(),
                scale);
        PointSpread stated = new PointSpread(
                spread.sigmaInPlaneMm() * between(random, 1 - LARGEST_SPREAD_ERROR, 1 + LARGEST_SPREAD_ERROR),
                spread.sigmaAlongTableMm() * between(random, 1 - LARGEST_SPREAD_ERROR, 1 + LARGEST_SPREAD_ERROR));
        return new LucencyScene(scene, scan, stated, screw, hole);
    }

    /** A pedicle screw's direction: from behind to the front, up to 30° to the middle and 20° up or down. */
    private static PatientVector axis(UniformRandomProvider random) {
        return new PatientVector(between(random, -0.55, 0.55), -1, between(random, -0.36, 0.36)).unit();
    }

    private static CappedCylinder hole(
            Zone kind,
            PatientPoint head,
            PatientPoint tip,
            PatientVector axis,
            PatientVector across,
            double radius,
            double widthMm,
            UniformRandomProvider random) {
        double atHead = kind == Zone.TOGGLING ? between(random, -0.8, 0.8) * widthMm : 0;
        double atTip = kind == Zone.TOGGLING ? between(random, -0.8, 0.8) * widthMm : 0;
        PatientPoint p = head.along(across, atHead);
        PatientPoint q = tip.along(across, atTip);
        PatientVector along = q.minus(p).unit();
        return new CappedCylinder(p.along(along, -15), q.along(along, 15), radius + widthMm);
    }

    /** True width of the zone at a place of the screw's surface, mm; not under 0. */
    double trueWidthMm(PatientPoint onSurface, PatientVector outward) {
        double low = 0;
        double high = 8;
        if (hole.signedDistanceMm(onSurface) >= 0) {
            return 0;
        }
        for (int n = 0; n < 40; n++) {
            double middle = 0.5 * (low + high);
            if (hole.signedDistanceMm(onSurface.along(outward, middle)) < 0) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return 0.5 * (low + high);
    }

    /** Mean true width over the directions of a cell, at its middle along the screw, mm. */
    double trueWidthMm(ScrewLucency.Sector cell) {
        PatientVector axis = screw.direction();
        PatientVector zero = PatientVector.CRANIAL
                .minus(axis.times(PatientVector.CRANIAL.dot(axis)))
                .unit();
        PatientVector quarter = axis.cross(zero);
        double sum = 0;
        for (int n = 0; n < CELL_DIRECTIONS; n++) {
            double angle = Math.toRadians(cell.angleDeg() + cell.widthDeg() * ((n + 0.5) / CELL_DIRECTIONS - 0.5));
            PatientVector outward = zero.times(Math.cos(angle)).plus(quarter.times(Math.sin(angle)));
            PatientPoint surface = screw.head().along(axis, cell.atMm()).along(outward, 0.5 * screw.diameterMm());
            sum += trueWidthMm(surface, outward);
        }
        return sum / CELL_DIRECTIONS;
    }

    /** The scan of the scene as a reference exam. */
    ExamScan exam() {
        return new ExamScan(
                "scene",
                "1.2.3",
                "00",
                ScanSimulator.scan(scene, scan, Progress.NONE),
                Acquisition.unknown(),
                new PointSpreadEstimate(
                        statedSpread.sigmaInPlaneMm(),
                        statedSpread.sigmaAlongTableMm(),
                        PointSpreadEstimate.Source.GIVEN),
                RigidTransform.IDENTITY,
                ExamScan.PoseKind.IDENTITY);
    }

    /** A construct of the screw alone. */
    Construct construct() {
        LocalDate day = LocalDate.of(2030, 1, 1);
        Component part = new Component(
                "screw",
                1,
                "screw",
                ComponentKind.PEDICLE_SCREW,
                Material.TITANIUM_SOLID,
                day,
                Optional.empty(),
                Optional.empty(),
                screw);
        return new Construct(
                "scene",
                1,
                day,
                "1.2.3",
                "1.2.4",
                new Axes(PatientPoint.ORIGIN, PatientVector.LEFT, PatientVector.POSTERIOR, PatientVector.CRANIAL),
                List.of(new Bone("host", "host bone")),
                List.of(part),
                List.of(),
                List.of());
    }

    private static PatientVector turned(PatientVector axis, double turns) {
        PatientVector x = axis.anyPerpendicular();
        PatientVector y = axis.cross(x);
        return x.times(Math.cos(2 * Math.PI * turns)).plus(y.times(Math.sin(2 * Math.PI * turns)));
    }

    private static double between(UniformRandomProvider random, double low, double high) {
        return low + (high - low) * random.nextDouble();
    }

    private static VolumeGrid grid(double pixelMm, double pitchMm) {
        int side = (int) Math.ceil(FIELD_MM / pixelMm);
        int slices = (int) Math.ceil(FIELD_MM / pitchMm);
        double corner = -0.5 * (side - 1) * pixelMm;
        List<PatientPoint> origins = new ArrayList<>();
        for (int k = 0; k < slices; k++) {
            origins.add(new PatientPoint(corner, corner, -0.5 * (slices - 1) * pitchMm + k * pitchMm));
        }
        return new VolumeGrid(side, side, pixelMm, pixelMm, PatientVector.LEFT, PatientVector.POSTERIOR, origins);
    }
}
