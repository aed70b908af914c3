package org.holdfast.desktop.view;

import org.holdfast.desktop.viewmodel.SchematicPlan;
import org.holdfast.desktop.viewmodel.SchematicPlan.BoneOutline;
import org.holdfast.desktop.viewmodel.SchematicPlan.Item;

/**
 * From mm on the plan to logical pixels. Width and height may differ in scale, so that the drawing fills its place: it shows
 * which part is where, not how large it is.
 *
 * @param pxPerMmX pixels to a mm across
 * @param pxPerMmY pixels to a mm down
 * @param originX where 0 mm lies
 * @param originY where 0 mm lies
 */
record SchematicScale(double pxPerMmX, double pxPerMmY, double originX, double originY) {

    /** One direction is stretched at most so much against the other. */
    private static final double MOST_STRETCH = 1.7;

    /** The scale at which a plan just fits into a place. */
    static SchematicScale of(SchematicPlan plan, double left, double top, double width, double height) {
        double x1 = Double.MAX_VALUE;
        double y1 = Double.MAX_VALUE;
        double x2 = -Double.MAX_VALUE;
        double y2 = -Double.MAX_VALUE;
        for (Item item : plan.items()) {
            x1 = Math.min(x1, Math.min(item.x1(), item.x2()));
            x2 = Math.max(x2, Math.max(item.x1(), item.x2()));
            y1 = Math.min(y1, Math.min(item.y1(), item.y2()));
            y2 = Math.max(y2, Math.max(item.y1(), item.y2()));
        }
        for (BoneOutline bone : plan.bones()) {
            x1 = Math.min(x1, bone.left());
            x2 = Math.max(x2, bone.right());
            y1 = Math.min(y1, bone.top());
            y2 = Math.max(y2, bone.bottom());
        }
        double across = Math.max(1, width) / Math.max(1, x2 - x1);
        double down = Math.max(1, height) / Math.max(1, y2 - y1);
        double perX = Math.min(across, MOST_STRETCH * down);
        double perY = Math.min(down, MOST_STRETCH * across);
        return new SchematicScale(
                perX, perY, left + width / 2 - perX * (x1 + x2) / 2, top + height / 2 - perY * (y1 + y2) / 2);
    }

    double x(double mm) {
        return originX + pxPerMmX * mm;
    }

    double y(double mm) {
        return originY + pxPerMmY * mm;
    }
}
