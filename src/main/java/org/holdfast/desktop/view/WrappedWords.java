package org.holdfast.desktop.view;

import javafx.scene.control.Label;
import javafx.scene.layout.Region;

/** Words that take as many lines as they need, and are never cut. */
final class WrappedWords {

    private WrappedWords() {}

    static Label of(String... classes) {
        Label label = new Label();
        label.setWrapText(true);
        label.setMinHeight(Region.USE_PREF_SIZE);
        label.getStyleClass().addAll(classes);
        return label;
    }
}
