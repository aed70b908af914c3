package org.holdfast.desktop.view;

import javafx.scene.control.Label;

/** A key as it is written on a keyboard. */
final class KeyCap extends Label {

    KeyCap(String key) {
        super(key);
        getStyleClass().add("key-cap");
        setMinWidth(USE_PREF_SIZE);
    }
}
