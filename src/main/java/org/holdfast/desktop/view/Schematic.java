package org.holdfast.desktop.view;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import javafx.scene.AccessibleRole;
import javafx.scene.Group;
import javafx.scene.control.Label;
import javafx.scene.layout.Region;
import javafx.scene.shape.CubicCurveTo;
import javafx.scene.shape.LineTo;
import javafx.scene.shape.MoveTo;
import javafx.scene.shape.Path;
import javafx.scene.text.Text;
import org.holdfast.construct.Construct;
import org.holdfast.construct.ConstructPart;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.viewmodel.SchematicPlan;
import org.holdfast.desktop.viewmodel.SchematicPlan.BoneOutline;
import org.holdfast.desktop.viewmodel.SchematicPlan.Item;

/** The construct from the front, each part tinted by its state; a click chooses a part. */
final class Schematic extends Region {

    private static final double MARGIN = 10;
    private static final double NUMBER_ROOM = 12;

    private final SchematicPlan plan;
    private final Group bones = new Group();
    private final Group drawing = new Group();
    private Map<String, SchematicState> states = new HashMap<>();
    private String pickedId = "";
    private boolean compact;
    private Consumer<String> onPick = id -> {};

    Schematic(Construct construct, List<ConstructPart> parts) {
        plan = SchematicPlan.of(construct, parts);
        bones.setManaged(false);
        drawing.setManaged(false);
        getChildren().addAll(bones, drawing);
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
        bones.getChildren().clear();
        drawing.getChildren().clear();
        if (plan.items().isEmpty() || getWidth() < 40 || getHeight() < 40) {
            return;
        }
        SchematicScale scale =
                SchematicScale.of(plan, getWidth(), getHeight(), compact ? MARGIN : MARGIN + NUMBER_ROOM, MARGIN);
        plan.bones().forEach(bone -> bone(bone, scale));
        for (Item item : plan.items()) {
            SchematicState state = states.getOrDefault(
                    item.part().id(),
                    new SchematicState(PartState.NOT_MEASURED, OptionalDouble.empty(), PartState.NOT_MEASURED.words()));
            SchematicPart part =
                    new SchematicPart(item, state, scale, item.part().id().equals(pickedId));
            part.setOnMousePressed(event -> {
                onPick.accept(item.part().id());
                event.consume();
            });
            drawing.getChildren().add(part);
        }
        for (Item item : plan.items()) {
            boolean picked = item.part().id().equals(pickedId);
            if (!compact || picked) {
                number(item, scale, picked);
            }
        }
        if (!compact) {
            side("R", 2);
            side("L", getWidth() - 9);
        }
    }

    private void bone(BoneOutline bone, SchematicScale scale) {
        double left = scale.x(bone.left());
        double right = scale.x(bone.right());
        double top = scale.y(bone.top());
        double bottom = scale.y(bone.bottom());
        double waist = (right - left) * 0.06;
        double third = (bottom - top) / 3;
        Path path = new Path(
                new MoveTo(left, top),
                new LineTo(right, top),
                new CubicCurveTo(right - waist, top + third, right - waist, bottom - third, right, bottom),
                new LineTo(left, bottom),
                new CubicCurveTo(left + waist, bottom - third, left + waist, top + third, left, top));
        path.getStyleClass().add("schematic-bone");
        Text label = new Text(bone.label());
        label.getStyleClass().add("schematic-label");
        label.setX((left + right) / 2 - label.getLayoutBounds().getWidth() / 2);
        // Outwards of the screws, which cross the middle of a vertebra.
        boolean isUpper = (top + bottom) / 2 < getHeight() / 2;
        label.setY(isUpper ? top + 10 : bottom - 4);
        bones.getChildren().addAll(path, label);
    }

    private void number(Item item, SchematicScale scale, boolean picked) {
        Label number = new Label(Integer.toString(item.part().number()));
        number.getStyleClass().add("schematic-number");
        StyleClass.toggle(number, "picked", picked);
        number.setMouseTransparent(true);
        double radius = 7;
        double[] at = SchematicNumbers.place(item, plan, scale);
        number.setMinSize(2 * radius, 2 * radius);
        number.setPrefSize(2 * radius, 2 * radius);
        number.setMaxSize(2 * radius, 2 * radius);
        number.relocate(at[0] - radius, at[1] - radius);
        drawing.getChildren().add(number);
    }

    private void side(String letter, double x) {
        Text text = new Text(x, getHeight() - 2, letter);
        text.getStyleClass().add("schematic-label");
        bones.getChildren().add(text);
    }
}
