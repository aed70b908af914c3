package org.holdfast.desktop.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import javafx.geometry.Bounds;
import javafx.scene.Node;
import javafx.scene.Parent;
import javafx.scene.Scene;
import javafx.scene.layout.Pane;
import javafx.scene.shape.Circle;
import javafx.scene.shape.Rectangle;
import org.holdfast.construct.Construct;
import org.holdfast.construct.ConstructJson;
import org.holdfast.construct.ConstructPart;
import org.holdfast.construct.PartKind;
import org.holdfast.desktop.WindowTest;
import org.holdfast.desktop.state.PartState;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;

/** The schematic of the construct of the sample images. */
@ExtendWith(WindowTest.class)
final class SchematicTest {

    private static final double WIDTH = 132;
    private static final double HEIGHT = 240;

    @Test
    void everyPartSaysItsNameAndState() throws Exception {
        WindowTest.fxRun(() -> {
            Schematic schematic = laidOut("rod-right", PartState.NOT_MEASURED, false);
            List<String> words =
                    parts(schematic).stream().map(Node::getAccessibleText).toList();
            assertEquals(9, words.size());
            assertTrue(words.stream().allMatch(text -> text.endsWith(", not measured")), words::toString);
            assertTrue(parts(schematic).stream().allMatch(Node::isFocusTraversable));
        });
    }

    @Test
    void aClickChoosesThePart() throws Exception {
        WindowTest.fxRun(() -> {
            Schematic schematic = laidOut("rod-right", PartState.NO_FINDING, false);
            List<String> picked = new ArrayList<>();
            schematic.setOnPick(picked::add);
            SchematicPart body = part(schematic, "body-l1");
            body.getOnMousePressed().handle(Events.pressed());
            assertEquals(List.of("body-l1"), picked);
        });
    }

    @Test
    void allIsDrawnWithinItsPlaceAndNumbersDoNotMeet() throws Exception {
        WindowTest.fxRun(() -> {
            Schematic schematic = laidOut("cranial-face", PartState.FAULT, false);
            for (SchematicPart part : parts(schematic)) {
                Bounds bounds = part.getBoundsInParent();
                assertTrue(
                        bounds.getMinX() >= 0
                                && bounds.getMinY() >= 0
                                && bounds.getMaxX() <= WIDTH
                                && bounds.getMaxY() <= HEIGHT,
                        part.getAccessibleText() + " at " + bounds);
            }
            List<Circle> rings = all(schematic, Circle.class, "schematic-ring");
            assertEquals(9, rings.size());
            for (Circle one : rings) {
                for (Circle other : rings) {
                    double apart =
                            Math.hypot(one.getCenterX() - other.getCenterX(), one.getCenterY() - other.getCenterY());
                    assertTrue(one == other || apart >= 2 * SchematicNumbers.RADIUS, "rings " + apart + " px apart");
                }
            }
        });
    }

    @Test
    void onlyTheChosenNumberStaysInACompactDrawing() throws Exception {
        WindowTest.fxRun(() -> {
            Schematic schematic = laidOut("cranial-face", PartState.NO_FINDING, true);
            assertEquals(1, all(schematic, Circle.class, "schematic-ring").size());
        });
    }

    @Test
    void anInterfaceIsFilledToItsShare() throws Exception {
        WindowTest.fxRun(() -> {
            Schematic schematic = laidOut("rod-right", PartState.NO_FINDING, false);
            SchematicPart face = part(schematic, "cranial-face");
            double whole = all(face, Rectangle.class, "part-outline").get(0).getWidth();
            double filled = all(face, Rectangle.class, "part-share").get(0).getWidth();
            // By hand: a quarter of what lies within a margin of 2 px on either side
            assertEquals(0.25 * (whole - 4), filled, 1e-9);
        });
    }

    @Test
    void aBrokenRodHasAGapAndAWholeOneHasNone() throws Exception {
        WindowTest.fxRun(() -> {
            SchematicPart broken = part(laidOut("rod-right", PartState.FAULT, false), "rod-left");
            SchematicPart whole = part(laidOut("rod-right", PartState.NO_FINDING, false), "rod-left");
            assertEquals(2, all(broken, Node.class, "part-shape").size());
            assertEquals(2, all(broken, Node.class, "part-break").size());
            assertEquals(1, all(whole, Node.class, "part-shape").size());
            assertTrue(all(whole, Node.class, "part-break").isEmpty());
        });
    }

    @Test
    void aPlaceThatIsTooSmallStaysEmpty() throws Exception {
        WindowTest.fxRun(() -> {
            Schematic schematic = laidOut("rod-right", PartState.NO_FINDING, false);
            schematic.resize(20, 20);
            schematic.layout();
            assertTrue(all(schematic, Circle.class, "schematic-ring").isEmpty());
            assertFalse(parts(schematic).get(0).getParent().isVisible());
        });
    }

    private static Schematic laidOut(String picked, PartState state, boolean compact) {
        Construct construct = construct();
        List<ConstructPart> rows = ConstructPart.of(construct);
        Map<String, SchematicState> states = new HashMap<>();
        for (ConstructPart row : rows) {
            OptionalDouble share = row.kind() == PartKind.INTERFACE ? OptionalDouble.of(0.25) : OptionalDouble.empty();
            states.put(row.id(), new SchematicState(state, share, state.words()));
        }
        Schematic schematic = new Schematic(construct, rows);
        schematic.show(states, picked, compact);
        Theme.DARK.apply(new Scene(new Pane(schematic)));
        schematic.resize(WIDTH, HEIGHT);
        schematic.applyCss();
        schematic.layout();
        schematic.applyCss();
        return schematic;
    }

    private static Construct construct() {
        try {
            return ConstructJson.read(Path.of("sample-images/demo-subject/construct.json"));
        } catch (org.holdfast.construct.ConstructReadException e) {
            throw new AssertionError(e);
        }
    }

    private static List<SchematicPart> parts(Schematic schematic) {
        return all(schematic, SchematicPart.class, "schematic-item");
    }

    private static SchematicPart part(Schematic schematic, String id) {
        Optional<SchematicPart> found = parts(schematic).stream()
                .filter(part -> part.item().part().id().equals(id))
                .findFirst();
        return found.orElseThrow();
    }

    /** All nodes of a type under a node with a style class. */
    private static <T extends Node> List<T> all(Parent under, Class<T> type, String styleClass) {
        List<T> found = new ArrayList<>();
        for (Node child : under.getChildrenUnmodifiable()) {
            if (type.isInstance(child) && child.getStyleClass().contains(styleClass)) {
                found.add(type.cast(child));
            }
            if (child instanceof Parent parent) {
                found.addAll(all(parent, type, styleClass));
            }
        }
        return found;
    }
}
