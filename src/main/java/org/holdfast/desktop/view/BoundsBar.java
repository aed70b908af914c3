package org.holdfast.desktop.view;

import javafx.scene.layout.Pane;
import javafx.scene.shape.Line;
import javafx.scene.shape.Rectangle;
import org.holdfast.desktop.viewmodel.NumberUnder.Bar;

/** A scale with a box from lower to upper bound and a tick at the number; the bare line without them. */
final class BoundsBar extends Pane {

    private static final double HEIGHT = 9;

    private final Line line = new Line();
    private final Rectangle box = new Rectangle();
    private final Rectangle tick = new Rectangle();
    private Bar shown = Bar.NONE;

    BoundsBar() {
        setMinHeight(HEIGHT);
        setPrefHeight(HEIGHT);
        setMaxHeight(HEIGHT);
        line.getStyleClass().add("bounds-line");
        box.getStyleClass().add("bounds-box");
        tick.getStyleClass().add("bounds-tick");
        line.setManaged(false);
        box.setManaged(false);
        tick.setManaged(false);
        getChildren().addAll(line, box, tick);
    }

    /** Shows a number with its bounds; the words beside the bar say the same. */
    void show(Bar bar) {
        shown = bar;
        requestLayout();
    }

    @Override
    protected void layoutChildren() {
        double width = getWidth();
        double middle = Math.floor(HEIGHT / 2) + 0.5;
        line.setStartX(0);
        line.setEndX(width);
        line.setStartY(middle);
        line.setEndY(middle);
        boolean isBounded = shown.low().isPresent() && shown.high().isPresent();
        box.setVisible(isBounded);
        tick.setVisible(shown.at().isPresent());
        if (isBounded) {
            double left = Math.rint(shown.low().getAsDouble() * width);
            box.setX(left + 0.5);
            box.setY(middle - 3);
            box.setWidth(Math.max(2, Math.rint(shown.high().getAsDouble() * width) - left));
            box.setHeight(6);
        }
        if (shown.at().isPresent()) {
            tick.setX(Math.rint(shown.at().getAsDouble() * width) - 1);
            tick.setY(0);
            tick.setWidth(3);
            tick.setHeight(HEIGHT);
        }
    }
}
