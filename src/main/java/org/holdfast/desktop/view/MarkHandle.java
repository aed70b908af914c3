package org.holdfast.desktop.view;

import javafx.scene.AccessibleRole;
import javafx.scene.Group;
import javafx.scene.input.KeyEvent;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.scene.shape.Circle;

/**
 * A point of a mark that can be moved: with the pointer, or by a pixel at a time with the arrow keys while it has the
 * focus. Arrow keys and Delete belong to it then.
 */
public final class MarkHandle extends Group {

    private static final double DRAWN = 5;
    /** Half of a hit area of 24 logical pixels. */
    private static final double HIT = 12;

    /** What is told of a handle. */
    interface Moves {

        /** It is moved to a place of the picture; moves with an equal gesture belong together. */
        void moved(double x, double y, Object gesture);

        /** Its mark is to be removed. */
        void removed();
    }

    private final Moves moves;
    private final Object keys = new Object();
    private Object gesture = new Object();

    MarkHandle(Moves moves) {
        this.moves = moves;
        Circle drawn = new Circle(DRAWN);
        drawn.getStyleClass().add("image-handle");
        drawn.setMouseTransparent(true);
        Circle hit = new Circle(HIT);
        hit.getStyleClass().add("hit");
        Circle casing = new Circle(DRAWN);
        casing.getStyleClass().add("image-mark-casing");
        casing.setMouseTransparent(true);
        getStyleClass().add("mark-handle");
        getChildren().addAll(hit, casing, drawn);
        setFocusTraversable(true);
        setAccessibleRole(AccessibleRole.BUTTON);
        setOnMousePressed(this::pressed);
        setOnMouseDragged(this::dragged);
        setOnMouseReleased(MouseEvent::consume);
        setOnKeyPressed(this::key);
    }

    /** Draws it at a place of the picture. */
    void place(double x, double y) {
        setTranslateX(x);
        setTranslateY(y);
    }

    private void pressed(MouseEvent event) {
        requestFocus();
        gesture = new Object();
        event.consume();
    }

    private void dragged(MouseEvent event) {
        event.consume();
        if (event.getButton() == MouseButton.PRIMARY) {
            moves.moved(getTranslateX() + event.getX(), getTranslateY() + event.getY(), gesture);
        }
    }

    private void key(KeyEvent event) {
        switch (event.getCode()) {
            case LEFT -> step(-1, 0);
            case RIGHT -> step(1, 0);
            case UP -> step(0, -1);
            case DOWN -> step(0, 1);
            case DELETE -> moves.removed();
            default -> {
                return;
            }
        }
        event.consume();
    }

    private void step(int right, int down) {
        moves.moved(getTranslateX() + right, getTranslateY() + down, keys);
    }
}
