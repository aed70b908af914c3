package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.holdfast.construct.Bone;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.Component;
import org.holdfast.construct.ComponentKind;
import org.holdfast.construct.Construct;
import org.holdfast.construct.ConstructJson;
import org.holdfast.construct.ConstructPart;
import org.holdfast.construct.Filler;
import org.holdfast.construct.MeshShape;
import org.holdfast.construct.PlanePatch;
import org.holdfast.construct.Shape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.junit.jupiter.api.Test;

final class SchematicPlanTest {

    private static Construct demo() throws Exception {
        return ConstructJson.read(Path.of("sample-images/demo-subject/construct.json"));
    }

    private static Construct with(
            Construct from, List<Bone> bones, List<Component> components, List<BoneInterface> faces) {
        return new Construct(
                from.id(),
                from.version(),
                from.operationDate(),
                from.referenceSeriesUid(),
                from.frameOfReferenceUid(),
                from.axes(),
                bones,
                components,
                List.of(),
                faces);
    }

    private static SchematicPlan plan(Construct construct) {
        return SchematicPlan.of(construct, ConstructPart.of(construct));
    }

    private static FrontPart part(SchematicPlan plan, String id) {
        return plan.parts().stream()
                .filter(part -> part.part().id().equals(id))
                .findFirst()
                .orElseThrow();
    }

    // Source: sample-images/demo-subject/construct.json: box of half 15 × 13 × 21 mm along the axes, at their origin
    @Test
    void projectsABoxOntoTheConstructsAxes() throws Exception {
        FrontPart body = part(plan(demo()), "body-l1");
        assertEquals(-15, body.first().leftMm(), 1e-6);
        assertEquals(-21, body.first().downMm(), 1e-6);
        assertEquals(15, body.last().leftMm(), 1e-6);
        assertEquals(21, body.last().downMm(), 1e-6);
        assertTrue(body.porous());
    }

    // By hand: T12 ends at the cranial face, 21 mm above the origin, and reaches 12 mm beyond its screws
    @Test
    void endsABoneAtItsFace() throws Exception {
        List<FrontBone> bones = plan(demo()).bones();
        assertEquals(List.of("T12", "L2"), bones.stream().map(FrontBone::label).toList());
        assertEquals(-21, bones.get(0).bottomMm(), 0.05);
        assertEquals(21, bones.get(1).topMm(), 0.05);
        assertTrue(bones.get(0).topMm()
                < part(plan(demo()), "screw-t12-left").first().downMm() - 10);
    }

    @Test
    void drawsASingleScrewInItsBone() throws Exception {
        Construct demo = demo();
        Component screw = demo.component("screw-t12-left");
        SchematicPlan plan = plan(with(demo, List.of(demo.bone("t12")), List.of(screw), List.of()));
        assertEquals(1, plan.parts().size());
        // By hand: a bone without a face is 26 mm high at least, with the screw in its middle
        FrontBone bone = plan.bones().get(0);
        assertEquals(26, bone.bottomMm() - bone.topMm(), 1e-9);
        assertEquals(part(plan, screw.id()).middle().downMm(), (bone.topMm() + bone.bottomMm()) / 2, 1e-9);
    }

    @Test
    void leavesOutAMeshThatHasNoPlace() throws Exception {
        Construct demo = demo();
        Shape mesh = new MeshShape("body.stl", "0".repeat(64));
        Component part = new Component(
                "mesh",
                1,
                "Custom body",
                ComponentKind.CUSTOM_BODY,
                demo.components().get(0).material(),
                LocalDate.of(2024, 3, 11),
                Optional.empty(),
                Optional.empty(),
                mesh);
        SchematicPlan plan = plan(with(demo, demo.bones(), List.of(part), List.of()));
        assertEquals(List.of(), plan.parts());
        assertEquals(List.of(), plan.bones());
    }

    // By hand: a face to the patient's left stands upright in the drawing, its bone to its right
    @Test
    void standsASideFaceUpright() throws Exception {
        Construct demo = demo();
        Component body = demo.component("body-l1");
        PatientVector normal = demo.axes().left();
        PatientPoint centre = demo.axes().origin().along(normal, 15);
        PlanePatch patch = new PlanePatch(
                PlanePatch.Outline.RECTANGLE,
                centre,
                demo.axes().posterior(),
                demo.axes().cranial(),
                normal,
                10,
                10);
        BoneInterface face = new BoneInterface("side", 1, "Side", body.id(), "l2", Filler.NONE, List.of(patch));
        SchematicPlan plan = plan(with(demo, List.of(demo.bone("l2")), List.of(body), List.of(face)));
        FrontPart drawn = part(plan, "side");
        assertEquals(drawn.first().leftMm(), drawn.last().leftMm(), 1e-9);
        assertEquals(20, Math.abs(drawn.last().downMm() - drawn.first().downMm()), 1e-9);
        assertTrue(plan.bones().get(0).middleMm() > 15, plan.bones().toString());
    }
}
