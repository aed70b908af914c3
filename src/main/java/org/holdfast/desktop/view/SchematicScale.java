package org.holdfast.desktop.view;

import org.holdfast.desktop.viewmodel.SchematicPlan;
import org.holdfast.desktop.viewmodel.SchematicPlan.BoneOutline;
import org.holdfast.desktop.viewmodel.SchematicPlan.Item;

/**
 * From mm on the plan to logical pixels, both directions at one scale.
 *
 * @param pxPerMm pixels to a mm
 * @param originX where 0 mm lies
 * @param originY where 0 mm lies
 */
record SchematicScale(double pxPerMm, double originX, double originY) {

    /** The scale at which a plan just fits. */
    static SchematicScale of(SchematicPlan plan, double width, double height, double marginX, double marginY) {
        double left = Double.MAX_VALUE;
        double top = Double.MAX_VALUE;
        double right = -Double.MAX_VALUE;
        double bottom = -Double.MAX_VALUE;
        for (Item item : plan.items()) {
            double around = item.thickMm() / 2;
            left = Math.min(left, Math.min(item.x1(), item.x2()) - around);
            right = Math.max(right, Math.max(item.x1(), item.x2()) + around);
            top = Math.min(top, Math.min(item.y1(), item.y2()) - around);
            bottom = Math.max(bottom, Math.max(item.y1(), item.y2()) + around);
        }
        for (BoneOutline bone : plan.bones()) {
            left = Math.min(left, bone.left());
            right = Math.max(right, bone.right());
            top = Math.min(top, bone.top());
            bottom = Math.max(bottom, bone.bottom());
        }
        double scale = Math.min(
                Math.max(1, width - 2 * marginX) / Math.max(1, right - left),
                Math.max(1, height - 2 * marginY) / Math.max(1, bottom - top));
        return new SchematicScale(
                scale, width / 2 - scale * (left + right) / 2, height / 2 - scale * (top + bottom) / 2);
    }

    double x(double mm) {
        return originX + pxPerMm * mm;
    }

    double y(double mm) {
        return originY + pxPerMm * mm;
    }
}
