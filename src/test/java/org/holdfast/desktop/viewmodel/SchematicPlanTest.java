package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.ConstructJson;
import org.holdfast.construct.ConstructPart;
import org.holdfast.construct.ConstructReadException;
import org.holdfast.construct.Filler;
import org.holdfast.construct.MeshShape;
import org.holdfast.construct.PlanePatch;
import org.holdfast.construct.ScrewShape;
import org.holdfast.desktop.viewmodel.SchematicPlan.BoneOutline;
import org.holdfast.desktop.viewmodel.SchematicPlan.Item;
import org.holdfast.geometry.PatientVector;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** The plan of the construct of the sample images, and of constructs with little in them. */
final class SchematicPlanTest {

    private static Construct sample;

    @BeforeAll
    static void read() throws ConstructReadException {
        sample = ConstructJson.read(Path.of("sample-images/demo-subject/construct.json"));
    }

    @Test
    void thePatientsRightIsOnTheLeftAndTheHeadIsUp() {
        SchematicPlan plan = planOf(sample);
        assertTrue(item(plan, "rod-right").x1() < item(plan, "body-l1").x1());
        assertTrue(item(plan, "rod-left").x1() > item(plan, "body-l1").x2());
        assertTrue(
                item(plan, "screw-t12-left").y1() < item(plan, "screw-l2-left").y1());
        assertTrue(item(plan, "rod-left").y1() < item(plan, "rod-left").y2());
    }

    @Test
    void everyPartAndBoneOfTheSampleHasAPlace() {
        SchematicPlan plan = planOf(sample);
        assertEquals(9, plan.items().size());
        assertEquals(
                List.of("T12", "L2"),
                plan.bones().stream()
                        .map(BoneOutline::label)
                        .sorted(java.util.Comparator.reverseOrder())
                        .toList());
    }

    @Test
    void screwsOfAPairDoNotReachOneAnother() {
        SchematicPlan plan = planOf(sample);
        for (String level : List.of("t12", "l2")) {
            Item right = item(plan, "screw-" + level + "-right");
            Item left = item(plan, "screw-" + level + "-left");
            assertTrue(right.x1() < right.x2() && right.x2() < left.x2() && left.x2() < left.x1(), level);
        }
    }

    @Test
    void aScrewAloneIsDrawnInItsBone() {
        SchematicPlan plan = planOf(with(List.of(component("screw-l2-right"))));
        assertEquals(1, plan.items().size());
        assertEquals(1, plan.bones().size());
        BoneOutline bone = plan.bones().get(0);
        Item screw = plan.items().get(0);
        assertTrue(bone.top() < screw.y1() && screw.y1() < bone.bottom());
        assertTrue(bone.left() < bone.right());
    }

    @Test
    void aMeshHasNoPlace() {
        Component body = component("body-l1");
        MeshShape mesh = new MeshShape("body.stl", "0".repeat(64));
        Component meshed = new Component(
                body.id(),
                body.number(),
                body.label(),
                body.kind(),
                body.material(),
                body.implantedOn(),
                body.removedOn(),
                body.porous(),
                mesh);
        Construct construct = with(List.of(meshed));
        assertFalse(ConstructPart.of(construct).isEmpty());
        assertEquals(List.of(), planOf(construct).items());
    }

    @Test
    void aFaceAtTheSideStandsUprightBesideItsBody() {
        Component body = component("body-l1");
        PatientVector left = sample.axes().left();
        PlanePatch patch = new PlanePatch(
                PlanePatch.Outline.RECTANGLE,
                sample.axes().origin().along(left, 15),
                sample.axes().posterior(),
                sample.axes().cranial(),
                left,
                10,
                10);
        BoneInterface side = new BoneInterface("side", 1, "Left side", body.id(), "l2", Filler.NONE, List.of(patch));
        SchematicPlan plan = planOf(with(List.of(body), List.of(side)));
        Item drawn = item(plan, "side");
        // By hand: the face is 20 mm high and has no width seen edge on
        assertEquals(drawn.x1(), drawn.x2(), 1e-9);
        assertEquals(20, Math.abs(drawn.y2() - drawn.y1()), 1e-9);
        assertTrue(drawn.x1() > item(plan, body.id()).x2());
    }

    @Test
    void aShortScrewAloneStillHasABoneAroundIt() {
        Component screw = component("screw-l2-left");
        ScrewShape shape = (ScrewShape) screw.shape();
        ScrewShape shorter = new ScrewShape(
                shape.head(), shape.head().along(shape.direction(), 10), shape.diameterMm(), shape.bone(), 1, 9);
        Component cut = new Component(
                screw.id(),
                screw.number(),
                screw.label(),
                screw.kind(),
                screw.material(),
                screw.implantedOn(),
                screw.removedOn(),
                screw.porous(),
                shorter);
        SchematicPlan plan = planOf(with(List.of(cut)));
        BoneOutline bone = plan.bones().get(0);
        Item drawn = plan.items().get(0);
        assertTrue(bone.left() < Math.min(drawn.x1(), drawn.x2()), plan::toString);
        assertTrue(bone.right() > Math.max(drawn.x1(), drawn.x2()), plan::toString);
    }

    private static SchematicPlan planOf(Construct construct) {
        return SchematicPlan.of(construct, ConstructPart.of(construct));
    }

    private static Component component(String id) {
        return sample.component(id);
    }

    /** The sample construct with these components only and no interface. */
    private static Construct with(List<Component> components) {
        return with(components, List.of());
    }

    private static Construct with(List<Component> components, List<BoneInterface> interfaces) {
        return new Construct(
                sample.id(),
                sample.version(),
                sample.operationDate(),
                sample.referenceSeriesUid(),
                sample.frameOfReferenceUid(),
                sample.axes(),
                sample.bones(),
                components,
                List.of(),
                interfaces);
    }

    private static Item item(SchematicPlan plan, String id) {
        return plan.items().stream()
                .filter(item -> item.part().id().equals(id))
                .findFirst()
                .orElseThrow();
    }
}
