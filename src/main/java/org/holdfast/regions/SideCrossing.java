package org.holdfast.regions;

import java.util.List;

/** Whether sides of a closed line meet that are not neighbours; the time grows with the square of their number. */
final class SideCrossing {

    private SideCrossing() {}

    static boolean isIn(List<PixelPoint> corners) {
        int count = corners.size();
        for (int n = 0; n < count; n++) {
            for (int m = n + 2; m < count; m++) {
                boolean areNeighbours = n == 0 && m == count - 1;
                if (!areNeighbours && meet(corners, n, m)) {
                    return true;
                }
            }
        }
        return false;
    }

    private static boolean meet(List<PixelPoint> corners, int n, int m) {
        PixelPoint a = corners.get(n);
        PixelPoint b = corners.get(n + 1);
        PixelPoint c = corners.get(m);
        PixelPoint d = corners.get((m + 1) % corners.size());
        double atC = a.turn(b, c);
        double atD = a.turn(b, d);
        double atA = c.turn(d, a);
        double atB = c.turn(d, b);
        if (atC == 0 && atD == 0) {
            return overlap(a.x(), b.x(), c.x(), d.x()) && overlap(a.y(), b.y(), c.y(), d.y());
        }
        return atC * atD <= 0 && atA * atB <= 0;
    }

    private static boolean overlap(double a, double b, double c, double d) {
        return Math.max(a, b) >= Math.min(c, d) && Math.max(c, d) >= Math.min(a, b);
    }
}
