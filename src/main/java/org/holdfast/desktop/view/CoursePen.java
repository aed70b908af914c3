package org.holdfast.desktop.view;

import javafx.scene.Group;
import javafx.scene.Node;
import javafx.scene.layout.Region;
import javafx.scene.text.Text;

/** Puts shapes and words of a chart into one group; their looks come from style classes. */
final class CoursePen {

    private final Group drawing;

    CoursePen(Group drawing) {
        this.drawing = drawing;
    }

    /** Adds a shape; only those of the style {@code hit} take clicks. */
    <T extends Node> T add(T node, String style) {
        node.getStyleClass().add(style);
        node.setMouseTransparent(!style.equals("hit"));
        drawing.getChildren().add(node);
        return node;
    }

    /** Adds a mark around a middle. */
    void mark(Region mark, double x, double y, double side) {
        mark.setMouseTransparent(true);
        mark.resizeRelocate(x - side / 2, y - side / 2, side, side);
        drawing.getChildren().add(mark);
    }

    /** Words that begin at a place, on a base line. */
    Text say(double x, double y, String words, String tone) {
        Text text = new Text(x, y, words);
        text.getStyleClass().addAll("course-text", tone);
        drawing.getChildren().add(text);
        return text;
    }

    /** Words around a middle. */
    void centred(double x, double y, String words, String tone) {
        Text text = say(x, y, words, tone);
        text.setX(x - width(text) / 2);
    }

    /** Words that end at a place. */
    void rightAligned(double x, double y, String words, String tone) {
        Text text = say(x, y, words, tone);
        text.setX(x - width(text));
    }

    /** Words cut to a width, with an ellipsis where they were too long. */
    Text cut(double x, double y, String words, String tone, double room) {
        Text text = say(x, y, words, tone);
        String left = words;
        while (left.length() > 2 && width(text) > room) {
            left = left.substring(0, left.length() - 2).stripTrailing() + "…";
            text.setText(left);
        }
        return text;
    }

    private static double width(Text text) {
        text.applyCss();
        return text.getLayoutBounds().getWidth();
    }

    /** The middle of the pixel at a place: a line of one pixel there is sharp. */
    static double snapped(double at) {
        return Math.floor(at) + 0.5;
    }
}
