package org.holdfast.desktop.view;

import javafx.beans.binding.Bindings;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;

/** A line of a list that leads on: words, and at the right the key that does the same. */
final class PageLink extends Button {

    /**
     * @param text where it leads
     * @param key the key in words
     * @param run goes there
     */
    PageLink(String text, String key, Runnable run) {
        Label words = new Label(text);
        words.getStyleClass().add("body-text");
        Region gap = new Region();
        HBox.setHgrow(gap, Priority.ALWAYS);
        HBox line = new HBox(words, gap, new KeyCap(key));
        line.setAlignment(Pos.CENTER_LEFT);
        line.prefWidthProperty()
                .bind(Bindings.createDoubleBinding(
                        () -> Math.max(0, getWidth() - snappedLeftInset() - snappedRightInset()),
                        widthProperty(),
                        insetsProperty()));
        setGraphic(line);
        setMaxWidth(Double.MAX_VALUE);
        getStyleClass().add("first-link");
        setAccessibleText(text + ", key " + key);
        setOnAction(event -> run.run());
        // Without this Enter would press the page's main button while the focus is here.
        addEventHandler(KeyEvent.KEY_PRESSED, event -> {
            if (event.getCode() == KeyCode.ENTER) {
                event.consume();
                fire();
            }
        });
    }
}
