package org.holdfast.desktop.render;

import java.util.Arrays;

/**
 * Opaque pixels on which simple shapes are painted, each pixel in proportion to how much of it a shape covers. Places are
 * pixels from the upper left corner: pixel (x, y) is the square from (x, y) to (x + 1, y + 1). Colours are 0xRRGGBB and
 * mixed in sRGB. What lies outside is left out. Not thread-safe.
 */
final class Raster {

    private static final int OPAQUE = 0xFF000000;
    /** Distance of a hatch's strokes along a row. */
    private static final int HATCH_PIXELS = 4;

    private final int width;
    private final int height;
    private final int ground;
    private final int[] argb;

    Raster(PixelSize size, int ground) {
        this.width = size.width();
        this.height = size.height();
        this.ground = ground;
        this.argb = new int[width * height];
        Arrays.fill(argb, OPAQUE | ground);
    }

    /** How much of the pixel around a place is covered, 0 to 1. */
    private interface Coverage {
        double at(double x, double y);
    }

    void rectangle(double left, double top, double right, double bottom, int colour) {
        paint(left, top, right, bottom, colour, (x, y) -> overlap(x, left, right) * overlap(y, top, bottom));
    }

    private static double overlap(double middle, double from, double to) {
        return Math.max(0, Math.min(middle + 0.5, to) - Math.max(middle - 0.5, from));
    }

    /** One whole pixel. */
    void pixel(int x, int y, int colour) {
        if (x >= 0 && x < width && y >= 0 && y < height) {
            argb[x + width * y] = OPAQUE | colour;
        }
    }

    /** A rectangle on bare ground whose neighbours leave no seam: what two of them share of a pixel adds up. */
    void tile(double left, double top, double right, double bottom, int colour) {
        int fromX = (int) Math.max(0, Math.floor(left));
        int fromY = (int) Math.max(0, Math.floor(top));
        for (int y = fromY; y < Math.min(height, bottom); y++) {
            for (int x = fromX; x < Math.min(width, right); x++) {
                double share = overlap(x + 0.5, left, right) * overlap(y + 0.5, top, bottom);
                int n = x + width * y;
                argb[n] = added(argb[n], colour, share);
            }
        }
    }

    private int added(int below, int above, double share) {
        int sum = 0;
        for (int shift = 0; shift <= 16; shift += 8) {
            double more = share * ((above >> shift & 0xFF) - (ground >> shift & 0xFF));
            int channel = (int) Math.rint((below >> shift & 0xFF) + more);
            sum |= Math.max(0, Math.min(255, channel)) << shift;
        }
        return OPAQUE | sum;
    }

    void disc(double centreX, double centreY, double radius, int colour) {
        double reach = radius + 1;
        // A disc smaller than a pixel covers its area, not its diameter.
        double most = Math.min(1, Math.PI * radius * radius);
        paint(centreX - reach, centreY - reach, centreX + reach, centreY + reach, colour, (x, y) -> {
            double away = Math.hypot(x - centreX, y - centreY) - radius;
            return Math.min(most, Math.max(0, 0.5 - away));
        });
    }

    /** A straight stroke with round ends. */
    void line(double fromX, double fromY, double toX, double toY, double strokeWidth, int colour) {
        double reach = strokeWidth / 2 + 1;
        double most = Math.min(1, strokeWidth);
        double dx = toX - fromX;
        double dy = toY - fromY;
        double squared = Math.max(1e-12, dx * dx + dy * dy);
        paint(
                Math.min(fromX, toX) - reach,
                Math.min(fromY, toY) - reach,
                Math.max(fromX, toX) + reach,
                Math.max(fromY, toY) + reach,
                colour,
                (x, y) -> {
                    double along = ((x - fromX) * dx + (y - fromY) * dy) / squared;
                    double at = Math.max(0, Math.min(1, along));
                    double away = Math.hypot(x - fromX - at * dx, y - fromY - at * dy);
                    return Math.min(most, Math.max(0, 0.5 + strokeWidth / 2 - away));
                });
    }

    /** Strokes one pixel wide that rise to the right, on lines common to the whole picture; whole pixels only. */
    void hatch(double left, double top, double right, double bottom, int colour) {
        for (int y = (int) Math.max(0, Math.rint(top)); y < Math.min(height, Math.rint(bottom)); y++) {
            for (int x = (int) Math.max(0, Math.rint(left)); x < Math.min(width, Math.rint(right)); x++) {
                if ((x + y) % HATCH_PIXELS == 0) {
                    argb[x + width * y] = OPAQUE | colour;
                }
            }
        }
    }

    private void paint(double left, double top, double right, double bottom, int colour, Coverage coverage) {
        int fromX = (int) Math.max(0, Math.floor(left));
        int fromY = (int) Math.max(0, Math.floor(top));
        int toX = (int) Math.min(width, Math.ceil(right));
        int toY = (int) Math.min(height, Math.ceil(bottom));
        for (int y = fromY; y < toY; y++) {
            for (int x = fromX; x < toX; x++) {
                double share = coverage.at(x + 0.5, y + 0.5);
                if (share > 0) {
                    int n = x + width * y;
                    argb[n] = mixed(argb[n], colour, Math.min(1, share));
                }
            }
        }
    }

    private static int mixed(int below, int above, double share) {
        int mixed = 0;
        for (int shift = 0; shift <= 16; shift += 8) {
            double from = below >> shift & 0xFF;
            double to = above >> shift & 0xFF;
            mixed |= (int) (from + share * (to - from) + 0.5) << shift;
        }
        return OPAQUE | mixed;
    }

    Picture picture() {
        return new Picture(width, height, argb);
    }
}
