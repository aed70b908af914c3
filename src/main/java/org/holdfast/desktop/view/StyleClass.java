package org.holdfast.desktop.view;

import java.util.List;
import javafx.scene.Node;

/** Style classes that come and go with a state. */
final class StyleClass {

    private StyleClass() {}

    /** Puts a class onto a node or takes it off. */
    static void toggle(Node node, String name, boolean on) {
        List<String> classes = node.getStyleClass();
        if (on && !classes.contains(name)) {
            classes.add(name);
        } else if (!on) {
            classes.remove(name);
        }
    }
}
