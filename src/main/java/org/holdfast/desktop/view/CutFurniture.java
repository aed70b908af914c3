package org.holdfast.desktop.view;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import javafx.scene.control.Label;
import javafx.scene.layout.Pane;
import javafx.scene.layout.Region;
import javafx.scene.shape.Line;

/**
 * What is written over an image, light on a dark scrim in both themes and only at its edges: nothing is drawn over the
 * interface itself. Lies over the image and lets the mouse through.
 */
public final class CutFurniture extends Pane {

    /** Length of a tick where another cut crosses, logical px. */
    static final double TICK_PX = 10;

    private static final double EDGE_PX = 3;
    private static final double LETTER_FROM_EDGE_PX = 5;
    private static final double TICK_TO_LETTER_PX = 5;

    private final Label label = text("furniture-label");
    private final Label settings = text("furniture-settings");
    private final Label left = text("furniture-letter");
    private final Label right = text("furniture-letter");
    private final Label top = text("furniture-letter");
    private final Label bottom = text("furniture-letter");
    private final ScaleBar scale = new ScaleBar();
    private final Line[] ticks = {tick(), tick(), tick(), tick()};
    private Optional<Furniture> shown = Optional.empty();

    /** Empty furniture. */
    public CutFurniture() {
        getStyleClass().add("furniture");
        setMouseTransparent(true);
        getChildren().addAll(ticks);
        getChildren().addAll(label, settings, left, right, top, bottom, scale);
        getChildren().forEach(child -> child.setManaged(false));
        setVisible(false);
    }

    private static Label text(String name) {
        Label label = new Label();
        label.getStyleClass().addAll("furniture-scrim", "furniture-text", name);
        return label;
    }

    private static Line tick() {
        Line line = new Line();
        line.getStyleClass().add("furniture-tick");
        return line;
    }

    /** Writes this over the image. */
    public void show(Furniture furniture) {
        shown = Optional.of(furniture);
        setVisible(true);
        write(label, furniture.label());
        write(settings, furniture.small() ? "" : furniture.settings());
        write(left, furniture.letters().left());
        write(right, furniture.letters().right());
        write(top, furniture.letters().top());
        write(bottom, furniture.letters().bottom());
        setAccessibleText(furniture.label());
        requestLayout();
    }

    /** Writes nothing. */
    public void clear() {
        shown = Optional.empty();
        setVisible(false);
    }

    private static void write(Label label, String text) {
        label.setText(text);
        label.setVisible(!text.isEmpty());
    }

    @Override
    protected void layoutChildren() {
        if (shown.isPresent() && getWidth() > 0 && getHeight() > 0) {
            layOut(shown.get(), getWidth(), getHeight());
        }
    }

    private void layOut(Furniture furniture, double width, double height) {
        scale.show(furniture.mmPerPx(), width);
        label.setMaxWidth(width - 2 * EDGE_PX);
        place(label, EDGE_PX, EDGE_PX);
        place(scale, width - EDGE_PX - scale.prefWidth(-1), height - EDGE_PX - scale.prefHeight(-1));
        double room = (scale.isVisible() ? scale.getLayoutX() : width) - 2 * EDGE_PX;
        settings.setMaxWidth(Math.max(0, room));
        place(settings, EDGE_PX, height - EDGE_PX - settings.prefHeight(-1));
        layOutTicks(furniture, width, height);
        placeTopAndBottom(furniture, width, height);
        placeSides(furniture, width, height);
    }

    /** The upper letter keeps right of the label; the lower one keeps clear of what stands in the lower corners. */
    private void placeTopAndBottom(Furniture furniture, double width, double height) {
        double labelEnd = label.isVisible() ? label.getLayoutX() + label.getWidth() + EDGE_PX : 0;
        double topX = besideTick(top.prefWidth(-1), furniture.tickX(), width);
        place(top, Math.max(topX, labelEnd), LETTER_FROM_EDGE_PX);
        double wide = bottom.prefWidth(-1);
        double bottomX = besideTick(wide, furniture.tickX(), width);
        double floor = height - LETTER_FROM_EDGE_PX;
        for (Region corner : List.of(settings, scale)) {
            boolean meets = corner.isVisible()
                    && bottomX < corner.getLayoutX() + corner.getWidth() + EDGE_PX
                    && bottomX + wide > corner.getLayoutX() - EDGE_PX;
            floor = meets ? Math.min(floor, corner.getLayoutY() - EDGE_PX) : floor;
        }
        place(bottom, bottomX, floor - bottom.prefHeight(-1));
    }

    private void placeSides(Furniture furniture, double width, double height) {
        double high = left.prefHeight(-1);
        double y = besideTick(high, furniture.tickY(), height);
        double underLabel = label.isVisible() ? label.getLayoutY() + label.getHeight() + EDGE_PX : 0;
        double overSettings = (settings.isVisible() ? settings.getLayoutY() - EDGE_PX : height) - high;
        double overScale = (scale.isVisible() ? scale.getLayoutY() - EDGE_PX : height) - high;
        double shared = Math.max(underLabel, Math.min(y, Math.min(overSettings, overScale)));
        place(left, LETTER_FROM_EDGE_PX, shared);
        place(right, width - LETTER_FROM_EDGE_PX - right.prefWidth(-1), shared);
    }

    private void layOutTicks(Furniture furniture, double width, double height) {
        showTick(ticks[0], furniture.tickX(), width, true, 0);
        showTick(ticks[1], furniture.tickX(), width, true, height - TICK_PX);
        showTick(ticks[2], furniture.tickY(), height, false, 0);
        showTick(ticks[3], furniture.tickY(), height, false, width - TICK_PX);
    }

    /** A tick outside of the image is not drawn at its edge: it would tell a wrong place. */
    private static void showTick(Line tick, OptionalDouble at, double extent, boolean upright, double from) {
        boolean inside = at.isPresent() && at.getAsDouble() >= 0 && at.getAsDouble() <= extent;
        tick.setVisible(inside);
        if (!inside) {
            return;
        }
        double place = at.getAsDouble();
        tick.setStartX(upright ? place : from);
        tick.setEndX(upright ? place : from + TICK_PX);
        tick.setStartY(upright ? from : place);
        tick.setEndY(upright ? from + TICK_PX : place);
    }

    /** The middle of the edge, or as near to it as the tick lets it be. */
    private static double besideTick(double size, OptionalDouble tick, double extent) {
        double middle = (extent - size) / 2;
        if (tick.isEmpty()) {
            return middle;
        }
        double at = tick.getAsDouble();
        if (at < middle - TICK_TO_LETTER_PX || at > middle + size + TICK_TO_LETTER_PX) {
            return middle;
        }
        double before = at - TICK_TO_LETTER_PX - size;
        double after = at + TICK_TO_LETTER_PX;
        return Math.abs(before - middle) < Math.abs(after - middle) ? before : after;
    }

    private static void place(Region node, double x, double y) {
        double most = node.getMaxWidth() >= 0 ? node.getMaxWidth() : Double.MAX_VALUE;
        double wide = Math.min(node.prefWidth(-1), most);
        node.resizeRelocate(Math.round(x), Math.round(y), wide, node.prefHeight(-1));
    }

    /** The ticks: top, bottom, left, right. */
    List<Line> ticks() {
        return List.of(ticks);
    }
}
