package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.List;
import org.holdfast.desktop.state.ImageMark;
import org.holdfast.desktop.state.ImageMark.RegionMark;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * The line of a mark as places in the exam. A picture that is turned in its plane against the one on which a region was
 * drawn thus shows the region that is measured, not an upright one of the same corners.
 */
public final class MarkOutline {

    /** An ellipse is drawn with so many corners; with them it is off by 0.1 % of its half axis. */
    private static final int ELLIPSE_CORNERS = 72;

    private MarkOutline() {}

    /** Whether the last place is joined to the first. */
    public static boolean isClosed(ImageMark mark) {
        return mark instanceof RegionMark;
    }

    /** The corners of the line, in order. */
    public static List<PatientPoint> of(ImageMark mark) {
        return mark instanceof RegionMark region && region.kind() != RegionMark.Kind.POLYGON
                ? box(region)
                : mark.points();
    }

    private static List<PatientPoint> box(RegionMark region) {
        PatientPoint from = region.points().get(0);
        PatientVector across = region.points().get(1).minus(from);
        PatientVector right = region.place().axes().right();
        PatientVector down = region.place().axes().down();
        PatientVector halfWidth = right.times(across.dot(right) / 2);
        PatientVector halfHeight = down.times(across.dot(down) / 2);
        PatientPoint middle = from.plus(halfWidth).plus(halfHeight);
        List<PatientPoint> corners = new ArrayList<>();
        if (region.kind() == RegionMark.Kind.RECTANGLE) {
            corners.add(middle.plus(halfWidth.times(-1)).plus(halfHeight.times(-1)));
            corners.add(middle.plus(halfWidth).plus(halfHeight.times(-1)));
            corners.add(middle.plus(halfWidth).plus(halfHeight));
            corners.add(middle.plus(halfWidth.times(-1)).plus(halfHeight));
        } else {
            for (int n = 0; n < ELLIPSE_CORNERS; n++) {
                double turn = 2 * Math.PI * n / ELLIPSE_CORNERS;
                corners.add(middle.plus(halfWidth.times(Math.cos(turn))).plus(halfHeight.times(Math.sin(turn))));
            }
        }
        return corners;
    }
}
