package org.holdfast.desktop.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import javafx.geometry.Bounds;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Label;
import javafx.scene.layout.Pane;
import javafx.scene.shape.Line;
import javafx.scene.shape.Polyline;
import org.holdfast.desktop.WindowTest;
import org.holdfast.desktop.view.CutFurniture.Furniture;
import org.holdfast.desktop.view.CutFurniture.Letters;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Words and lines over a picture. */
@ExtendWith(WindowTest.class)
final class CutFurnitureTest {

    private static final double HALF_PIXEL = 0.5;

    // Widths of a column at 1280, 1920 and 3840 px; ticks in the middle, where letters would stand, and near the edges
    @ParameterizedTest
    @CsvSource({"150, 110, 75, 55", "231, 176, 115, 88", "231, 176, 10, 10", "231, 176, 222, 168", "470, 400, 235, 200"
    })
    void noWordsCoverOthersOrATick(double width, double height, double tickX, double tickY) throws Exception {
        WindowTest.fxRun(() -> {
            CutFurniture furniture =
                    laidOut(furniture("12 mo", 0.2, OptionalDouble.of(tickX), OptionalDouble.of(tickY)), width, height);
            List<Label> words = words(furniture);
            for (Label one : words) {
                Bounds bounds = one.getBoundsInParent();
                assertTrue(
                        bounds.getMinX() >= 0
                                && bounds.getMinY() >= 0
                                && bounds.getMaxX() <= width
                                && bounds.getMaxY() <= height,
                        one.getText() + " at " + bounds);
                for (Label other : words) {
                    assertFalse(
                            one != other && bounds.intersects(other.getBoundsInParent()),
                            one.getText() + " over " + other.getText());
                }
            }
        });
    }

    @Test
    void ticksStayAtTheEdges() throws Exception {
        WindowTest.fxRun(() -> {
            CutFurniture furniture =
                    laidOut(furniture("12 mo", 0.2, OptionalDouble.of(100), OptionalDouble.of(80)), 231, 176);
            List<Line> ticks = lines(furniture);
            assertEquals(4, ticks.size());
            for (Line tick : ticks) {
                Bounds bounds = tick.getBoundsInParent();
                boolean atEdge = bounds.getMaxX() <= 12
                        || bounds.getMinX() >= 231 - 12
                        || bounds.getMaxY() <= 12
                        || bounds.getMinY() >= 176 - 12;
                assertTrue(atEdge, "a tick runs over the picture: " + bounds);
            }
        });
    }

    @Test
    void noTickIsDrawnForACrossingElsewhere() throws Exception {
        WindowTest.fxRun(() -> {
            CutFurniture furniture =
                    laidOut(furniture("12 mo", 0.2, OptionalDouble.empty(), OptionalDouble.empty()), 231, 176);
            assertTrue(lines(furniture).isEmpty());
        });
    }

    @Test
    void theBarIsAsLongAsItSays() throws Exception {
        WindowTest.fxRun(() -> {
            CutFurniture furniture =
                    laidOut(furniture("12 mo", 0.2, OptionalDouble.empty(), OptionalDouble.empty()), 231, 176);
            Polyline bar = (Polyline) furniture.getChildrenUnmodifiable().stream()
                    .filter(Polyline.class::isInstance)
                    .findFirst()
                    .orElseThrow();
            double px = bar.getPoints().get(6) - bar.getPoints().get(0);
            // By hand: 10 mm at 0.2 mm a pixel, the longest round length within 30 % of 231 px
            assertEquals(50, px, HALF_PIXEL);
            assertTrue(
                    words(furniture).stream().anyMatch(label -> label.getText().equals("10\u2009mm")));
        });
    }

    @Test
    void doesNotStandInTheMousesWay() throws Exception {
        WindowTest.fxRun(() -> assertTrue(new CutFurniture().isMouseTransparent()));
    }

    private static Furniture furniture(String label, double mmPerPx, OptionalDouble tickX, OptionalDouble tickY) {
        return new Furniture(label, "", new Letters("R", "L", "HA", "FP"), mmPerPx, tickX, tickY);
    }

    private static CutFurniture laidOut(Furniture shown, double width, double height) {
        CutFurniture furniture = new CutFurniture();
        Theme.DARK.apply(new Scene(new Pane(furniture)));
        furniture.show(shown);
        furniture.resize(width, height);
        furniture.applyCss();
        furniture.layout();
        return furniture;
    }

    private static List<Label> words(CutFurniture furniture) {
        return furniture.getChildrenUnmodifiable().stream()
                .filter(Node::isVisible)
                .filter(Label.class::isInstance)
                .map(Label.class::cast)
                .toList();
    }

    private static List<Line> lines(CutFurniture furniture) {
        return furniture.getChildrenUnmodifiable().stream()
                .filter(Node::isVisible)
                .filter(Line.class::isInstance)
                .map(Line.class::cast)
                .toList();
    }
}
