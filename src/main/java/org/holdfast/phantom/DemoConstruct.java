package org.holdfast.phantom;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.holdfast.construct.Axes;
import org.holdfast.construct.Bone;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.BoxShape;
import org.holdfast.construct.Component;
import org.holdfast.construct.ComponentKind;
import org.holdfast.construct.Construct;
import org.holdfast.construct.Filler;
import org.holdfast.construct.Join;
import org.holdfast.construct.JoinKind;
import org.holdfast.construct.Material;
import org.holdfast.construct.PlanePatch;
import org.holdfast.construct.Porous;
import org.holdfast.construct.RodShape;
import org.holdfast.construct.ScrewShape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;

/** The demo subject's construct as a reader would lay it out on the reference exam. */
final class DemoConstruct {

    static final String BODY = "body-l1";
    static final String CRANIAL_FACE = "cranial-face";
    static final String CAUDAL_FACE = "caudal-face";

    private static final double WALK_MM = 0.01;

    private final RigidTransform sceneToReference;

    private DemoConstruct(RigidTransform sceneToReference) {
        this.sceneToReference = sceneToReference;
    }

    static Construct of(RigidTransform sceneToReference, String seriesUid, String frameOfReferenceUid) {
        DemoConstruct made = new DemoConstruct(sceneToReference);
        return new Construct(
                "demo-construct",
                1,
                DemoStage.SURGERY_DAY,
                seriesUid,
                frameOfReferenceUid,
                new Axes(
                        made.at(PatientPoint.ORIGIN),
                        made.at(PatientVector.LEFT),
                        made.at(PatientVector.POSTERIOR),
                        made.at(PatientVector.CRANIAL)),
                List.of(new Bone("t12", "T12"), new Bone("l2", "L2")),
                made.components(),
                made.joins(),
                List.of(
                        made.face(CRANIAL_FACE, 1, "Cranial endplate, T12", "t12", DemoParts.CRANIAL_FACE),
                        made.face(CAUDAL_FACE, 2, "Caudal endplate, L2", "l2", DemoParts.CAUDAL_FACE)));
    }

    /** The stretch of a screw in its bone, mm from the head: the longest way inside, walked along the axis. */
    static double[] inBoneMm(DemoParts.Screw screw) {
        Solid bone = screw.bone.equals("T12") ? DemoScene.t12() : DemoScene.l2(DemoStage.SURGERY);
        double from = 0;
        while (!bone.contains(screw.head.along(screw.direction(), from))) {
            from += WALK_MM;
        }
        double to = from;
        while (to < screw.lengthMm() && bone.contains(screw.head.along(screw.direction(), to))) {
            to += WALK_MM;
        }
        return new double[] {hundredth(from), Math.min(hundredth(to), screw.lengthMm())};
    }

    private List<Component> components() {
        List<Component> parts = new ArrayList<>();
        parts.add(component(
                BODY,
                1,
                "Vertebral body replacement, L1",
                ComponentKind.VERTEBRAL_BODY,
                Material.TITANIUM_POROUS,
                Optional.of(new Porous(DemoParts.POROSITY, DemoParts.POROUS_DEPTH_MM)),
                new BoxShape(
                        at(PatientPoint.ORIGIN),
                        List.of(at(PatientVector.LEFT), at(PatientVector.POSTERIOR), at(PatientVector.CRANIAL)),
                        List.of(
                                DemoParts.BODY_HALF_LEFT_MM,
                                DemoParts.BODY_HALF_POSTERIOR_MM,
                                DemoParts.BODY_HALF_CRANIAL_MM))));
        for (DemoParts.Screw screw : DemoParts.Screw.values()) {
            double[] inBone = inBoneMm(screw);
            parts.add(component(
                    screw.id,
                    parts.size() + 1,
                    "Pedicle screw " + screw.bone + " " + word(screw.side),
                    ComponentKind.PEDICLE_SCREW,
                    Material.TITANIUM_SOLID,
                    Optional.empty(),
                    new ScrewShape(
                            at(screw.head),
                            at(screw.tip),
                            screw.diameterMm,
                            screw.bone.toLowerCase(Locale.ROOT),
                            inBone[0],
                            inBone[1])));
        }
        for (DemoParts.Side side : DemoParts.Side.values()) {
            parts.add(component(
                    DemoScene.rodId(side),
                    parts.size() + 1,
                    "Rod " + word(side),
                    ComponentKind.MAIN_ROD,
                    Material.TITANIUM_SOLID,
                    Optional.empty(),
                    new RodShape(
                            DemoParts.rodPoints(side).stream().map(this::at).toList(), DemoParts.ROD_DIAMETER_MM)));
        }
        return parts;
    }

    private static Component component(
            String id,
            int number,
            String label,
            ComponentKind kind,
            Material material,
            Optional<Porous> porous,
            org.holdfast.construct.Shape shape) {
        return new Component(id, number, label, kind, material, DemoStage.SURGERY_DAY, Optional.empty(), porous, shape);
    }

    private List<Join> joins() {
        List<Join> joins = new ArrayList<>();
        for (DemoParts.Screw screw : DemoParts.Screw.values()) {
            joins.add(new Join(screw.id, DemoScene.rodId(screw.side), JoinKind.SITS_ON));
        }
        return joins;
    }

    private BoneInterface face(String id, int number, String label, String bone, FaceFrame face) {
        FaceFrame there = face.moved(sceneToReference);
        PlanePatch patch = new PlanePatch(
                PlanePatch.Outline.RECTANGLE,
                there.centre(),
                there.u(),
                there.v(),
                there.normal(),
                there.halfUMm(),
                there.halfVMm());
        return new BoneInterface(id, number, label, BODY, bone, Filler.NONE, List.of(patch));
    }

    private PatientPoint at(PatientPoint p) {
        return sceneToReference.apply(p);
    }

    private PatientVector at(PatientVector v) {
        return sceneToReference.apply(v);
    }

    private static String word(DemoParts.Side side) {
        return side.name().toLowerCase(Locale.ROOT);
    }

    private static double hundredth(double mm) {
        return Math.rint(100 * mm) / 100;
    }
}
