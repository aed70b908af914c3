package org.holdfast.desktop.view;

import java.util.OptionalDouble;
import javafx.scene.control.Label;
import javafx.scene.layout.Pane;
import javafx.scene.shape.Line;
import javafx.scene.shape.Polyline;
import org.holdfast.construct.CutAxes;
import org.holdfast.desktop.state.Orientation;
import org.holdfast.desktop.state.ScaleBar;

/**
 * What lies over a picture without touching what it shows: exam, letters of orientation, settings, scale bar, ticks of the
 * crossing at the edges. Light on black in both themes.
 */
final class CutFurniture extends Pane {

    private static final double INSET = 4;
    private static final double TICK = 9;
    /** A letter keeps this far off a tick. */
    private static final double OFF_TICK = 5;
    /** Words keep this far apart. */
    private static final double GAP = 3;

    private static final double BAR_SHARE = 0.3;
    private static final double MOST_BAR = 90;

    /**
     * Letters at the four edges.
     *
     * @param left at the left edge; empty for none
     * @param right at the right edge
     * @param top at the upper edge
     * @param bottom at the lower edge
     */
    record Letters(String left, String right, String top, String bottom) {

        /** All four of a picture that lies so. */
        static Letters of(CutAxes axes) {
            return new Letters(
                    Orientation.letters(axes.right().times(-1)),
                    Orientation.letters(axes.right()),
                    Orientation.letters(axes.down().times(-1)),
                    Orientation.letters(axes.down()));
        }
    }

    /**
     * What is shown.
     *
     * @param label exam, or code
     * @param settings window, slab, kernel; empty where they stand elsewhere
     * @param letters orientation
     * @param mmPerPx mm to a logical pixel; 0 for no scale bar
     * @param tickX crossing from the left edge, logical pixels; empty outside
     * @param tickY crossing from the upper edge
     * @param barSuffix what the bar's length is measured on, where it is not the patient; may be empty
     */
    record Furniture(
            String label,
            String settings,
            Letters letters,
            double mmPerPx,
            OptionalDouble tickX,
            OptionalDouble tickY,
            String barSuffix) {

        /** A picture whose bar is mm in the patient. */
        Furniture(
                String label,
                String settings,
                Letters letters,
                double mmPerPx,
                OptionalDouble tickX,
                OptionalDouble tickY) {
            this(label, settings, letters, mmPerPx, tickX, tickY, "");
        }

        /** The exam alone, where there is no picture. */
        static Furniture of(String label) {
            OptionalDouble none = OptionalDouble.empty();
            return new Furniture(label, "", new Letters("", "", "", ""), 0, none, none);
        }
    }

    private final Label label = words();
    private final Label settings = words();
    private final Label left = words();
    private final Label right = words();
    private final Label top = words();
    private final Label bottom = words();
    private final Label barWords = words();
    private final Polyline bar = new Polyline();
    private final Line[] ticks = {new Line(), new Line(), new Line(), new Line()};
    /** Dark beds under the ticks: over metal, which is white, a light tick alone is not seen. */
    private final Line[] beds = {new Line(), new Line(), new Line(), new Line()};

    private Furniture shown;
    private boolean hasFonts;

    CutFurniture() {
        setMouseTransparent(true);
        bar.getStyleClass().add("image-bar");
        getChildren().addAll(beds);
        getChildren().addAll(ticks);
        for (int n = 0; n < ticks.length; n++) {
            ticks[n].getStyleClass().add("image-tick");
            beds[n].getStyleClass().add("image-tick-bed");
        }
        getChildren().addAll(label, settings, left, right, top, bottom, barWords, bar);
        getChildren().forEach(node -> node.setManaged(false));
    }

    void show(Furniture furniture) {
        if (furniture.equals(shown)) {
            return;
        }
        shown = furniture;
        set(label, furniture.label());
        set(settings, furniture.settings());
        set(left, furniture.letters().left());
        set(right, furniture.letters().right());
        set(top, furniture.letters().top());
        set(bottom, furniture.letters().bottom());
        requestLayout();
    }

    @Override
    protected void layoutChildren() {
        if (shown == null) {
            return;
        }
        if (!hasFonts) {
            // Words that were just added have no font yet, and so no size.
            applyCss();
            hasFonts = true;
        }
        double width = getWidth();
        double height = getHeight();
        ticks(width, height);
        place(label, INSET, INSET);
        double barLeft = scaleBar(width, height);
        settings.setMaxWidth(Math.max(0, barLeft - GAP - INSET));
        place(settings, INSET, height - INSET - heightOf(settings));
        topAndBottom(width, height, barLeft);
        sides(width, height);
    }

    /** A letter that finds no room between the corners moves off the edge, past what stands in them. */
    private void topAndBottom(double width, double height, double barLeft) {
        double most = width - INSET;
        double topX = beside(top.prefWidth(-1), width, shown.tickX(), rightOf(label), most);
        boolean fitsTop = topX >= 0;
        double freeX = beside(top.prefWidth(-1), width, shown.tickX(), INSET, most);
        place(top, fitsTop ? topX : freeX, fitsTop ? INSET : label.getLayoutY() + label.getHeight() + GAP);
        double size = bottom.prefWidth(-1);
        double bottomX = beside(size, width, shown.tickX(), rightOf(settings), barLeft - GAP);
        boolean fitsBottom = bottomX >= 0;
        double y = height - INSET - heightOf(bottom);
        place(
                bottom,
                fitsBottom ? bottomX : beside(size, width, shown.tickX(), INSET, most),
                fitsBottom ? y : overCorners(height) - heightOf(bottom));
    }

    private void sides(double width, double height) {
        double least = label.isVisible() ? label.getLayoutY() + label.getHeight() + GAP : INSET;
        double y = beside(heightOf(left), height, shown.tickY(), least, overCorners(height));
        double at = y >= 0 ? y : (height - heightOf(left)) / 2;
        place(left, INSET, at);
        place(right, width - INSET - right.prefWidth(-1), at);
    }

    private double overCorners(double height) {
        double over = height - INSET;
        over = settings.isVisible() ? Math.min(over, settings.getLayoutY() - GAP) : over;
        return barWords.isVisible() ? Math.min(over, barWords.getLayoutY() - GAP) : over;
    }

    private static double rightOf(Label corner) {
        return corner.isVisible() ? corner.getLayoutX() + corner.getWidth() + GAP : INSET;
    }

    /**
     * Where a letter stands along an edge: in its middle, or as near to it as a tick and the corners let it.
     *
     * @param size of the letter along the edge
     * @param extent of the edge
     * @param tick on the edge
     * @param least where it may start
     * @param most where it must end
     * @return its start, or -1 without room
     */
    private static double beside(double size, double extent, OptionalDouble tick, double least, double most) {
        double start = Math.max(least, Math.min(most - size, (extent - size) / 2));
        double clear = OFF_TICK + size;
        double best = -1;
        double at = tick.orElse(-clear);
        for (double each : new double[] {start, at - clear, at + OFF_TICK}) {
            boolean isFree = each + size <= at - OFF_TICK || each >= at + OFF_TICK;
            boolean fits = each >= least && each + size <= most;
            if (isFree && fits && (best < 0 || Math.abs(each - start) < Math.abs(best - start))) {
                best = each;
            }
        }
        return best;
    }

    private void ticks(double width, double height) {
        boolean hasX = shown.tickX().isPresent();
        boolean hasY = shown.tickY().isPresent();
        double x = Math.floor(shown.tickX().orElse(0)) + 0.5;
        double y = Math.floor(shown.tickY().orElse(0)) + 0.5;
        tick(0, hasX, x, 0, x, TICK);
        tick(1, hasX, x, height - TICK, x, height);
        tick(2, hasY, 0, y, TICK, y);
        tick(3, hasY, width - TICK, y, width, y);
    }

    /** Draws the bar; gives the left end of it and its words. */
    private double scaleBar(double width, double height) {
        boolean has = shown.mmPerPx() > 0;
        bar.setVisible(has);
        barWords.setVisible(has);
        if (!has) {
            return width;
        }
        ScaleBar scale = ScaleBar.within(shown.mmPerPx(), Math.min(MOST_BAR, width * BAR_SHARE));
        barWords.setText(scale.words() + (shown.barSuffix().isEmpty() ? "" : " " + shown.barSuffix()));
        double box = Math.max(barWords.prefWidth(-1), scale.lengthPx() + 8);
        double boxLeft = width - INSET - box;
        double boxHeight = heightOf(barWords) + 5;
        barWords.setMinWidth(box);
        barWords.setAlignment(javafx.geometry.Pos.TOP_CENTER);
        barWords.resizeRelocate(boxLeft, height - INSET - boxHeight, box, boxHeight);
        double end = width - INSET - 4;
        double from = end - scale.lengthPx();
        double base = Math.floor(height - INSET - 3) + 0.5;
        bar.getPoints().setAll(from, base - 4, from, base, end, base, end, base - 4);
        return boxLeft;
    }

    private void tick(int n, boolean visible, double x1, double y1, double x2, double y2) {
        line(beds[n], visible, x1, y1, x2, y2);
        line(ticks[n], visible, x1, y1, x2, y2);
    }

    private static void line(Line line, boolean visible, double x1, double y1, double x2, double y2) {
        line.setVisible(visible);
        line.setStartX(x1);
        line.setStartY(y1);
        line.setEndX(x2);
        line.setEndY(y2);
    }

    private static void place(Label words, double x, double y) {
        double most = words.getMaxWidth() >= 0 ? words.getMaxWidth() : Double.MAX_VALUE;
        words.resizeRelocate(Math.rint(x), Math.rint(y), Math.min(most, words.prefWidth(-1)), heightOf(words));
    }

    private static double heightOf(Label words) {
        return words.prefHeight(-1);
    }

    private static void set(Label words, String text) {
        words.setText(text);
        words.setVisible(!text.isEmpty());
    }

    private static Label words() {
        Label words = new Label();
        words.getStyleClass().add("image-label");
        return words;
    }
}
