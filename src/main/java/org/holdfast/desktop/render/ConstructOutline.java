package org.holdfast.desktop.render;

import java.util.List;
import java.util.Objects;
import org.holdfast.construct.Shape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.volume.CutPlane;

/**
 * The laid-out construct's outline on a cut: where the plane goes through a part's surface. Shapes whose surface is not
 * known are left out. Immutable.
 *
 * @param shapes the parts, in the construct's space
 * @param examToReference from the exam's patient space into the construct's
 */
public record ConstructOutline(List<Shape> shapes, RigidTransform examToReference) {

    private static final int LINE = 0xFFFFF1D0;
    /** Beside the line, so that it is seen over white metal too. */
    private static final int BED = 0xFF0B0D0E;

    public ConstructOutline {
        shapes = shapes.stream().filter(Shape::hasDistance).toList();
        Objects.requireNonNull(examToReference, "examToReference");
    }

    /** A picture of a cut with the outline over it, one pixel wide. */
    public Picture over(Picture picture, CutPlane plane) {
        int width = picture.width();
        int height = picture.height();
        int[] argb = picture.argb().clone();
        for (Shape shape : shapes) {
            boolean[] inside = inside(shape, plane, width, height);
            for (int y = 1; y < height - 1; y++) {
                for (int x = 1; x < width - 1; x++) {
                    int n = x + width * y;
                    if (inside[n] && isAtRim(inside, n, width)) {
                        argb[n] = LINE;
                    } else if (!inside[n] && touches(inside, n, width)) {
                        argb[n] = BED;
                    }
                }
            }
        }
        return new Picture(width, height, argb);
    }

    private boolean[] inside(Shape shape, CutPlane plane, int width, int height) {
        boolean[] inside = new boolean[width * height];
        for (int y = 0; y < height; y++) {
            for (int x = 0; x < width; x++) {
                PatientPoint place = examToReference.apply(plane.pixelToPatient(x, y));
                inside[x + width * y] = shape.signedDistanceMm(place) <= 0;
            }
        }
        return inside;
    }

    private static boolean isAtRim(boolean[] inside, int n, int width) {
        return !inside[n - 1] || !inside[n + 1] || !inside[n - width] || !inside[n + width];
    }

    private static boolean touches(boolean[] inside, int n, int width) {
        return inside[n - 1] || inside[n + 1] || inside[n - width] || inside[n + width];
    }
}
