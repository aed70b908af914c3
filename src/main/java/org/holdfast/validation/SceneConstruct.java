package org.holdfast.validation;

import java.time.LocalDate;
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
import org.holdfast.geometry.PatientPoint;
import org.holdfast.phantom.FaceFrame;
import org.holdfast.phantom.InterfaceSpec;

/** The construct of a scene with one face, laid out exactly. */
final class SceneConstruct {

    private SceneConstruct() {}

    /**
     * A box with one face against one bone.
     *
     * @param spec what the scene is made of
     * @param face where its face lies
     * @param material the implant's material; porous titanium has the scene's layer
     * @param origin origin of the construct's axes
     */
    static Construct of(InterfaceSpec spec, FaceFrame face, Material material, PatientPoint origin) {
        LocalDate day = LocalDate.of(2030, 1, 1);
        double halfThickness = 0.5 * spec.size().thicknessMm();
        Component body = new Component(
                "body",
                1,
                "body",
                ComponentKind.VERTEBRAL_BODY,
                material,
                day,
                Optional.empty(),
                material.mayBePorous()
                        ? Optional.of(
                                new Porous(ChangeScene.POROSITY, spec.implant().porousDepthMm()))
                        : Optional.empty(),
                new BoxShape(
                        face.centre().along(face.normal(), -halfThickness),
                        List.of(face.u(), face.v(), face.normal()),
                        List.of(spec.size().halfUMm(), spec.size().halfVMm(), halfThickness)));
        PlanePatch patch = new PlanePatch(
                PlanePatch.Outline.RECTANGLE,
                face.centre(),
                face.u(),
                face.v(),
                face.normal(),
                face.halfUMm(),
                face.halfVMm());
        return new Construct(
                "scene",
                1,
                day,
                "1.2.3",
                "1.2.4",
                new Axes(origin, face.u(), face.v(), face.normal()),
                List.of(new Bone("host", "host bone")),
                List.of(body),
                List.of(),
                List.of(new BoneInterface("face", 1, "face", "body", "host", Filler.NONE, List.of(patch))));
    }
}
