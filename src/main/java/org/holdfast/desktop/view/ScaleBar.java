package org.holdfast.desktop.view;

import java.util.OptionalDouble;
import javafx.scene.control.Label;
import javafx.scene.layout.Pane;
import javafx.scene.shape.Polyline;
import org.holdfast.desktop.state.Words;

/** A scale bar of a round length, an open box with its length over it, on its scrim. */
final class ScaleBar extends Pane {

    /** Lengths a bar may have, mm. */
    private static final double[] LENGTHS_MM = {100, 50, 20, 10, 5, 2, 1, 0.5, 0.2, 0.1};
    /** The longest bar as a share of the image's width. */
    private static final double MOST_OF_WIDTH = 0.3;
    /** No bar is longer than this, logical px: it is a measure, not a picture. */
    private static final double LONGEST_PX = 120;

    private static final double END_PX = 4;
    private static final double PAD_X = 8;
    private static final double PAD_Y = 2;

    private final Label words = new Label();
    private final Polyline bar = new Polyline();
    private double barPx;

    ScaleBar() {
        getStyleClass().add("furniture-scrim");
        words.getStyleClass().add("furniture-text");
        bar.getStyleClass().add("furniture-line");
        getChildren().addAll(words, bar);
    }

    /**
     * The longest round length that takes up no more than three tenths of the image's width and 120 px.
     *
     * @param mmPerPx millimetres to a logical pixel; above 0
     * @param widthPx the image's width, logical px
     * @return the length, mm, 0.1 to 100, or empty where not even the shortest fits
     */
    static OptionalDouble lengthMm(double mmPerPx, double widthPx) {
        double mostMm = Math.min(MOST_OF_WIDTH * widthPx, LONGEST_PX) * mmPerPx;
        for (double mm : LENGTHS_MM) {
            if (mm <= mostMm * (1 + 1e-9)) {
                return OptionalDouble.of(mm);
            }
        }
        return OptionalDouble.empty();
    }

    /** Shows the bar for an image so wide. */
    void show(double mmPerPx, double widthPx) {
        OptionalDouble length = lengthMm(mmPerPx, widthPx);
        setVisible(length.isPresent());
        if (length.isPresent()) {
            double mm = length.getAsDouble();
            words.setText(Words.quantity(mm, mm < 1 ? 1 : 0, "mm"));
            barPx = mm / mmPerPx;
        }
        requestLayout();
    }

    @Override
    protected double computePrefWidth(double height) {
        return Math.ceil(Math.max(words.prefWidth(-1), barPx)) + 2 * PAD_X;
    }

    @Override
    protected double computePrefHeight(double width) {
        return Math.ceil(words.prefHeight(-1)) + END_PX + 2 * PAD_Y + 2;
    }

    @Override
    protected void layoutChildren() {
        double wide = words.prefWidth(-1);
        double high = words.prefHeight(-1);
        words.resizeRelocate(Math.round((getWidth() - wide) / 2), PAD_Y - 1, wide, high);
        double left = Math.round((getWidth() - barPx) / 2) + 0.5;
        double bottom = Math.floor(getHeight() - PAD_Y - 2) + 0.5;
        bar.getPoints()
                .setAll(left, bottom - END_PX, left, bottom, left + barPx, bottom, left + barPx, bottom - END_PX);
    }
}
