package org.holdfast.desktop.view;

import static org.holdfast.desktop.WindowTest.fx;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import javafx.scene.AccessibleAction;
import javafx.scene.Node;
import javafx.scene.Scene;
import org.holdfast.construct.Construct;
import org.holdfast.construct.ConstructJson;
import org.holdfast.construct.ConstructPart;
import org.holdfast.desktop.WindowTest;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.state.SchematicState;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;

@ExtendWith(WindowTest.class)
final class SchematicTest {

    private static Construct demo() throws Exception {
        return ConstructJson.read(Path.of("sample-images/demo-subject/construct.json"));
    }

    private static Schematic schematic(Construct construct) {
        return new Schematic(construct, ConstructPart.of(construct));
    }

    private static Schematic laidOut(Construct construct, Map<String, SchematicState> states, String picked) {
        Schematic node = schematic(construct);
        Scene scene = new Scene(node, 132, 240);
        Theme.DARK.apply(scene);
        node.show(states, picked, false);
        node.resize(132, 240);
        node.layout();
        return node;
    }

    private static SchematicPart part(Schematic node, String id) {
        return node.lookupAll(".schematic-part").stream()
                .map(SchematicPart.class::cast)
                .filter(part -> part.id().equals(id))
                .findFirst()
                .orElseThrow();
    }

    private static SchematicState state(PartState state) {
        return new SchematicState(state, OptionalDouble.empty());
    }

    @Test
    void drawsEveryPartInsideThePicture() throws Exception {
        Construct construct = demo();
        Schematic node = fx(() -> laidOut(construct, Map.of(), ""));
        for (ConstructPart part : ConstructPart.of(construct)) {
            Node drawn = part(node, part.id());
            var bounds = drawn.getLayoutBounds();
            assertTrue(bounds.getMinX() >= 0 && bounds.getMaxX() <= 132, part.id() + " " + bounds);
            assertTrue(bounds.getMinY() >= 0 && bounds.getMaxY() <= 240, part.id() + " " + bounds);
        }
    }

    @Test
    void tellsAPartAndItsState() throws Exception {
        Construct construct = demo();
        Map<String, SchematicState> states =
                Map.of("cranial-face", new SchematicState(PartState.NO_FINDING, OptionalDouble.of(0.765)));
        Schematic node = fx(() -> laidOut(construct, states, ""));
        assertEquals("Rod right, not measured", part(node, "rod-right").getAccessibleText());
        assertEquals(
                "Cranial endplate, T12, no finding, 76.5\u2009%",
                part(node, "cranial-face").getAccessibleText());
    }

    @Test
    void picksThePartThatAScreenReaderFires() throws Exception {
        Construct construct = demo();
        List<String> picked = new ArrayList<>();
        fx(() -> {
            Schematic node = laidOut(construct, Map.of(), "");
            node.setOnPick(picked::add);
            part(node, "rod-left").executeAccessibleAction(AccessibleAction.FIRE);
            return null;
        });
        assertEquals(List.of("rod-left"), picked);
    }

    // By hand: the patient's right stands on the left of the drawing, the head at its top
    @Test
    void looksFromTheFront() throws Exception {
        Construct construct = demo();
        Schematic node = fx(() -> laidOut(construct, Map.of(), ""));
        double rightX = part(node, "screw-t12-right")
                .getChildren()
                .get(0)
                .getBoundsInParent()
                .getCenterX();
        double leftX = part(node, "screw-t12-left")
                .getChildren()
                .get(0)
                .getBoundsInParent()
                .getCenterX();
        double upperY = part(node, "screw-t12-left")
                .getChildren()
                .get(0)
                .getBoundsInParent()
                .getCenterY();
        double lowerY = part(node, "screw-l2-left")
                .getChildren()
                .get(0)
                .getBoundsInParent()
                .getCenterY();
        assertTrue(rightX < leftX && upperY < lowerY, rightX + " " + leftX + " " + upperY + " " + lowerY);
    }

    @Test
    void showsThePickedNumberAloneWhenSmall() throws Exception {
        Construct construct = demo();
        List<String> shown = fx(() -> {
            Schematic node = laidOut(construct, Map.of(), "rod-left");
            node.show(Map.of(), "rod-left", true);
            node.layout();
            return node.lookupAll(".schematic-ring").stream()
                    .filter(Node::isVisible)
                    .map(ring -> ((javafx.scene.control.Label) ring).getText())
                    .toList();
        });
        // By hand: order of the demo's review, screws T12 right and left, cranial face, rod right, body, rod left
        assertEquals(List.of("6"), shown);
    }

    @Test
    void drawsAtAnySize() throws Exception {
        Construct construct = demo();
        for (double size : new double[] {1, 20, 60, 900}) {
            int shapes = fx(() -> {
                Schematic node = laidOut(construct, Map.of("rod-left", state(PartState.FAULT)), "rod-left");
                node.resize(size, size);
                node.layout();
                return part(node, "rod-left").getChildren().size();
            });
            assertTrue(shapes > 0, "at " + size);
        }
    }

    @Test
    void canBePictured() throws Exception {
        assumeTrue(Snapshot.wanted(), "skipped: no place for pictures");
        Construct construct = demo();
        List<ConstructPart> parts = ConstructPart.of(construct);
        Map<String, SchematicState> story = new HashMap<>();
        parts.forEach(part -> story.put(part.id(), state(PartState.NO_FINDING)));
        story.put("cranial-face", new SchematicState(PartState.NO_FINDING, OptionalDouble.of(0.765)));
        story.put("caudal-face", new SchematicState(PartState.NO_FINDING, OptionalDouble.of(0.612)));
        story.put("rod-right", state(PartState.FAULT));
        story.put("body-l1", state(PartState.CHANGED));
        story.put("screw-l2-left", state(PartState.FAULT));
        List<Map<String, SchematicState>> stories = new ArrayList<>(List.of(story, Map.of()));
        for (PartState each : PartState.values()) {
            Map<String, SchematicState> all = new HashMap<>();
            parts.forEach(part -> all.put(part.id(), state(each)));
            stories.add(all);
        }
        for (Theme theme : Theme.values()) {
            for (boolean small : new boolean[] {false, true}) {
                fx(() -> {
                    javafx.scene.layout.HBox row = new javafx.scene.layout.HBox(8);
                    for (Map<String, SchematicState> each : stories) {
                        Schematic node = schematic(construct);
                        node.show(each, "cranial-face", small);
                        node.setMinSize(small ? 110 : 132, small ? 190 : 240);
                        node.setMaxSize(small ? 110 : 132, small ? 190 : 240);
                        row.getChildren().add(node);
                    }
                    String name = "schematic-" + theme + (small ? "-small" : "");
                    Snapshot.write(name, row, 140 * stories.size(), 250, 1.5, theme, small);
                    return null;
                });
            }
        }
    }
}
