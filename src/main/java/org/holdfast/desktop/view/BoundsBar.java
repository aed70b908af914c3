package org.holdfast.desktop.view;

import java.util.OptionalDouble;
import javafx.scene.layout.Pane;
import javafx.scene.shape.Line;
import javafx.scene.shape.Rectangle;
import org.holdfast.desktop.state.Words;

/** A line from 0 to 100 % with a box from lower to upper bound and a tick at the number; the bare line without one. */
final class BoundsBar extends Pane {

    private static final double HEIGHT = 9;

    private final Line line = new Line();
    private final Rectangle box = new Rectangle();
    private final Rectangle tick = new Rectangle();
    private OptionalDouble low = OptionalDouble.empty();
    private OptionalDouble at = OptionalDouble.empty();
    private OptionalDouble high = OptionalDouble.empty();

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

    /** Shows fractions, 0 to 1. */
    void show(OptionalDouble lower, OptionalDouble value, OptionalDouble upper) {
        low = lower;
        at = value;
        high = upper;
        setAccessibleText(
                has()
                        ? Words.percent(at.getAsDouble()) + ", bounds "
                                + Words.percentRange(low.getAsDouble(), high.getAsDouble())
                        : "not assessable");
        requestLayout();
    }

    private boolean has() {
        return low.isPresent() && at.isPresent() && high.isPresent();
    }

    @Override
    protected void layoutChildren() {
        double width = getWidth();
        double middle = Math.floor(HEIGHT / 2) + 0.5;
        line.setStartX(0);
        line.setEndX(width);
        line.setStartY(middle);
        line.setEndY(middle);
        boolean has = has();
        box.setVisible(has);
        tick.setVisible(has);
        if (has) {
            double left = Math.rint(low.getAsDouble() * width);
            box.setX(left + 0.5);
            box.setY(middle - 3);
            box.setWidth(Math.max(2, Math.rint(high.getAsDouble() * width) - left));
            box.setHeight(6);
            tick.setX(Math.rint(at.getAsDouble() * width) - 1);
            tick.setY(0);
            tick.setWidth(3);
            tick.setHeight(HEIGHT);
        }
    }
}
