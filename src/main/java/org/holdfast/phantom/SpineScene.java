package org.holdfast.phantom;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.holdfast.construct.Construct;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;

/**
 * Two vertebrae with a porous titanium body between them, four pedicle screws and two rods: the implants of the demo
 * subject, with every part where one wants it. For checking poses and migration. Immutable.
 *
 * <p>The scene's own space has its origin in the middle of the body as implanted, x left, y posterior, z cranial. Motions
 * are given in that space and start from where the parts were implanted: both vertebrae carry their screws and the front
 * that faces the body along, the rods stay.
 *
 * @param cranial motion of the cranial vertebra (T12), its screws and its front
 * @param caudal motion of the caudal vertebra (L2), its screws and its front
 * @param body motion of the body
 * @param trabecularHu HU inside the vertebrae
 * @param cranialGaps gaps between the body as implanted and the cranial front
 * @param caudalGaps gaps between the body as implanted and the caudal front
 * @param build sizes and places of the implants
 * @param rodBreakMm way by which the lower piece of the right rod has gone down and half of it back, mm; 0 for a whole rod
 */
public record SpineScene(
        RigidTransform cranial,
        RigidTransform caudal,
        RigidTransform body,
        double trabecularHu,
        GapPattern cranialGaps,
        GapPattern caudalGaps,
        Build build,
        double rodBreakMm) {

    private static final double MUSCLE_HU = 55;
    private static final double CORTEX_HU = 600;
    private static final double FRONT_MM = 0.8;
    /** The vertebrae reach so far over the rim of the body. */
    private static final double COUNTERSUNK_MM = 2;

    private static final double VERTEBRA_HEIGHT_MM = 29;
    private static final double ROD_BREAK_Z_MM = -7;

    /**
     * Another build of the same kind of construct, as another patient would have it.
     *
     * @param wide places of screws and rods from side to side, and the body's width, times this
     * @param high places along the spine, and the body's height, times this
     * @param deep the body's depth and the screws' length times this
     * @param screws 4, or 2 for the cranial pair alone
     * @param rods 2, or 1 for the left alone
     */
    public record Build(double wide, double high, double deep, int screws, int rods) {

        /** As the construct is laid out. */
        public static final Build AS_LAID_OUT = new Build(1, 1, 1, 4, 2);

        public Build {
            Require.positive(wide, "wide");
            Require.positive(high, "high");
            Require.positive(deep, "deep");
            if (screws != 2 && screws != 4 || rods != 1 && rods != 2) {
                throw new IllegalArgumentException(
                        "2 or 4 screws and 1 or 2 rods are possible, got " + screws + " and " + rods);
            }
        }

        private PatientPoint place(PatientPoint p) {
            return new PatientPoint(wide * p.x(), p.y(), high * p.z());
        }
    }

    public SpineScene {
        Objects.requireNonNull(cranial, "cranial");
        Objects.requireNonNull(caudal, "caudal");
        Objects.requireNonNull(body, "body");
        Require.finite(trabecularHu, "trabecularHu");
        Objects.requireNonNull(cranialGaps, "cranialGaps");
        Objects.requireNonNull(caudalGaps, "caudalGaps");
        Objects.requireNonNull(build, "build");
        Require.notNegative(rodBreakMm, "rodBreakMm");
    }

    /** As implanted: nothing moved, bone on the whole cranial face, a gap of 2 mm under the whole caudal face. */
    public static SpineScene asImplanted(double trabecularHu) {
        return new SpineScene(
                RigidTransform.IDENTITY,
                RigidTransform.IDENTITY,
                RigidTransform.IDENTITY,
                trabecularHu,
                GapPattern.uniform(DemoParts.FACE_HALF_U_MM, DemoParts.FACE_HALF_V_MM, 0),
                GapPattern.uniform(DemoParts.FACE_HALF_U_MM, DemoParts.FACE_HALF_V_MM, 2),
                Build.AS_LAID_OUT,
                0);
    }

    /** With both vertebrae and the body where they have gone. */
    public SpineScene moved(RigidTransform cranialTo, RigidTransform caudalTo, RigidTransform bodyTo) {
        return new SpineScene(cranialTo, caudalTo, bodyTo, trabecularHu, cranialGaps, caudalGaps, build, rodBreakMm);
    }

    /** With other gaps, in the faces' u and v. */
    public SpineScene withGaps(GapPattern cranialFace, GapPattern caudalFace) {
        return new SpineScene(cranial, caudal, body, trabecularHu, cranialFace, caudalFace, build, rodBreakMm);
    }

    /** Of another build. */
    public SpineScene built(Build other) {
        return new SpineScene(cranial, caudal, body, trabecularHu, cranialGaps, caudalGaps, other, rodBreakMm);
    }

    /** With the right rod broken. */
    public SpineScene withBrokenRod(double mm) {
        return new SpineScene(cranial, caudal, body, trabecularHu, cranialGaps, caudalGaps, build, mm);
    }

    /** The construct of the usual build as implanted, laid out on an exam in which the scene lies at a place. */
    public static Construct construct(RigidTransform sceneToReference) {
        return DemoConstruct.of(sceneToReference, "1.2.3", "1.2.4");
    }

    /** Half-widths of the body's measured faces, mm: u (left), v (posterior). */
    public static double[] faceHalfMm() {
        return new double[] {DemoParts.FACE_HALF_U_MM, DemoParts.FACE_HALF_V_MM};
    }

    /** Box round all implants as implanted: lowest and highest corner. */
    public static List<PatientPoint> metalCorners() {
        return List.of(new PatientPoint(-24.5, -13, -46), new PatientPoint(24.5, 52, 48));
    }

    /** The scene in its own space. */
    public Scene scene() {
        List<Body> bodies = new ArrayList<>();
        paintBones(bodies);
        paintMetal(bodies);
        return new Scene(MUSCLE_HU, bodies, RigidTransform.IDENTITY);
    }

    private void paintBones(List<Body> bodies) {
        double face = build.high * DemoParts.BODY_HALF_CRANIAL_MM;
        Solid upper =
                Vertebra.whole(face - COUNTERSUNK_MM, face + VERTEBRA_HEIGHT_MM - COUNTERSUNK_MM, 37 * build.high, 5);
        Solid lower = Vertebra.whole(-face - VERTEBRA_HEIGHT_MM, -face, -34.5 * build.high, 5.8);
        bodies.add(bone("T12", upper.moved(cranial)));
        bodies.add(bone("L2", lower.moved(caudal)));
        paintFront(bodies, "T12", face, 1, cranialGaps, cranial);
        paintFront(bodies, "L2", -face, -1, caudalGaps, caudal);
    }

    private Body bone(String name, Solid solid) {
        return Body.shelled(name, solid, Vertebra.CORTEX_MM, CORTEX_HU, trabecularHu);
    }

    /** The front that faces the body and the fluid before it; beside the body they end inside the vertebra's cortex. */
    private void paintFront(List<Body> bodies, String bone, double z, int up, GapPattern gaps, RigidTransform motion) {
        FaceFrame frame = new FaceFrame(
                new PatientPoint(0, 0, z),
                PatientVector.LEFT,
                PatientVector.POSTERIOR,
                PatientVector.CRANIAL.times(up),
                DemoParts.FACE_HALF_U_MM,
                DemoParts.FACE_HALF_V_MM);
        Solid over = Box.upright(
                new PatientPoint(0, 0, z),
                build.wide * DemoParts.BODY_HALF_LEFT_MM - 0.2,
                build.deep * DemoParts.BODY_HALF_POSTERIOR_MM - 0.2,
                5);
        bodies.add(Body.of(
                bone + " endplate",
                SteppedFront.over(frame, gaps, gap -> gap + FRONT_MM).and(over).moved(motion),
                CORTEX_HU));
        bodies.add(Body.of(
                "fluid",
                SteppedFront.over(frame, gaps, gap -> gap > 0 ? gap : -2 * COUNTERSUNK_MM)
                        .and(over)
                        .moved(motion),
                DemoScene.FLUID_HU));
    }

    private void paintMetal(List<Body> bodies) {
        bodies.add(Body.shelled(
                "body",
                Box.upright(
                                PatientPoint.ORIGIN,
                                build.wide * DemoParts.BODY_HALF_LEFT_MM,
                                build.deep * DemoParts.BODY_HALF_POSTERIOR_MM,
                                build.high * DemoParts.BODY_HALF_CRANIAL_MM)
                        .moved(body),
                DemoParts.POROUS_DEPTH_MM,
                DemoParts.POROUS_HU,
                DemoParts.SOLID_HU));
        for (DemoParts.Screw screw : DemoParts.Screw.values()) {
            if (screw.ordinal() < build.screws) {
                paintScrew(bodies, screw);
            }
        }
        bodies.add(solid("rod-left", rod(DemoParts.Side.LEFT)));
        if (build.rods == 2) {
            paintRightRod(bodies);
        }
    }

    private void paintScrew(List<Body> bodies, DemoParts.Screw screw) {
        RigidTransform motion = screw.bone.equals("T12") ? cranial : caudal;
        PatientPoint head = build.place(screw.head);
        PatientPoint placedTip = build.place(screw.tip);
        PatientPoint tip = head.along(placedTip.minus(head), build.deep);
        PatientVector direction = tip.minus(head).unit();
        bodies.add(solid(
                screw.id + " head",
                new CappedCylinder(head.along(direction, -12), head.along(direction, 2), 6).moved(motion)));
        bodies.add(solid(screw.id, new CappedCylinder(head, tip, 0.5 * screw.diameterMm).moved(motion)));
    }

    private void paintRightRod(List<Body> bodies) {
        Solid whole = rod(DemoParts.Side.RIGHT);
        if (rodBreakMm == 0) {
            bodies.add(solid("rod-right", whole));
            return;
        }
        PatientPoint at = build.place(new PatientPoint(-21.7, 42.2, ROD_BREAK_Z_MM));
        PatientVector down = new PatientVector(0, 0, -1);
        PatientVector apart = down.times(rodBreakMm).plus(PatientVector.POSTERIOR.times(0.5 * rodBreakMm));
        bodies.add(solid("rod-right", whole.and(new HalfSpace(at, down))));
        bodies.add(solid(
                "rod-right", whole.and(new HalfSpace(at, down.times(-1))).moved(RigidTransform.translation(apart))));
    }

    private Solid rod(DemoParts.Side side) {
        List<PatientPoint> points =
                DemoParts.rodPoints(side).stream().map(build::place).toList();
        PatientPoint first = points.get(0);
        PatientPoint last = points.get(points.size() - 1);
        return new RoundRod(points, 0.5 * DemoParts.ROD_DIAMETER_MM)
                .and(new HalfSpace(first, first.minus(points.get(1)).unit()))
                .and(new HalfSpace(
                        last, last.minus(points.get(points.size() - 2)).unit()));
    }

    private static Body solid(String name, Solid solid) {
        return Body.of(name, solid, DemoParts.SOLID_HU);
    }
}
