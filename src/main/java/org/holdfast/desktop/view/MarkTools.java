package org.holdfast.desktop.view;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.FlowPane;
import org.holdfast.desktop.state.Act;
import org.holdfast.desktop.state.Bindings;
import org.holdfast.desktop.state.MarkTool;

/** The tools that draw marks; one is in hand, or none. A mark that is drawn puts its tool away. */
final class MarkTools extends FlowPane {

    private final Map<MarkTool, ToggleButton> buttons = new EnumMap<>(MarkTool.class);
    private final ReadOnlyObjectWrapper<Optional<MarkTool>> inHand = new ReadOnlyObjectWrapper<>(Optional.empty());

    MarkTools(Bindings bindings) {
        super(5, 5);
        getStyleClass().add("mark-tools");
        for (MarkTool tool : MarkTool.values()) {
            ToggleButton button = new ToggleButton(tool.words());
            button.getStyleClass().add("small-button");
            button.setAccessibleText("draw: " + tool.words());
            button.setTooltip(new Tooltip("draw: " + tool.words() + "  (" + bindings.keyWords(key(tool)) + ")"));
            button.setOnAction(event -> take(button.isSelected() ? Optional.of(tool) : Optional.empty()));
            buttons.put(tool, button);
            getChildren().add(button);
        }
    }

    ReadOnlyObjectProperty<Optional<MarkTool>> inHandProperty() {
        return inHand.getReadOnlyProperty();
    }

    void take(Optional<MarkTool> tool) {
        inHand.set(tool);
        buttons.forEach(
                (each, button) -> button.setSelected(tool.filter(each::equals).isPresent()));
    }

    /** Takes a tool, or puts it away if it is in hand. */
    void toggle(MarkTool tool) {
        take(inHand.get().filter(tool::equals).isPresent() ? Optional.empty() : Optional.of(tool));
    }

    private static Act key(MarkTool tool) {
        return tool == MarkTool.LENGTH ? Act.LENGTH : tool == MarkTool.ANGLE ? Act.ANGLE : Act.REGION;
    }
}
