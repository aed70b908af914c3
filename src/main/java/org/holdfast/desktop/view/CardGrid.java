package org.holdfast.desktop.view;

import java.util.List;
import javafx.geometry.Orientation;
import javafx.scene.Node;
import javafx.scene.layout.Pane;

/** Cards of equal width beside each other, as many as there is room for; those of one line are equally high. */
final class CardGrid extends Pane {

    private static final double LEAST_WIDTH = 310;
    private static final int MOST_COLUMNS = 4;
    private static final double GAP = 10;

    /** How many cards stand beside each other at the present width. */
    int columns() {
        return columns(getWidth());
    }

    @Override
    public Orientation getContentBias() {
        return Orientation.HORIZONTAL;
    }

    @Override
    protected double computeMinWidth(double height) {
        return LEAST_WIDTH;
    }

    @Override
    protected double computePrefWidth(double height) {
        return LEAST_WIDTH;
    }

    @Override
    protected double computeMinHeight(double width) {
        return computePrefHeight(width);
    }

    @Override
    protected double computePrefHeight(double width) {
        double wide = width < 0 ? LEAST_WIDTH : width;
        List<Node> cards = getManagedChildren();
        int columns = columns(wide);
        double total = 0;
        for (int first = 0; first < cards.size(); first += columns) {
            total += lineHeight(line(cards, first, columns), cardWidth(wide)) + (first > 0 ? GAP : 0);
        }
        return total;
    }

    @Override
    protected void layoutChildren() {
        List<Node> cards = getManagedChildren();
        int columns = columns();
        double wide = cardWidth(getWidth());
        double y = 0;
        for (int first = 0; first < cards.size(); first += columns) {
            List<Node> line = line(cards, first, columns);
            double high = lineHeight(line, wide);
            for (int n = 0; n < line.size(); n++) {
                line.get(n).resizeRelocate(snapPositionX(n * (wide + GAP)), snapPositionY(y), wide, high);
            }
            y += high + GAP;
        }
    }

    private static List<Node> line(List<Node> cards, int first, int columns) {
        return cards.subList(first, Math.min(cards.size(), first + columns));
    }

    private double lineHeight(List<Node> line, double wide) {
        return snapSizeY(
                line.stream().mapToDouble(card -> card.prefHeight(wide)).max().orElse(0));
    }

    private double cardWidth(double width) {
        int columns = columns(width);
        return Math.floor((width - (columns - 1) * GAP) / columns);
    }

    private static int columns(double width) {
        int fitting = (int) ((width + GAP) / (LEAST_WIDTH + GAP));
        return Math.max(1, Math.min(MOST_COLUMNS, fitting));
    }
}
