package org.holdfast.architecture.trespass.desktop.viewmodel;

import org.holdfast.architecture.trespass.desktop.view.SceneNode;

/** A view model that knows a control. */
public record HoldsButton(SceneNode.Button button) {}
