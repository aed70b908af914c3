package org.holdfast.desktop.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import javafx.geometry.BoundingBox;
import javafx.geometry.Bounds;
import org.holdfast.construct.PartKind;
import org.holdfast.desktop.viewmodel.SchematicPlan.Item;

/** Where the numbers of the parts stand: beside their part, where they cover least of the others and of one another. */
final class SchematicNumbers {

    /** Half of a number's ring, logical pixels. */
    static final double RADIUS = 7.5;

    private static final double APART = 3;
    private static final double ON_A_NUMBER = 100;

    private final Map<Item, Bounds> drawn;
    private final double width;
    private final double height;
    private final List<double[]> taken = new ArrayList<>();

    /** Parts as drawn, within a place of this size. */
    SchematicNumbers(Map<Item, Bounds> drawn, double width, double height) {
        this.drawn = drawn;
        this.width = width;
        this.height = height;
    }

    /** Middle of the number of a part, logical pixels; the place counts as taken from then on. */
    double[] place(Item item) {
        double[] best = null;
        double least = Double.MAX_VALUE;
        List<double[]> candidates = candidates(item);
        for (int n = 0; n < candidates.size(); n++) {
            double cost = cost(item, candidates.get(n)) + 0.1 * n;
            if (cost < least) {
                least = cost;
                best = candidates.get(n);
            }
        }
        taken.add(best);
        return best;
    }

    /** Places round a part, the most fitting first. */
    private List<double[]> candidates(Item item) {
        Bounds at = drawn.get(item);
        double x = at.getCenterX();
        double y = at.getCenterY();
        double side = x < width / 2 ? -1 : 1;
        double beside = at.getWidth() / 2 + RADIUS + APART;
        double over = at.getHeight() / 2 + RADIUS + 1;
        double outer = x + side * at.getWidth() / 2;
        double besideHead = outer - side * (SchematicPart.HEAD + RADIUS + 1);
        double faceEnd = at.getMaxX() - RADIUS;
        double upOrDown = y < height / 2 ? -1 : 1;
        List<double[]> places = new ArrayList<>();
        PartKind kind = item.part().kind();
        if (kind == PartKind.BODY || kind == PartKind.OTHER) {
            places.add(new double[] {x, y});
        }
        if (kind == PartKind.SCREW) {
            for (double off : new double[] {upOrDown, -upOrDown}) {
                places.add(new double[] {besideHead, y + off * over});
            }
            for (double off : new double[] {upOrDown, -upOrDown}) {
                places.add(new double[] {outer + side * (RADIUS + APART), y + off * over});
            }
        }
        if (kind == PartKind.INTERFACE) {
            places.add(new double[] {faceEnd, y + upOrDown * over});
            places.add(new double[] {at.getMinX() + RADIUS, y + upOrDown * over});
        }
        if (kind == PartKind.ROD) {
            places.add(new double[] {x - side * beside, y});
            for (double shift : new double[] {-0.2, 0.2, -0.4, 0.4}) {
                places.add(new double[] {x - side * beside, y + shift * at.getHeight()});
                places.add(new double[] {x + side * beside, y + shift * at.getHeight()});
            }
        }
        places.add(new double[] {x + beside, y});
        places.add(new double[] {x - beside, y});
        places.add(new double[] {x, y + upOrDown * over});
        places.add(new double[] {x, y - upOrDown * over});
        places.add(new double[] {x, y});
        return places;
    }

    private double cost(Item item, double[] at) {
        Bounds ring = new BoundingBox(at[0] - RADIUS, at[1] - RADIUS, 2 * RADIUS, 2 * RADIUS);
        double cost = 0;
        for (double[] other : taken) {
            double distance = Math.hypot(other[0] - at[0], other[1] - at[1]);
            cost += distance < 2 * RADIUS + 1 ? ON_A_NUMBER : 0;
        }
        for (Map.Entry<Item, Bounds> part : drawn.entrySet()) {
            if (part.getKey() != item && part.getValue().intersects(ring)) {
                cost += 1;
            }
        }
        boolean isOutside = at[0] < RADIUS || at[1] < RADIUS || at[0] > width - RADIUS || at[1] > height - RADIUS;
        return cost + (isOutside ? ON_A_NUMBER : 0);
    }
}
