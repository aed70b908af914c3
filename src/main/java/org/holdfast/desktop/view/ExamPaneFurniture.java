package org.holdfast.desktop.view;

import java.util.List;
import java.util.OptionalDouble;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.layout.Pane;
import javafx.scene.layout.Region;
import javafx.scene.shape.Line;

/**
 * What is written over a picture of a whole exam: name and place, the four directions, a scale bar, and ticks at the edges
 * where the other planes cross; never a line over the image. Lets the mouse through.
 */
final class ExamPaneFurniture extends Pane {

    private static final double INSET = 6;
    private static final double TICK = 10;
    /** A direction's letter is moved aside by this where a tick stands in its place. */
    private static final double ASIDE = 18;
    /** Longest scale bar, share of the picture's width. */
    private static final double LONGEST_BAR = 0.25;

    private static final double[] BAR_MM = {1, 2, 5, 10, 20, 50, 100, 200};

    /**
     * What is shown.
     *
     * @param label name of exam and picture, top left
     * @param settings place and window, bottom left
     * @param letters directions at the left, right, top and bottom edge
     * @param mmPerPixel of a logical pixel
     * @param tickX where the crossing lies, logical pixels from the left; empty outside
     * @param tickY where the crossing lies, logical pixels from the top; empty outside
     */
    record Content(
            String label,
            String settings,
            List<String> letters,
            double mmPerPixel,
            OptionalDouble tickX,
            OptionalDouble tickY) {}

    private final Label label = written();
    private final Label settings = written();
    private final List<Label> letters = List.of(written(), written(), written(), written());
    private final Label barWords = written();
    private final Region bar = new Region();
    private final List<Line> ticks = List.of(tick(), tick(), tick(), tick());
    private Content content;

    ExamPaneFurniture() {
        setMouseTransparent(true);
        bar.getStyleClass().add("image-bar");
        barWords.getStyleClass().add("image-bar-words");
        getChildren().addAll(ticks);
        getChildren().addAll(label, settings, barWords, bar);
        getChildren().addAll(letters);
        setVisible(false);
    }

    private static Label written() {
        Label label = new Label();
        label.getStyleClass().add("image-label");
        label.setAlignment(Pos.CENTER);
        return label;
    }

    private static Line tick() {
        Line line = new Line();
        line.getStyleClass().add("image-tick");
        line.setManaged(false);
        return line;
    }

    void show(Content now) {
        content = now;
        label.setText(now.label());
        settings.setText(now.settings());
        for (int edge = 0; edge < 4; edge++) {
            letters.get(edge).setText(now.letters().get(edge));
        }
        setVisible(true);
        requestLayout();
    }

    void hide() {
        setVisible(false);
    }

    @Override
    protected void layoutChildren() {
        if (content == null) {
            return;
        }
        double width = getWidth();
        double height = getHeight();
        place(label, INSET, INSET);
        place(settings, INSET, height - INSET - settings.prefHeight(-1));
        double besideY = beside(height / 2, content.tickY());
        double besideX = beside(width / 2, content.tickX());
        middle(letters.get(0), INSET + letters.get(0).prefWidth(-1) / 2, besideY);
        middle(letters.get(1), width - INSET - letters.get(1).prefWidth(-1) / 2, besideY);
        middle(letters.get(2), besideX, INSET + letters.get(2).prefHeight(-1) / 2);
        middle(letters.get(3), besideX, height - INSET - letters.get(3).prefHeight(-1) / 2);
        layoutBar(width, height);
        layoutTicks(width, height);
    }

    private static double beside(double middle, OptionalDouble tick) {
        boolean clash = tick.isPresent() && Math.abs(tick.getAsDouble() - middle) < ASIDE;
        return clash ? middle + ASIDE : middle;
    }

    private void middle(Node node, double x, double y) {
        place(node, x - node.prefWidth(-1) / 2, y - node.prefHeight(-1) / 2);
    }

    private void place(Node node, double x, double y) {
        node.resizeRelocate(snapPositionX(x), snapPositionY(y), node.prefWidth(-1), node.prefHeight(-1));
    }

    private void layoutBar(double width, double height) {
        double longestMm = LONGEST_BAR * width * content.mmPerPixel();
        double mm = BAR_MM[0];
        for (double round : BAR_MM) {
            mm = round <= longestMm ? round : mm;
        }
        barWords.setText(String.format(java.util.Locale.ROOT, "%.0f\u2009mm", mm));
        double length = mm / content.mmPerPixel();
        boolean fits = length < width / 2;
        bar.setVisible(fits);
        barWords.setVisible(fits);
        double top = height - INSET - TICK / 2;
        bar.resizeRelocate(snapPositionX(width - INSET - length), snapPositionY(top), length, TICK / 2);
        place(barWords, width - INSET - barWords.prefWidth(-1), top - barWords.prefHeight(-1) - 1);
    }

    private void layoutTicks(double width, double height) {
        boolean isAcross = content.tickX().isPresent();
        boolean isDown = content.tickY().isPresent();
        // Half a pixel on, so that a line one pixel wide lies on one row of pixels.
        double x = Math.floor(content.tickX().orElse(0)) + 0.5;
        double y = Math.floor(content.tickY().orElse(0)) + 0.5;
        put(ticks.get(0), x, 0, x, TICK, isAcross);
        put(ticks.get(1), x, height - TICK, x, height, isAcross);
        put(ticks.get(2), 0, y, TICK, y, isDown);
        put(ticks.get(3), width - TICK, y, width, y, isDown);
    }

    private static void put(Line line, double fromX, double fromY, double toX, double toY, boolean isSeen) {
        line.setStartX(fromX);
        line.setStartY(fromY);
        line.setEndX(toX);
        line.setEndY(toY);
        line.setVisible(isSeen);
    }
}
