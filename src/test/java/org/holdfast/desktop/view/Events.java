package org.holdfast.desktop.view;

import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;

/** Events as the toolkit would send them. */
final class Events {

    private Events() {}

    /** The primary button pressed, at the origin. */
    static MouseEvent pressed() {
        return new MouseEvent(
                MouseEvent.MOUSE_PRESSED,
                0,
                0,
                0,
                0,
                MouseButton.PRIMARY,
                1,
                false,
                false,
                false,
                false,
                true,
                false,
                false,
                false,
                false,
                true,
                null);
    }
}
