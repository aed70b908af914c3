package org.holdfast.desktop.view;

import java.util.ArrayList;
import java.util.List;
import javafx.geometry.Insets;
import javafx.geometry.Point2D;
import org.holdfast.desktop.viewmodel.FrontBone;
import org.holdfast.desktop.viewmodel.FrontPart;
import org.holdfast.desktop.viewmodel.FrontPoint;
import org.holdfast.desktop.viewmodel.SchematicPlan;

/**
 * Fits a plan into a picture. A schematic is no scale drawing: one direction may be stretched against the other by half, so
 * that a long construct keeps its rods apart.
 */
record FrontFit(double pxPerMmAcross, double pxPerMmDown, double x, double y) {

    private static final double MOST_STRETCH = 1.5;
    /** A construct smaller than this is not drawn larger, mm. */
    private static final double LEAST_EXTENT_MM = 30;

    static FrontFit of(SchematicPlan plan, double width, double height, Insets margins) {
        List<FrontPoint> points = new ArrayList<>();
        plan.parts().forEach(part -> points.addAll(part.points()));
        for (FrontBone bone : plan.bones()) {
            points.add(new FrontPoint(bone.middleMm() - bone.halfWidthMm(), bone.topMm()));
            points.add(new FrontPoint(bone.middleMm() + bone.halfWidthMm(), bone.bottomMm()));
        }
        double left = points.stream().mapToDouble(FrontPoint::leftMm).min().orElse(0);
        double right = points.stream().mapToDouble(FrontPoint::leftMm).max().orElse(0);
        double top = points.stream().mapToDouble(FrontPoint::downMm).min().orElse(0);
        double bottom = points.stream().mapToDouble(FrontPoint::downMm).max().orElse(0);
        double roomX = Math.max(1, width - margins.getLeft() - margins.getRight());
        double roomY = Math.max(1, height - margins.getTop() - margins.getBottom());
        double across = roomX / Math.max(LEAST_EXTENT_MM, right - left);
        double down = roomY / Math.max(LEAST_EXTENT_MM, bottom - top);
        double scaleX = Math.min(across, MOST_STRETCH * down);
        double scaleY = Math.min(down, MOST_STRETCH * across);
        double middleX = margins.getLeft() + roomX / 2;
        double middleY = margins.getTop() + roomY / 2;
        return new FrontFit(
                scaleX, scaleY, middleX - scaleX * (left + right) / 2, middleY - scaleY * (top + bottom) / 2);
    }

    Point2D at(FrontPoint point) {
        return new Point2D(x + pxPerMmAcross * point.leftMm(), y + pxPerMmDown * point.downMm());
    }

    List<Point2D> at(FrontPart part) {
        return part.points().stream().map(this::at).toList();
    }
}
