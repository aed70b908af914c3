package org.holdfast.desktop.view;

import org.holdfast.construct.PartKind;
import org.holdfast.desktop.viewmodel.SchematicPlan;
import org.holdfast.desktop.viewmodel.SchematicPlan.Item;

/** Where the number of a part stands: beside it, on the side where there is room. */
final class SchematicNumbers {

    private SchematicNumbers() {}

    /** Middle of the number, logical pixels. */
    static double[] place(Item item, SchematicPlan plan, SchematicScale scale) {
        double middleX = scale.x((item.x1() + item.x2()) / 2);
        double middleY = scale.y((item.y1() + item.y2()) / 2);
        double side = middleX < scale.x(middleOf(plan)) ? -1 : 1;
        if (item.part().kind() == PartKind.SCREW) {
            return new double[] {scale.x(item.x1()) + side * 15, middleY - 9};
        }
        if (item.part().kind() == PartKind.INTERFACE) {
            return new double[] {scale.x(item.x2()) + 11, middleY};
        }
        if (item.part().kind() == PartKind.ROD) {
            return new double[] {middleX + side * 13, middleY};
        }
        return new double[] {middleX, middleY};
    }

    private static double middleOf(SchematicPlan plan) {
        return plan.items().stream()
                .mapToDouble(item -> (item.x1() + item.x2()) / 2)
                .average()
                .orElse(0);
    }
}
