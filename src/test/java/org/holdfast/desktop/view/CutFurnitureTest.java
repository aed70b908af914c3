package org.holdfast.desktop.view;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import javafx.geometry.Bounds;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Label;
import javafx.scene.shape.Line;
import org.holdfast.desktop.WindowTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What lies at the edges of a picture, from the smallest cut of the strip to a pane of the whole exam. */
@ExtendWith(WindowTest.class)
final class CutFurnitureTest {

    private static final CutFurniture.Letters CORONAL = new CutFurniture.Letters("R", "L", "H", "F");
    private static final String SETTINGS = "slice 120 of 412 · C 650 W 2700";

    private static CutFurniture laidOut(
            double width, double height, String settings, OptionalDouble tickX, OptionalDouble tickY) {
        CutFurniture node = new CutFurniture();
        Theme.DARK.apply(new Scene(node, width, height));
        node.show(new CutFurniture.Furniture("24 mo", settings, CORONAL, 0.2, tickX, tickY));
        node.applyCss();
        node.resize(width, height);
        node.layout();
        return node;
    }

    private static List<Line> ticks(CutFurniture node) {
        return node.getChildrenUnmodifiable().stream()
                .filter(child -> child.getStyleClass().contains("image-tick"))
                .map(Line.class::cast)
                .toList();
    }

    @ParameterizedTest
    @CsvSource({"148,119,''", "231,174,''", "300,260,'" + SETTINGS + "'", "420,340,'" + SETTINGS + "'"})
    void keepsWordsApartAndInsideWhereverTheCutsCross(double width, double height, String settings) throws Exception {
        for (double share = 0; share <= 1; share += 0.05) {
            OptionalDouble x = OptionalDouble.of(share * width);
            OptionalDouble y = OptionalDouble.of(share * height);
            WindowTest.fxRun(() -> {
                CutFurniture node = laidOut(width, height, settings, x, y);
                List<Node> words = node.getChildrenUnmodifiable().stream()
                        .filter(child -> child.isVisible() && child instanceof Label)
                        .toList();
                for (Node one : words) {
                    assertTrue(
                            node.getLayoutBounds().contains(one.getBoundsInParent()),
                            one + " leaves the picture, cuts crossing at " + x);
                    for (Node other : words) {
                        assertFalse(
                                one != other && one.getBoundsInParent().intersects(other.getBoundsInParent()),
                                one + " meets " + other + ", cuts crossing at " + x);
                    }
                    for (Line tick : ticks(node)) {
                        assertFalse(
                                one.getBoundsInParent().intersects(tick.getBoundsInParent())
                                        && CORONAL.toString().contains("=" + ((Label) one).getText()),
                                one + " lies on a tick, cuts crossing at " + x);
                    }
                }
            });
        }
    }

    @Test
    void drawsTicksAtTheEdgesOnly() throws Exception {
        WindowTest.fxRun(() -> {
            CutFurniture node = laidOut(231, 174, "", OptionalDouble.of(115), OptionalDouble.of(90));
            for (Line tick : ticks(node)) {
                Bounds at = tick.getBoundsInParent();
                boolean isAtEdge =
                        at.getMaxX() <= 11 || at.getMinX() >= 220 || at.getMaxY() <= 11 || at.getMinY() >= 163;
                assertTrue(tick.isVisible() && isAtEdge, at.toString());
            }
        });
    }

    @Test
    void drawsNoTickOfACrossingOutsideThePicture() throws Exception {
        WindowTest.fxRun(() -> {
            CutFurniture node = laidOut(231, 174, "", OptionalDouble.empty(), OptionalDouble.empty());
            assertTrue(ticks(node).stream().noneMatch(Node::isVisible));
        });
    }
}
