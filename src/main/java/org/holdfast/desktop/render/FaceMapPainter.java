package org.holdfast.desktop.render;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.holdfast.construct.CutAxes;
import org.holdfast.construct.Patch;
import org.holdfast.desktop.render.FaceLayout.FlatPlace;
import org.holdfast.figure.Face;
import org.holdfast.measure.SampleReading;

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
    /**
     * From this cell side on, pixels, marks lie on whole pixels with a sliver of ground between. Smaller cells are painted
     * by coverage, without dots, and one hatch runs through neighbours: a dot would darken what must be the lightest class.
     */
    private static final double CRISP = 6;

    private FaceMapPainter() {}

    /**
     * Draws a map.
     *
     * @param readings one a sample
     * @param patches the face, in the space of the samples; at least one
     * @param faceOn how the face is looked at
     * @param limits widths at which the classes of gap part
     * @param size device pixels, none of them 0
     */
    public static FaceMapPicture paint(
            List<SampleReading> readings, List<Patch> patches, CutAxes faceOn, Face.GapLimits limits, PixelSize size) {
        if (patches.isEmpty() || size.isEmpty()) {
            throw new IllegalArgumentException(
                    "a map needs a patch and a size, got " + patches.size() + " patches, " + size);
        }
        FaceLayout layout = FaceLayout.of(patches, faceOn);
        List<FlatPlace> placesMm = readings.stream()
                .map(reading -> layout.placeMm(reading.sample()))
                .toList();
        double[] sidesMm = sidesMm(placesMm);
        Fit fit = Fit.of(layout, placesMm, sidesMm, size);
        Raster raster = new Raster(size, FaceClass.WELL);
        List<FaceMapPicture.Cell> cells = new ArrayList<>();
        for (int n = 0; n < placesMm.size(); n++) {
            FaceMapPicture.Cell cell = new FaceMapPicture.Cell(
                    readings.get(n), fit.x(placesMm.get(n)), fit.y(placesMm.get(n)), sidesMm[n] * fit.pixelsPerMm());
            mark(raster, FaceClass.of(cell.reading(), limits), cell.x(), cell.y(), cell.side());
            cells.add(cell);
        }
        layout.outlines().forEach(line -> outline(raster, line, fit));
        return new FaceMapPicture(
                raster.picture(),
                1 / fit.pixelsPerMm(),
                layout.reference(),
                fit.originX(),
                fit.originY(),
                layout.right(),
                layout.down(),
                cells);
    }

    /** The mark of a class alone, for a legend: one cell that fills a square picture. */
    public static Picture swatch(FaceClass faceClass, int sidePixels) {
        Raster raster = new Raster(new PixelSize(sidePixels, sidePixels), FaceClass.WELL);
        mark(raster, faceClass, sidePixels / 2.0, sidePixels / 2.0, sidePixels);
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

    private static void mark(Raster raster, FaceClass faceClass, double x, double y, double side) {
        if (side < CRISP) {
            double half = faceClass.share() * side / 2;
            raster.tile(x - half, y - half, x + half, y + half, faceClass.colour());
            if (faceClass == FaceClass.CANNOT_TELL) {
                raster.hatch(x - half, y - half, x + half, y + half, FaceClass.STROKE);
            }
            return;
        }
        double full = Math.floor(side) - Math.max(1, Math.rint(0.08 * side));
        double edge = Math.max(1, Math.rint(faceClass.share() * full));
        double left = Math.rint(x - edge / 2);
        double top = Math.rint(y - edge / 2);
        raster.rectangle(left, top, left + edge, top + edge, faceClass.colour());
        double middleX = left + edge / 2;
        double middleY = top + edge / 2;
        if (faceClass == FaceClass.BRIDGED) {
            raster.disc(middleX, middleY, 0.2 * edge, FaceClass.WELL);
        } else if (faceClass == FaceClass.CANNOT_TELL) {
            double reach = 0.35 * edge;
            double stroke = Math.max(1, 0.12 * edge);
            raster.line(middleX - reach, middleY + reach, middleX + reach, middleY - reach, stroke, FaceClass.STROKE);
        }
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
