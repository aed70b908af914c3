package org.holdfast.desktop.view;

import static org.holdfast.desktop.WindowTest.fx;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import javafx.geometry.Bounds;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.shape.Line;
import org.holdfast.construct.CutAxes;
import org.holdfast.desktop.WindowTest;
import org.holdfast.geometry.PatientVector;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@ExtendWith(WindowTest.class)
final class CutFurnitureTest {

    private static final Furniture.Letters CORONAL = new Furniture.Letters("R", "L", "H", "F");

    private static CutFurniture laidOut(double width, double height, Furniture furniture) {
        CutFurniture node = new CutFurniture();
        Scene scene = new Scene(node, width, height);
        Theme.DARK.apply(scene);
        node.show(furniture);
        node.applyCss();
        node.resize(width, height);
        node.layout();
        return node;
    }

    private static Furniture furniture(OptionalDouble tickX, OptionalDouble tickY, boolean small) {
        return new Furniture("24 mo", "C 650 W 2700 · slab 0.6 mm", CORONAL, 0.2, tickX, tickY, small);
    }

    // By hand: 0.2 mm/px × 0.3 × 231 px = 13.9 mm → 10; 0.05 → 3.5 mm → 2; 0.9 → 62 mm → 50;
    // 0.001 → 0.07 mm, less than the shortest; 1000 px wide: 120 px × 0.2 = 24 mm → 20
    @ParameterizedTest
    @CsvSource({"0.2,231,10", "0.05,231,2", "0.9,231,50", "0.001,231,-1", "0.2,1000,20", "5,1000,100"})
    void choosesARoundLength(double mmPerPx, double widthPx, double mm) {
        assertEquals(mm, ScaleBar.lengthMm(mmPerPx, widthPx).orElse(-1));
    }

    @Test
    void drawsTicksAtTheEdgesOnly() throws Exception {
        List<Line> ticks = fx(() -> laidOut(231, 174, furniture(OptionalDouble.of(115), OptionalDouble.of(90), true))
                .ticks());
        for (Line tick : ticks) {
            Bounds place = tick.getLayoutBounds();
            boolean atEdge =
                    place.getMaxX() < 12 || place.getMinX() > 219 || place.getMaxY() < 12 || place.getMinY() > 162;
            assertTrue(tick.isVisible() && atEdge, place.toString());
        }
    }

    @Test
    void hidesATickOfACrossingOutsideTheImage() throws Exception {
        List<Line> ticks = fx(() -> laidOut(231, 174, furniture(OptionalDouble.of(-4), OptionalDouble.empty(), true))
                .ticks());
        assertTrue(ticks.stream().noneMatch(Node::isVisible));
    }

    @ParameterizedTest
    @CsvSource({"148,119", "231,174", "420,340"})
    void keepsWritingApart(double width, double height) throws Exception {
        for (double share = 0; share <= 1; share += 0.1) {
            double x = share * width;
            double y = share * height;
            CutFurniture node =
                    fx(() -> laidOut(width, height, furniture(OptionalDouble.of(x), OptionalDouble.of(y), false)));
            List<Node> shown = node.getChildrenUnmodifiable().stream()
                    .filter(child -> child.isVisible() && !(child instanceof Line))
                    .toList();
            for (Node one : shown) {
                for (Node other : shown) {
                    assertFalse(
                            one != other && one.getBoundsInParent().intersects(other.getBoundsInParent()),
                            one + " meets " + other + " at " + share);
                }
            }
        }
    }

    @Test
    void leavesSettingsOffSmallImages() throws Exception {
        CutFurniture node =
                fx(() -> laidOut(231, 174, furniture(OptionalDouble.empty(), OptionalDouble.empty(), true)));
        assertTrue(node.lookupAll(".furniture-settings").stream().noneMatch(Node::isVisible));
    }

    @Test
    void takesLettersFromTheCutsAxes() {
        CutAxes coronal = new CutAxes(PatientVector.LEFT, PatientVector.CRANIAL.times(-1));
        assertEquals(CORONAL, Furniture.Letters.of(coronal));
    }

    @Test
    void canBePictured() throws Exception {
        org.junit.jupiter.api.Assumptions.assumeTrue(Snapshot.wanted(), "skipped: no place for pictures");
        for (double[] size : new double[][] {{148, 119, 1}, {231, 174, 1}, {420, 340, 0}}) {
            fx(() -> {
                CutFurniture node = new CutFurniture();
                node.setStyle("-fx-background-color: linear-gradient(to right, #222, #eee);");
                node.show(furniture(OptionalDouble.of(size[0] / 2), OptionalDouble.of(size[1] * 0.57), size[2] == 1));
                Snapshot.write("furniture-" + (int) size[0], node, size[0], size[1], 2, Theme.DARK, size[0] < 200);
                return null;
            });
        }
    }
}
