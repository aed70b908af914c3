package org.holdfast.desktop.view;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import javafx.geometry.Bounds;
import javafx.geometry.VPos;
import javafx.scene.AccessibleRole;
import javafx.scene.Group;
import javafx.scene.Node;
import javafx.scene.layout.Region;
import javafx.scene.shape.Circle;
import javafx.scene.shape.Rectangle;
import javafx.scene.text.Text;
import org.holdfast.construct.Construct;
import org.holdfast.construct.ConstructPart;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.viewmodel.SchematicPlan;
import org.holdfast.desktop.viewmodel.SchematicPlan.Item;

/**
 * The construct from the front, the patient's right on the left, each part tinted by its state; a click or the focus chooses
 * a part. A part without a place, such as a mesh, is not drawn.
 */
final class Schematic extends Region {

    private static final double SIDE = 12;
    private static final double END = 19;
    private static final double LEAST = 40;
    private static final double FRAME = 3.5;

    private final SchematicPlan plan;
    private final Group bones = new Group();
    private final Group parts = new Group();
    private final Group above = new Group();
    private Map<String, SchematicState> states = new HashMap<>();
    private String pickedId = "";
    private boolean compact;
    private Consumer<String> onPick = id -> {};

    Schematic(Construct construct, List<ConstructPart> rows) {
        plan = SchematicPlan.of(construct, rows);
        for (Item item : plan.items()) {
            SchematicPart part =
                    new SchematicPart(item, () -> onPick.accept(item.part().id()));
            parts.getChildren().add(part);
        }
        for (Group group : new Group[] {bones, parts, above}) {
            group.setManaged(false);
            getChildren().add(group);
        }
        bones.setMouseTransparent(true);
        above.setMouseTransparent(true);
        setAccessibleRole(AccessibleRole.PARENT);
        setAccessibleText("schematic of the construct from the front, the patient's right on the left");
    }

    void setOnPick(Consumer<String> picked) {
        onPick = picked;
    }

    void show(Map<String, SchematicState> partStates, String picked, boolean isCompact) {
        if (partStates.equals(states) && picked.equals(pickedId) && compact == isCompact) {
            return;
        }
        states = Map.copyOf(partStates);
        pickedId = picked;
        compact = isCompact;
        requestLayout();
    }

    @Override
    protected void layoutChildren() {
        boolean fits = !plan.items().isEmpty() && getWidth() >= LEAST && getHeight() >= LEAST;
        bones.getChildren().clear();
        above.getChildren().clear();
        parts.setVisible(fits);
        if (!fits) {
            return;
        }
        SchematicScale scale = SchematicScale.of(plan, SIDE, END, getWidth() - 2 * SIDE, getHeight() - 2 * END);
        plan.bones().forEach(bone -> bones.getChildren().add(new SchematicBone(bone, plan, scale)));
        Map<Item, Bounds> drawn = new LinkedHashMap<>();
        for (Node node : parts.getChildren()) {
            SchematicPart part = (SchematicPart) node;
            String id = part.item().part().id();
            drawn.put(part.item(), part.show(states.getOrDefault(id, unknown()), scale));
        }
        drawn.forEach((item, bounds) -> {
            if (item.part().id().equals(pickedId)) {
                frame(bounds);
            }
        });
        numbers(drawn);
        side("R", 1);
        side("L", getWidth() - 8);
    }

    private void frame(Bounds part) {
        Rectangle frame = new Rectangle(
                Math.floor(part.getMinX() - FRAME),
                Math.floor(part.getMinY() - FRAME),
                Math.ceil(part.getWidth() + 2 * FRAME),
                Math.ceil(part.getHeight() + 2 * FRAME));
        frame.setArcWidth(6);
        frame.setArcHeight(6);
        frame.getStyleClass().add("schematic-frame");
        above.getChildren().add(frame);
    }

    private void numbers(Map<Item, Bounds> drawn) {
        SchematicNumbers places = new SchematicNumbers(drawn, getWidth(), getHeight());
        for (Item item : drawn.keySet()) {
            double[] at = places.place(item);
            boolean picked = item.part().id().equals(pickedId);
            if (!compact || picked) {
                number(Integer.toString(item.part().number()), at, picked);
            }
        }
    }

    private void number(String digits, double[] at, boolean picked) {
        Circle ring = new Circle(at[0], at[1], SchematicNumbers.RADIUS);
        Text text = new Text(digits);
        text.setTextOrigin(VPos.CENTER);
        ring.getStyleClass().add("schematic-ring");
        text.getStyleClass().add("schematic-number");
        StyleClass.toggle(ring, "picked", picked);
        StyleClass.toggle(text, "picked", picked);
        above.getChildren().addAll(ring, text);
        text.applyCss();
        text.setX(Math.rint(at[0] - text.getLayoutBounds().getWidth() / 2));
        text.setY(at[1]);
    }

    private void side(String letter, double x) {
        Text text = new Text(x, getHeight() - 2, letter);
        text.getStyleClass().add("schematic-label");
        bones.getChildren().add(text);
    }

    private static SchematicState unknown() {
        return new SchematicState(PartState.NOT_MEASURED, OptionalDouble.empty(), PartState.NOT_MEASURED.words());
    }
}
