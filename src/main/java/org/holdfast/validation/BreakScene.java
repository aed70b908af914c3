package org.holdfast.validation;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.holdfast.construct.Axes;
import org.holdfast.construct.Bone;
import org.holdfast.construct.BoxShape;
import org.holdfast.construct.Component;
import org.holdfast.construct.ComponentKind;
import org.holdfast.construct.Construct;
import org.holdfast.construct.Join;
import org.holdfast.construct.JoinKind;
import org.holdfast.construct.Material;
import org.holdfast.construct.RodShape;
import org.holdfast.construct.ScrewShape;
import org.holdfast.construct.Shape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.measure.ExamScan;
import org.holdfast.measure.PointSpreadEstimate;
import org.holdfast.phantom.Body;
import org.holdfast.phantom.Box;
import org.holdfast.phantom.CappedCylinder;
import org.holdfast.phantom.HalfSpace;
import org.holdfast.phantom.HuScale;
import org.holdfast.phantom.PointSpread;
import org.holdfast.phantom.RoundRod;
import org.holdfast.phantom.ScanSettings;
import org.holdfast.phantom.ScanSimulator;
import org.holdfast.phantom.Scene;
import org.holdfast.phantom.Solid;
import org.holdfast.phantom.Union;
import org.holdfast.progress.Progress;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.VolumeGrid;

/**
 * One simulated rod or screw, whole or broken, with its joints, drawn by a seed. The same seed gives the same part and the
 * same scans whatever break is asked for, so a part can be scanned whole on its reference exam and broken on the next.
 */
final class BreakScene {

    /** What is drawn. */
    enum Kind {
        /** A rod nearly along the table, straight or bent, held by two joints. */
        ROD,
        /** A threaded screw nearly in the slice, with head and tapered tip. */
        SCREW
    }

    /**
     * A break in the middle of the part, or none.
     *
     * @param gapMm width perpendicular to the cut; 0 for a whole part
     * @param tiltDeg angle between the cut's normal and the part's axis
     * @param stepMm how far the far end has stepped aside
     * @param angleDeg how far it has turned
     */
    record Break(double gapMm, double tiltDeg, double stepMm, double angleDeg) {
        static final Break NONE = new Break(0, 0, 0, 0);

        static Break cut(double gapMm, double tiltDeg) {
            return new Break(gapMm, tiltDeg, 0, 0);
        }

        boolean isNone() {
            return gapMm == 0 && stepMm == 0 && angleDeg == 0;
        }
    }

    private static final LocalDate DAY = LocalDate.of(2030, 1, 1);
    private static final double HALF_LENGTH_MM = 22;
    private static final double MARGIN_MM = 9;
    private static final double JOINT_AT_MM = 17;
    private static final double PIECE_MM = 2;
    private static final double LARGEST_SPREAD_ERROR = 0.10;

    private final Kind kind;
    private final HuScale scale;
    private final UniformRandomProvider random;
    private final double radiusMm;
    private final double metalHu;
    private final double tissueHu;
    private final double breakAtMm;
    private final List<PatientPoint> line = new ArrayList<>();
    private final PatientVector aside;
    private final Material material;
    private final double pixelMm;
    private final double pitchMm;
    private final PointSpread spread;
    private final PointSpread stated;
    private final double noiseHu;
    private final long noiseSeed;
    private final RigidTransform pose;
    private final RigidTransform statedPose;
    private final boolean hasHead;
    private final Construct construct;

    BreakScene(Kind kind, HuScale scale, Material material, ContactScene.Conditions c, long seed) {
        this.kind = kind;
        this.scale = scale;
        this.material = material;
        this.random = RandomSource.XO_RO_SHI_RO_128_PP.create(seed);
        this.radiusMm = kind == Kind.ROD ? 0.5 * between(4.75, 6.35) : 0.5 * between(5.5, 7.5);
        this.metalHu = material == Material.COBALT_CHROMIUM ? between(12_500, 13_500) : between(7000, 8000);
        this.tissueHu = kind == Kind.ROD ? between(30, 60) : between(c.boneLow, c.boneHigh);
        this.breakAtMm = between(-5, 5);
        PatientVector main = kind == Kind.ROD ? PatientVector.CRANIAL : PatientVector.POSTERIOR.times(-1);
        PatientVector tilted = RigidTransform.rotation(PatientVector.LEFT, between(-15, 15), PatientPoint.ORIGIN)
                .then(RigidTransform.rotation(
                        kind == Kind.ROD ? PatientVector.POSTERIOR : PatientVector.CRANIAL,
                        between(-15, 15),
                        PatientPoint.ORIGIN))
                .apply(main);
        this.aside = RigidTransform.rotation(tilted, between(0, 360), PatientPoint.ORIGIN)
                .apply(tilted.anyPerpendicular());
        boolean bent = kind == Kind.ROD && random.nextBoolean();
        drawLine(tilted, bent ? 1 / between(80, 300) : 0);
        this.pixelMm = between(c.pixelLow, c.pixelHigh);
        this.pitchMm = between(c.pitchLow, c.pitchHigh);
        this.spread = new PointSpread(between(c.sigmaLow, c.sigmaHigh), between(c.sigmaLow, c.sigmaHigh));
        this.stated = new PointSpread(
                spread.sigmaInPlaneMm() * between(1 - LARGEST_SPREAD_ERROR, 1 + LARGEST_SPREAD_ERROR),
                spread.sigmaAlongTableMm() * between(1 - LARGEST_SPREAD_ERROR, 1 + LARGEST_SPREAD_ERROR));
        this.noiseHu = between(c.noiseLow, c.noiseHigh);
        this.noiseSeed = random.nextLong();
        this.pose = turned(between(-6, 6), between(-6, 6), between(-20, 20))
                .then(RigidTransform.translation(new PatientVector(between(-9, 9), between(-9, 9), between(-9, 9))));
        this.statedPose = pose.then(turned(between(-0.7, 0.7), between(-0.7, 0.7), between(-0.7, 0.7)))
                .then(RigidTransform.translation(
                        new PatientVector(between(-0.5, 0.5), between(-0.5, 0.5), between(-0.5, 0.5))));
        this.hasHead = random.nextBoolean();
        this.construct = layOut();
    }

    private static RigidTransform turned(double aboutX, double aboutY, double aboutZ) {
        return RigidTransform.rotation(PatientVector.LEFT, aboutX, PatientPoint.ORIGIN)
                .then(RigidTransform.rotation(PatientVector.POSTERIOR, aboutY, PatientPoint.ORIGIN))
                .then(RigidTransform.rotation(PatientVector.CRANIAL, aboutZ, PatientPoint.ORIGIN));
    }

    private double between(double low, double high) {
        return low + (high - low) * random.nextDouble();
    }

    /** A circle's arc through a point that falls anywhere in a voxel; straight for a curvature of 0. */
    private void drawLine(PatientVector along, double curvature) {
        PatientPoint middle = new PatientPoint(random.nextDouble(), random.nextDouble(), random.nextDouble());
        for (double s = -HALF_LENGTH_MM; s <= HALF_LENGTH_MM; s += PIECE_MM) {
            double forward = curvature == 0 ? s : Math.sin(curvature * s) / curvature;
            double sideways = curvature == 0 ? 0 : (1 - Math.cos(curvature * s)) / curvature;
            line.add(middle.along(along, forward).along(aside, sideways));
        }
    }

    private PatientPoint at(double s) {
        double place = (s + HALF_LENGTH_MM) / PIECE_MM;
        int n = Math.max(0, Math.min(line.size() - 2, (int) Math.floor(place)));
        return line.get(n).towards(line.get(n + 1), place - n);
    }

    private PatientVector along(double s) {
        return at(s + 0.5).minus(at(s - 0.5)).unit();
    }

    private PatientVector across(double s) {
        PatientVector t = along(s);
        return aside.minus(t.times(aside.dot(t))).unit();
    }

    Construct construct() {
        return construct;
    }

    Component part() {
        return construct.component("part");
    }

    /** Distance of the break's middle from the part's first point. */
    double breakAtMm() {
        return breakAtMm + HALF_LENGTH_MM;
    }

    /** The reference exam: the part whole. */
    ExamScan reference() {
        return scan(Break.NONE, RigidTransform.IDENTITY, RigidTransform.IDENTITY, noiseSeed + 1);
    }

    /** A later exam in another place, whose pose is stated 0.5 mm and 0.7° off at most an axis. */
    ExamScan later(Break wanted) {
        return scan(wanted, pose, statedPose, noiseSeed);
    }

    private ExamScan scan(Break wanted, RigidTransform placed, RigidTransform told, long seed) {
        Scene scene = scene(wanted).moved(placed);
        ScanSettings settings = new ScanSettings(grid(placed), spread, noiseHu, seed, scale);
        return new ExamScan(
                "scene",
                "1.2.3",
                "00",
                ScanSimulator.scan(scene, settings, Progress.NONE),
                without(Acquisition.unknown()),
                new PointSpreadEstimate(
                        stated.sigmaInPlaneMm(), stated.sigmaAlongTableMm(), PointSpreadEstimate.Source.GIVEN),
                told,
                ExamScan.PoseKind.REGISTERED);
    }

    /** An acquisition without artefact reduction of which nothing else is known. */
    private static Acquisition without(Acquisition a) {
        return new Acquisition(
                a.date(),
                a.kvp(),
                a.kernel(),
                a.reconstruction(),
                a.sliceThicknessMm(),
                a.fieldOfViewMm(),
                a.contrastAgent(),
                Acquisition.Known.NO,
                a.monoEnergyKeV(),
                a.detector(),
                a.scannerModel(),
                a.posture(),
                a.coneBeam(),
                a.lossy());
    }

    private Scene scene(Break wanted) {
        Scene scene = Scene.of(tissueHu);
        List<Solid> joints = joints();
        for (Solid joint : joints) {
            scene = scene.with(Body.of("joint", joint, metalHu));
        }
        Solid part = kind == Kind.ROD ? rod() : screw();
        if (wanted.isNone()) {
            return scene.with(Body.of("part", part, metalHu));
        }
        PatientPoint middle = at(breakAtMm);
        PatientVector t = along(breakAtMm);
        PatientVector normal = RigidTransform.rotation(across(breakAtMm), wanted.tiltDeg(), PatientPoint.ORIGIN)
                .apply(t);
        double half = 0.5 * wanted.gapMm();
        RigidTransform gone = RigidTransform.rotation(across(breakAtMm), wanted.angleDeg(), middle)
                .then(RigidTransform.translation(across(breakAtMm).times(wanted.stepMm())));
        Solid near = part.and(new HalfSpace(middle.along(normal, -half), normal));
        Solid far = part.and(new HalfSpace(middle.along(normal, half), normal.times(-1)))
                .moved(gone);
        return scene.with(Body.of("part", near, metalHu)).with(Body.of("part", far, metalHu));
    }

    private Solid rod() {
        return new RoundRod(line, radiusMm)
                .and(new HalfSpace(line.get(0), along(-HALF_LENGTH_MM).times(-1)))
                .and(new HalfSpace(line.get(line.size() - 1), along(HALF_LENGTH_MM)));
    }

    private static final double CORE_OF_THREAD = 0.72;
    private static final double THREAD_PITCH_MM = 2.8;
    private static final double THREAD_MM = 1.2;
    private static final double TAPER_MM = 6;

    /** A core with rings for a thread; over the last millimetres both get thinner. */
    private Solid screw() {
        List<Solid> pieces = new ArrayList<>();
        double taperFrom = HALF_LENGTH_MM - TAPER_MM;
        pieces.add(new CappedCylinder(at(-HALF_LENGTH_MM), at(taperFrom), CORE_OF_THREAD * radiusMm));
        for (int n = 0; n < TAPER_MM; n++) {
            double thinner = 1 - 0.12 * (n + 1);
            pieces.add(new CappedCylinder(
                    at(taperFrom + n - 0.5), at(taperFrom + n + 1), CORE_OF_THREAD * radiusMm * thinner));
        }
        for (double s = -HALF_LENGTH_MM + 4; s < taperFrom; s += THREAD_PITCH_MM) {
            pieces.add(new CappedCylinder(at(s), at(s + THREAD_MM), radiusMm));
        }
        return new Union(pieces);
    }

    private List<Solid> joints() {
        if (kind == Kind.SCREW) {
            PatientPoint head = at(-HALF_LENGTH_MM);
            PatientVector t = along(0);
            return List.of(new CappedCylinder(head.along(t, -12), head.along(t, 2), 6));
        }
        List<Solid> joints = new ArrayList<>();
        if (hasHead) {
            PatientPoint on = at(-JOINT_AT_MM);
            PatientVector side = across(-JOINT_AT_MM);
            joints.add(new CappedCylinder(on.along(side, -7), on.along(side, 6), 5));
            joints.add(new CappedCylinder(on.along(side, -24), on.along(side, -6), 3));
        }
        joints.add(Box.upright(at(JOINT_AT_MM), 5, 4, 3));
        return joints;
    }

    /** The part laid out by hand: ends and points up to 0.3 mm off an axis. */
    private Construct layOut() {
        List<Component> components = new ArrayList<>();
        List<Join> joins = new ArrayList<>();
        if (kind == Kind.SCREW) {
            PatientPoint head = off(line.get(0));
            PatientPoint tip = off(line.get(line.size() - 1));
            components.add(component(
                    "part",
                    1,
                    ComponentKind.PEDICLE_SCREW,
                    new ScrewShape(head, tip, 2 * radiusMm, "host", 5, head.distanceTo(tip))));
        } else {
            List<PatientPoint> points = new ArrayList<>();
            for (int n = 0; n < line.size(); n++) {
                if (n % 5 == 0 || n == line.size() - 1) {
                    points.add(off(line.get(n)));
                }
            }
            components.add(component("part", 1, ComponentKind.MAIN_ROD, new RodShape(points, 2 * radiusMm)));
            components.add(component(
                    "connector",
                    2,
                    ComponentKind.CROSS_LINK,
                    new BoxShape(
                            off(at(JOINT_AT_MM)),
                            List.of(PatientVector.LEFT, PatientVector.POSTERIOR, PatientVector.CRANIAL),
                            List.of(5.0, 4.0, 3.0))));
            joins.add(new Join("part", "connector", JoinKind.RUNS_IN));
            if (hasHead) {
                PatientVector side = across(-JOINT_AT_MM);
                PatientPoint head = off(at(-JOINT_AT_MM).along(side, -radiusMm));
                PatientPoint tip = head.along(side, -30);
                components.add(component(
                        "screw", 3, ComponentKind.PEDICLE_SCREW, new ScrewShape(head, tip, 6, "host", 5, 30)));
                joins.add(new Join("screw", "part", JoinKind.SITS_ON));
            }
        }
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

    private Component component(String id, int number, ComponentKind componentKind, Shape shape) {
        return new Component(id, number, id, componentKind, material, DAY, Optional.empty(), Optional.empty(), shape);
    }

    private PatientPoint off(PatientPoint p) {
        return p.plus(new PatientVector(between(-0.3, 0.3), between(-0.3, 0.3), between(-0.3, 0.3)));
    }

    /** A small grid round the part where it lies. */
    private VolumeGrid grid(RigidTransform placed) {
        double[] low = {Double.MAX_VALUE, Double.MAX_VALUE, Double.MAX_VALUE};
        double[] high = {-Double.MAX_VALUE, -Double.MAX_VALUE, -Double.MAX_VALUE};
        for (PatientPoint p : line) {
            PatientPoint there = placed.apply(p);
            double[] at = {there.x(), there.y(), there.z()};
            for (int n = 0; n < 3; n++) {
                low[n] = Math.min(low[n], at[n] - MARGIN_MM);
                high[n] = Math.max(high[n], at[n] + MARGIN_MM);
            }
        }
        List<PatientPoint> origins = new ArrayList<>();
        for (double z = low[2]; z <= high[2]; z += pitchMm) {
            origins.add(new PatientPoint(low[0], low[1], z));
        }
        return new VolumeGrid(
                (int) Math.ceil((high[0] - low[0]) / pixelMm) + 1,
                (int) Math.ceil((high[1] - low[1]) / pixelMm) + 1,
                pixelMm,
                pixelMm,
                PatientVector.LEFT,
                PatientVector.POSTERIOR,
                origins);
    }
}
