package org.holdfast.desktop.view;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumMap;
import java.util.Map;
import javafx.scene.Scene;
import javafx.scene.SnapshotParameters;
import javafx.scene.image.WritableImage;
import javafx.scene.layout.Pane;
import javafx.scene.paint.Color;
import javafx.scene.transform.Transform;
import org.holdfast.desktop.WindowTest;
import org.holdfast.desktop.state.PartState;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;

/** That marks are told apart by their shape alone. */
@ExtendWith(WindowTest.class)
final class StateMarkTest {

    private static final int SIZE = 14;
    private static final int SCALE = 2;

    /** Of the pixels that either mark inks, at least so many belong to one only. */
    private static final double LEAST_DIFFERENCE = 0.3;

    @Test
    void everyPairOfMarksDiffersWithoutItsColours() throws Exception {
        WindowTest.fxRun(() -> {
            Map<PartState, boolean[]> inked = new EnumMap<>(PartState.class);
            for (PartState state : PartState.values()) {
                inked.put(state, inked(state));
            }
            for (PartState one : PartState.values()) {
                for (PartState other : PartState.values()) {
                    double difference = difference(inked.get(one), inked.get(other));
                    assertTrue(
                            one == other || difference >= LEAST_DIFFERENCE,
                            () -> one + " and " + other + " differ by " + difference);
                }
            }
        });
    }

    @Test
    void everyMarkStaysWithinItsBox() throws Exception {
        WindowTest.fxRun(() -> {
            for (PartState state : PartState.values()) {
                StateMark mark = new StateMark(state, SIZE);
                Theme.DARK.apply(new Scene(new Pane(mark)));
                mark.applyCss();
                mark.layout();
                var bounds = mark.getChildrenUnmodifiable().get(0).getBoundsInParent();
                assertTrue(
                        bounds.getMinX() >= 0
                                && bounds.getMinY() >= 0
                                && bounds.getMaxX() <= SIZE
                                && bounds.getMaxY() <= SIZE,
                        state + " at " + bounds);
            }
        });
    }

    /** Which pixels a mark covers at least by half; a crack in the colour of the ground counts as not covered. */
    private static boolean[] inked(PartState state) {
        StateMark mark = new StateMark(state, SIZE);
        Scene scene = new Scene(new Pane(mark), SIZE, SIZE);
        Theme.DARK.apply(scene);
        scene.getRoot().applyCss();
        scene.getRoot().layout();
        SnapshotParameters parameters = new SnapshotParameters();
        parameters.setFill(Color.TRANSPARENT);
        parameters.setTransform(Transform.scale(SCALE, SCALE));
        WritableImage image = mark.snapshot(parameters, new WritableImage(SIZE * SCALE, SIZE * SCALE));
        boolean[] inked = new boolean[SIZE * SCALE * SIZE * SCALE];
        for (int n = 0; n < inked.length; n++) {
            Color colour = image.getPixelReader().getColor(n % (SIZE * SCALE), n / (SIZE * SCALE));
            inked[n] = colour.getOpacity() >= 0.5 && colour.getBrightness() >= 0.3;
        }
        return inked;
    }

    private static double difference(boolean[] one, boolean[] other) {
        int either = 0;
        int both = 0;
        for (int n = 0; n < one.length; n++) {
            either += one[n] || other[n] ? 1 : 0;
            both += one[n] && other[n] ? 1 : 0;
        }
        return 1 - (double) both / Math.max(1, either);
    }
}
