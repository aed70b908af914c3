package org.holdfast.desktop.view;

import javafx.scene.Node;
import javafx.scene.Parent;

/** Where the focus goes. */
final class FocusOrder {

    private FocusOrder() {}

    /** Gives the focus to the first node in a region that takes it; tells whether there was one. */
    static boolean into(Node region) {
        if (region.isFocusTraversable() && !region.isDisabled() && region.isVisible()) {
            region.requestFocus();
            return true;
        }
        if (region instanceof Parent parent) {
            for (Node child : parent.getChildrenUnmodifiable()) {
                if (into(child)) {
                    return true;
                }
            }
        }
        return false;
    }
}
