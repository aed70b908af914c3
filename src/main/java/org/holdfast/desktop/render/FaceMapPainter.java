package org.holdfast.desktop.render;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.holdfast.construct.CutAxes;
import org.holdfast.construct.Patch;
import org.holdfast.desktop.render.FaceLayout.FlatPlace;

/**
 * Draws what was read on a face as a map of cells, one a sample, at the exact size in device pixels, both directions at one
 * scale. Stateless.
 *
 * <p>A cell is at most as wide as the way to the nearest other sample, so that cells never overlap, and at most as wide as
 * that usually is, so that a mark's size tells its class.
 */
public final class FaceMapPainter {

    /** Around the face, share of the picture's smaller side. */
    private static final double MARGIN = 0.05;

    private static final int OUTLINE = 0x6E7876;

    private FaceMapPainter() {}

    /**
     * Draws a map.
     *
     * @param cells one a sample
     * @param patches the face, in the space of the samples; at least one
     * @param faceOn how the face is looked at
     * @param size device pixels, none of them 0
     */
    public static MapPicture paint(List<MapCell> cells, List<Patch> patches, CutAxes faceOn, PixelSize size) {
        if (patches.isEmpty() || size.isEmpty()) {
            throw new IllegalArgumentException(
                    "a map needs a patch and a size, got " + patches.size() + " patches, " + size);
        }
        FaceLayout layout = FaceLayout.of(patches, faceOn);
        List<FlatPlace> placesMm =
                cells.stream().map(cell -> layout.placeMm(cell.sample())).toList();
        double[] sidesMm = sidesMm(placesMm);
        Fit fit = Fit.of(layout, placesMm, sidesMm, size);
        Raster raster = new Raster(size, MapClass.WELL);
        List<MapPicture.Cell> drawn = new ArrayList<>();
        for (int n = 0; n < placesMm.size(); n++) {
            MapCell cell = cells.get(n);
            double x = fit.x(placesMm.get(n));
            double y = fit.y(placesMm.get(n));
            double side = sidesMm[n] * fit.pixelsPerMm();
            MapMark.paint(raster, cell.mapClass(), x, y, side, side);
            drawn.add(new MapPicture.Cell(cell.words(), x, y, side, side));
        }
        layout.outlines().forEach(line -> outline(raster, line, fit));
        return new MapPicture(
                raster.picture(),
                1 / fit.pixelsPerMm(),
                layout.reference(),
                fit.originX(),
                fit.originY(),
                layout.right(),
                layout.down(),
                drawn,
                List.of());
    }

    /** The mark of a class alone, for a legend: one cell that fills a square picture. */
    public static Picture swatch(MapClass mapClass, int sidePixels) {
        Raster raster = new Raster(new PixelSize(sidePixels, sidePixels), MapClass.WELL);
        MapMark.paint(raster, mapClass, sidePixels / 2.0, sidePixels / 2.0, sidePixels, sidePixels);
        return raster.picture();
    }

    /** Way to the nearest other sample along either direction, whichever is longer, but no more than it usually is. */
    private static double[] sidesMm(List<FlatPlace> places) {
        Integer[] order = new Integer[places.size()];
        Arrays.setAll(order, n -> n);
        Arrays.sort(order, Comparator.comparingDouble(n -> places.get(n).rightMm()));
        double[] right =
                Arrays.stream(order).mapToDouble(n -> places.get(n).rightMm()).toArray();
        double[] down =
                Arrays.stream(order).mapToDouble(n -> places.get(n).downMm()).toArray();
        double[] sides = new double[order.length];
        for (int n = 0; n < order.length; n++) {
            double nearest = Double.POSITIVE_INFINITY;
            // From left to right further ones cannot be nearer once they lie further to that side alone.
            for (int m = n + 1; m < order.length && right[m] - right[n] < nearest; m++) {
                nearest = Math.min(nearest, Math.max(right[m] - right[n], Math.abs(down[m] - down[n])));
            }
            for (int m = n - 1; m >= 0 && right[n] - right[m] < nearest; m--) {
                nearest = Math.min(nearest, Math.max(right[n] - right[m], Math.abs(down[m] - down[n])));
            }
            sides[order[n]] = nearest;
        }
        double[] sorted = sides.clone();
        Arrays.sort(sorted);
        double usual = sides.length > 1 ? sorted[sorted.length / 2] : 1;
        for (int n = 0; n < sides.length; n++) {
            sides[n] = Math.min(sides[n], usual);
        }
        return sides;
    }

    private static void outline(Raster raster, List<FlatPlace> line, Fit fit) {
        boolean isRectangle = line.size() == 4;
        FlatPlace from = line.get(line.size() - 1);
        for (FlatPlace to : line) {
            raster.line(
                    onPixel(fit.x(from), isRectangle),
                    onPixel(fit.y(from), isRectangle),
                    onPixel(fit.x(to), isRectangle),
                    onPixel(fit.y(to), isRectangle),
                    1,
                    OUTLINE);
            from = to;
        }
    }

    /** Straight sides are drawn through the middles of pixels, else they would smear over two. */
    private static double onPixel(double at, boolean isStraight) {
        return isStraight ? Math.floor(at) + 0.5 : at;
    }

    /** From mm on the layout to pixels on the picture. */
    private record Fit(double pixelsPerMm, double originX, double originY) {

        static Fit of(FaceLayout layout, List<FlatPlace> places, double[] sides, PixelSize size) {
            Extent extent = new Extent();
            // Where the face has an outline that alone sets the scale, so that the same face fits alike on every exam.
            for (int n = 0; n < places.size() && layout.outlines().isEmpty(); n++) {
                extent.add(places.get(n), sides[n] / 2);
            }
            layout.outlines().forEach(line -> line.forEach(corner -> extent.add(corner, 0)));
            double margin = 1 + MARGIN * Math.min(size.width(), size.height());
            double width = Math.max(1, size.width() - 2 * margin);
            double height = Math.max(1, size.height() - 2 * margin);
            double scale = Math.min(width / extent.widthMm(), height / extent.heightMm());
            return new Fit(
                    scale,
                    size.width() / 2.0 - scale * (extent.left + extent.right) / 2,
                    size.height() / 2.0 - scale * (extent.top + extent.bottom) / 2);
        }

        double x(FlatPlace place) {
            return originX + pixelsPerMm * place.rightMm();
        }

        double y(FlatPlace place) {
            return originY + pixelsPerMm * place.downMm();
        }
    }

    /** The smallest upright rectangle round places, mm; a picture of nothing is 1 mm wide. */
    private static final class Extent {
        private double left = -0.5;
        private double top = -0.5;
        private double right = 0.5;
        private double bottom = 0.5;

        void add(FlatPlace place, double around) {
            left = Math.min(left, place.rightMm() - around);
            right = Math.max(right, place.rightMm() + around);
            top = Math.min(top, place.downMm() - around);
            bottom = Math.max(bottom, place.downMm() + around);
        }

        double widthMm() {
            return right - left;
        }

        double heightMm() {
            return bottom - top;
        }
    }
}
