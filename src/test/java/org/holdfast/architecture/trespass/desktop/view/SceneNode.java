package org.holdfast.architecture.trespass.desktop.view;

/** Stands for the toolkit's node. */
public class SceneNode {

    /** Stands for a control. */
    public static final class Button extends SceneNode {}
}
