package org.holdfast.desktop.view;

import javafx.geometry.VPos;
import javafx.scene.Group;
import javafx.scene.shape.ClosePath;
import javafx.scene.shape.CubicCurveTo;
import javafx.scene.shape.LineTo;
import javafx.scene.shape.MoveTo;
import javafx.scene.shape.Path;
import javafx.scene.text.Text;
import org.holdfast.construct.PartKind;
import org.holdfast.desktop.viewmodel.SchematicPlan;
import org.holdfast.desktop.viewmodel.SchematicPlan.BoneOutline;
import org.holdfast.desktop.viewmodel.SchematicPlan.Item;

/** A bone of the schematic: a soft outline, its name where no screw runs through it. */
final class SchematicBone extends Group {

    private static final double OFF_FACE = 6;
    private static final double WAIST = 0.07;
    private static final double LABEL = 12;

    SchematicBone(BoneOutline bone, SchematicPlan plan, SchematicScale scale) {
        double left = scale.x(bone.left());
        double right = scale.x(bone.right());
        double top = scale.y(bone.top());
        double bottom = scale.y(bone.bottom());
        for (Item item : plan.items()) {
            double y = scale.y((item.y1() + item.y2()) / 2);
            if (item.part().kind() == PartKind.INTERFACE) {
                top = Math.abs(y - top) < OFF_FACE ? y + OFF_FACE : top;
                bottom = Math.abs(y - bottom) < OFF_FACE ? y - OFF_FACE : bottom;
            }
        }
        double waist = (right - left) * WAIST;
        double third = (bottom - top) / 3;
        Path path = new Path(
                new MoveTo(left, top),
                new LineTo(right, top),
                new CubicCurveTo(right - waist, top + third, right - waist, bottom - third, right, bottom),
                new LineTo(left, bottom),
                new CubicCurveTo(left + waist, bottom - third, left + waist, top + third, left, top),
                new ClosePath());
        path.getStyleClass().add("schematic-bone");
        Text label = new Text(bone.label());
        label.getStyleClass().add("schematic-label");
        label.setTextOrigin(VPos.CENTER);
        getChildren().addAll(path, label);
        label.applyCss();
        label.setX(Math.rint((left + right) / 2 - label.getLayoutBounds().getWidth() / 2));
        label.setY(widest(plan, scale, top, bottom));
    }

    /** Middle of the widest stretch between upper edge, screws and lower edge. */
    private static double widest(SchematicPlan plan, SchematicScale scale, double top, double bottom) {
        double[] edges = plan.items().stream()
                .filter(item -> item.part().kind() == PartKind.SCREW)
                .mapToDouble(item -> scale.y(item.y1()))
                .filter(y -> y > top && y < bottom)
                .sorted()
                .toArray();
        double from = top;
        double best = (top + bottom) / 2;
        double most = LABEL / 2;
        for (int n = 0; n <= edges.length; n++) {
            double to = n < edges.length ? edges[n] : bottom;
            if (to - from > most) {
                most = to - from;
                best = (from + to) / 2;
            }
            from = to;
        }
        return best;
    }
}
