package org.holdfast.phantom;

import java.util.ArrayList;
import java.util.List;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;

/**
 * The demo subject's scene at one stage, in the space of the body and the cranial vertebra, which stay together.
 *
 * <p>How the body can sink while the caudal face stays open: it stands with its rim on the strong outer ring of the
 * caudal endplate; over the hollow middle of the endplate, where the measured face lies, it never touched. The ring gives
 * way and the body cuts into it; in the middle, where it moves and nothing carries, the bone front recedes before it
 * behind a layer of fluid and scar, so that the gap stays (and even widens) while the whole comes down. Body, cranial
 * vertebra, its screws and the rods come down as one; the heads of the caudal screws let the rods slip through.
 */
final class DemoScene {

    static final double FLUID_HU = 30;
    static final double MUSCLE_HU = 55;
    static final double FAT_HU = -100;
    static final double AIR_HU = -1000;

    /** Thickness of the bone front that faces the body. */
    static final double FRONT_MM = 0.8;

    /** The body's rim is driven so far into the caudal ring at surgery. */
    private static final double IMPACTED_MM = 0.3;

    /** The cranial vertebra reaches so far round the body where bone touches. */
    private static final double COUNTERSUNK_MM = 2;

    private static final double T12_TOP_MM = 49;
    private static final double L2_HEIGHT_MM = 29;
    private static final double L2_TOP_MM = -DemoParts.BODY_HALF_CRANIAL_MM + IMPACTED_MM;
    private static final double SCREW_BREAK_AT_MM = 14;
    private static final double SCREW_BREAK_MM = 0.8;
    private static final double ROD_BREAK_MM = 1.0;
    private static final double ROD_BREAK_STEP_MM = 0.6;
    private static final PatientPoint ROD_BREAK_AT = new PatientPoint(-21.7, 42.2, -7);
    private static final double FOR_EVER_MM = 400;

    private final DemoStage stage;
    private final List<Body> bodies = new ArrayList<>();

    private DemoScene(DemoStage stage) {
        this.stage = stage;
    }

    static Scene of(DemoStage stage) {
        DemoScene made = new DemoScene(stage);
        made.paintSoftTissue();
        made.paintBones();
        made.paintFronts();
        made.paintZone();
        made.paintMetal();
        return new Scene(AIR_HU, made.bodies, RigidTransform.IDENTITY);
    }

    /** Where the caudal vertebra has gone, seen from the body: it comes nearer by what the body has sunk. */
    static RigidTransform caudalBone(DemoStage stage) {
        return RigidTransform.translation(PatientVector.CRANIAL.times(stage.settledMm));
    }

    /** Where a screw's shank beyond a break, or the whole screw, has gone. */
    static RigidTransform screwEnd(DemoParts.Screw screw, DemoStage stage) {
        return switch (screw) {
            case T12_LEFT, T12_RIGHT -> RigidTransform.IDENTITY;
            case L2_RIGHT -> caudalBone(stage);
            case L2_LEFT -> {
                // The broken-off end goes with its bone from the exam before the break on.
                double cranial = stage.isScrewBroken ? stage.settledMm - DemoStage.MONTH_6.settledMm : 0;
                double along = stage.isScrewBroken ? SCREW_BREAK_MM : 0;
                yield apart(screw.direction(), along, PatientVector.CRANIAL.times(cranial));
            }
        };
    }

    /** Moved along an axis by so many mm, and across it by the part of a step that lies across. */
    private static RigidTransform apart(PatientVector axis, double alongMm, PatientVector step) {
        PatientVector across = step.minus(axis.times(step.dot(axis)));
        return RigidTransform.translation(axis.times(alongMm).plus(across));
    }

    /** Where a screw's head and the shank before a break have gone. */
    static RigidTransform screwHead(DemoParts.Screw screw, DemoStage stage) {
        return screw == DemoParts.Screw.L2_LEFT ? RigidTransform.IDENTITY : screwEnd(screw, stage);
    }

    static Solid t12() {
        return Vertebra.whole(DemoParts.BODY_HALF_CRANIAL_MM - COUNTERSUNK_MM, T12_TOP_MM, 37, 5);
    }

    static Solid l2(DemoStage stage) {
        return Vertebra.whole(L2_TOP_MM - L2_HEIGHT_MM, L2_TOP_MM, -34.5, 5.8).moved(caudalBone(stage));
    }

    /** Whether a body's name is that of a bone or of the front that belongs to it. */
    static boolean isBone(String name, String bone) {
        return name.equals(bone) || name.equals(front(bone));
    }

    /** Whether a body's name is that of metal. */
    static boolean isMetal(String name) {
        return name.equals("body") || name.startsWith("screw") || name.startsWith("rod");
    }

    private void paintSoftTissue() {
        paint("fat", column(0, -25, 165, 110), FAT_HU);
        paint("viscera", column(0, -62, 130, 62), 40);
        paint("muscle", column(34, 46, 31, 26), MUSCLE_HU);
        paint("muscle", column(-34, 46, 31, 26), MUSCLE_HU);
        paint("muscle", column(40, 4, 17, 22), MUSCLE_HU);
        paint("muscle", column(-40, 4, 17, 22), MUSCLE_HU);
        paint("vessel", column(9, -30, 10, 10), 42);
        paint("scar", column(0, 0, 26, 20), FLUID_HU);
        paint("canal", column(0, 24, 10, 8), 35);
    }

    private void paintBones() {
        bodies.add(Body.of("disc", Vertebra.body(46, 58, -1), 90));
        bodies.add(Body.of("disc", Vertebra.body(-60, -44, -1), 90));
        bodies.add(Vertebra.bone("T11", Vertebra.whole(55, 84, 70, 5)));
        bodies.add(Vertebra.bone("L3", Vertebra.whole(-86, -56, -66, 6)));
        bodies.add(Vertebra.bone("T12", t12()));
        bodies.add(Vertebra.bone("L1 arch", Vertebra.arch(4)));
        bodies.add(Vertebra.bone("L2", l2(stage)));
    }

    private void paintFronts() {
        double face = DemoParts.BODY_HALF_CRANIAL_MM;
        GapPattern cranial = stage.cranialGaps(DemoParts.CRANIAL_FACE);
        // Inside the cortex of the vertebra, which has the same HU, so that the borders do not meet.
        Solid insideCortex = Vertebra.body(face - COUNTERSUNK_MM, T12_TOP_MM, -0.5 * Vertebra.CORTEX_MM);
        paint(
                front("T12"),
                SteppedFront.over(DemoParts.CRANIAL_FACE, cranial, gap -> gap + FRONT_MM)
                        .and(insideCortex),
                Vertebra.CORTEX_HU);
        paint(
                "fluid",
                SteppedFront.over(DemoParts.CRANIAL_FACE, cranial, gap -> gap > 0 ? gap : -2 * COUNTERSUNK_MM)
                        .and(Vertebra.body(face - COUNTERSUNK_MM, face + COUNTERSUNK_MM, 1)),
                FLUID_HU);
        GapPattern caudal = stage.caudalGaps(DemoParts.CAUDAL_FACE);
        paint(
                front("L2"),
                SteppedFront.over(DemoParts.CAUDAL_FACE, caudal, gap -> gap + FRONT_MM)
                        .and(underBody(0.2)),
                Vertebra.CORTEX_HU);
        paint(
                "fluid",
                SteppedFront.over(DemoParts.CAUDAL_FACE, caudal, gap -> gap).and(underBody(0.8)),
                FLUID_HU);
    }

    /** The part of space under the body, so far inside its rim. */
    private static Solid underBody(double insideRimMm) {
        return Box.upright(
                new PatientPoint(0, 0, -DemoParts.BODY_HALF_CRANIAL_MM),
                DemoParts.BODY_HALF_LEFT_MM - insideRimMm,
                DemoParts.BODY_HALF_POSTERIOR_MM - insideRimMm,
                5);
    }

    private void paintZone() {
        if (stage.zoneMm > 0) {
            DemoParts.Screw screw = DemoParts.Screw.L2_LEFT;
            PatientPoint entry = screw.head.along(screw.direction(), 1);
            PatientPoint end = screw.tip.along(screw.direction(), stage.zoneMm);
            paint(
                    "fluid",
                    new CappedCylinder(entry, end, 0.5 * screw.diameterMm + stage.zoneMm).moved(screwEnd(screw, stage)),
                    FLUID_HU);
        }
    }

    private void paintMetal() {
        bodies.add(Body.shelled(
                "body", DemoParts.body(), DemoParts.POROUS_DEPTH_MM, DemoParts.POROUS_HU, DemoParts.SOLID_HU));
        for (DemoParts.Screw screw : DemoParts.Screw.values()) {
            paintScrew(screw);
        }
        for (DemoParts.Side side : DemoParts.Side.values()) {
            paintRod(side);
        }
    }

    private void paintScrew(DemoParts.Screw screw) {
        double radius = 0.5 * screw.diameterMm;
        boolean broken = screw == DemoParts.Screw.L2_LEFT && stage.isScrewBroken;
        PatientPoint outer = screw.head.along(screw.direction(), -12);
        paint(
                screw.id + " head",
                new CappedCylinder(outer, screw.head.along(screw.direction(), 2), 6).moved(screwHead(screw, stage)),
                DemoParts.SOLID_HU);
        PatientPoint cut = screw.head.along(screw.direction(), SCREW_BREAK_AT_MM);
        if (broken) {
            paint(
                    screw.id,
                    new CappedCylinder(screw.head, cut, radius).moved(screwHead(screw, stage)),
                    DemoParts.SOLID_HU);
        }
        paint(
                screw.id,
                new CappedCylinder(broken ? cut : screw.head, screw.tip, radius).moved(screwEnd(screw, stage)),
                DemoParts.SOLID_HU);
    }

    private void paintRod(DemoParts.Side side) {
        Solid rod = rod(side);
        String name = rodId(side);
        if (side == DemoParts.Side.RIGHT && stage.isRodBroken) {
            List<PatientPoint> points = DemoParts.rodPoints(side);
            PatientVector along = points.get(2).minus(points.get(1)).unit();
            HalfSpace below = new HalfSpace(ROD_BREAK_AT, along);
            paint(name, rod.and(below), DemoParts.SOLID_HU);
            paint(
                    name,
                    rod.and(new HalfSpace(ROD_BREAK_AT, along.times(-1)))
                            .moved(apart(along, ROD_BREAK_MM, PatientVector.POSTERIOR.times(ROD_BREAK_STEP_MM))),
                    DemoParts.SOLID_HU);
        } else {
            paint(name, rod, DemoParts.SOLID_HU);
        }
    }

    /** A rod along its points, flat at both ends. */
    private static Solid rod(DemoParts.Side side) {
        List<PatientPoint> points = DemoParts.rodPoints(side);
        PatientPoint first = points.get(0);
        PatientPoint last = points.get(points.size() - 1);
        PatientVector outOfFirst = first.minus(points.get(1)).unit();
        PatientVector outOfLast = last.minus(points.get(points.size() - 2)).unit();
        return new RoundRod(points, 0.5 * DemoParts.ROD_DIAMETER_MM)
                .and(new HalfSpace(first, outOfFirst))
                .and(new HalfSpace(last, outOfLast));
    }

    static String rodId(DemoParts.Side side) {
        return side == DemoParts.Side.LEFT ? "rod-left" : "rod-right";
    }

    private static String front(String bone) {
        return bone + " endplate";
    }

    private static Solid column(double x, double y, double semiLeftMm, double semiPosteriorMm) {
        return new EllipseCylinder(
                new PatientPoint(x, y, 0),
                PatientVector.LEFT,
                PatientVector.POSTERIOR,
                PatientVector.CRANIAL,
                semiLeftMm,
                semiPosteriorMm,
                FOR_EVER_MM);
    }

    private void paint(String name, Solid solid, double hu) {
        bodies.add(Body.of(name, solid, hu));
    }
}
