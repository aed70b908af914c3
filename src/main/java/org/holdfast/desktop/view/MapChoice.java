package org.holdfast.desktop.view;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.FlowPane;
import org.holdfast.desktop.state.Act;
import org.holdfast.desktop.state.MapKind;
import org.holdfast.desktop.viewmodel.ReviewViewModel;

/** What the maps show, one button a kind; not there where there is nothing to choose. */
final class MapChoice extends FlowPane {

    private final Map<MapKind, ToggleButton> buttons = new EnumMap<>(MapKind.class);

    MapChoice(ReviewViewModel review) {
        super(5, 3);
        for (MapKind kind : MapKind.values()) {
            ToggleButton button = new ToggleButton(kind.words());
            button.getStyleClass().add("small-button");
            button.setAccessibleText("map: " + kind.words());
            button.setTooltip(new Tooltip(
                    "map: " + kind.words() + "  (next: " + review.bindings().keyWords(Act.NEXT_MAP) + ")"));
            button.setOnAction(event -> {
                // A press on the one that is chosen leaves it chosen.
                button.setSelected(true);
                review.map(kind);
            });
            buttons.put(kind, button);
        }
    }

    void show(List<MapKind> offered, Optional<MapKind> chosen) {
        List<ToggleButton> wanted = offered.stream().map(buttons::get).toList();
        if (!getChildren().equals(wanted)) {
            getChildren().setAll(wanted);
        }
        buttons.forEach(
                (kind, button) -> button.setSelected(chosen.filter(kind::equals).isPresent()));
        boolean isChoice = offered.size() > 1;
        setVisible(isChoice);
        setManaged(isChoice);
    }
}
