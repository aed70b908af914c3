package org.holdfast.desktop.viewmodel;

import java.util.List;
import java.util.Optional;
import org.holdfast.construct.CutAxes;
import org.holdfast.desktop.state.ImageMark;
import org.holdfast.desktop.state.ImageMark.AngleMark;
import org.holdfast.desktop.state.ImageMark.LengthMark;
import org.holdfast.desktop.state.ImageMark.RegionMark;
import org.holdfast.desktop.state.Words;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.regions.Outline;
import org.holdfast.regions.PixelPoint;
import org.holdfast.regions.RegionReading;
import org.holdfast.regions.RegionStatistics;
import org.holdfast.volume.Cut;
import org.holdfast.volume.CutPlane;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.Reslicer;
import org.holdfast.volume.VolumeGrid;

/**
 * What a mark on an image measures, in words. Immutable.
 *
 * <p>Lengths (mm) and angles (degrees, 0 to 180) are those of its points in patient space. HU of a region are read on the
 * mark's own plane, sampled at the smallest spacing of the exam's voxels in the slice, so that the zoom of the screen
 * changes no number.
 *
 * @param label in few words, for the image
 * @param words in full, for the panel
 */
public record MarkReading(String label, String words) {

    /** Fewer pixels than this carry no statistic worth its name. */
    private static final int FEW_PIXELS = 10;
    /** Around a region so many pixels are sampled too. */
    private static final int BORDER = 2;

    private static final int MOST_PIXELS = 4_000_000;

    /**
     * What a mark measures.
     *
     * @param mark the mark
     * @param volume the exam's volume; empty while it is not there
     */
    public static MarkReading of(ImageMark mark, Optional<HuVolume> volume) {
        if (mark instanceof LengthMark length) {
            String words = Words.quantity(length.to().minus(length.from()).norm(), 1, "mm");
            return new MarkReading(words, words);
        }
        if (mark instanceof AngleMark angle) {
            return ofAngle(angle);
        }
        return volume.map(hu -> ofRegion((RegionMark) mark, hu))
                .orElse(new MarkReading("", "the exam's images are not there now"));
    }

    private static MarkReading ofAngle(AngleMark angle) {
        PatientVector first = angle.first().minus(angle.vertex());
        PatientVector second = angle.second().minus(angle.vertex());
        if (first.norm() == 0 || second.norm() == 0) {
            return new MarkReading("", "an arm has no length: no angle");
        }
        String words = Words.number(first.angleDegTo(second), 1) + "°";
        return new MarkReading(words, words);
    }

    private static MarkReading ofRegion(RegionMark mark, HuVolume volume) {
        Flat flat = new Flat(mark, volume.grid());
        if (flat.width <= 0 || flat.height <= 0) {
            return new MarkReading("", "the region has no extent");
        }
        if ((long) flat.columns() * flat.rows() > MOST_PIXELS) {
            return new MarkReading("", "the region is larger than the scan");
        }
        Optional<Outline> outline = flat.outline();
        if (outline.isEmpty()) {
            return new MarkReading("", "the outline crosses itself or is a mere line: it has no inside");
        }
        Cut cut = Reslicer.cut(volume, flat.plane(), mark.place().slab());
        return words(RegionStatistics.of(cut, outline.get()), volume.isLossy());
    }

    private static MarkReading words(RegionReading result, boolean lossy) {
        if (result instanceof RegionReading.NotComputable not) {
            return new MarkReading("", not.why());
        }
        RegionStatistics s = (RegionStatistics) result;
        String sd = s.sdHu().isPresent() ? ", SD " + Words.number(s.sdHu().getAsDouble(), 0) : "";
        String loss = lossy ? " (lossy)" : "";
        String label = "mean " + Words.quantity(s.meanHu(), 0, "HU") + sd + loss;
        String few = s.pixels() < FEW_PIXELS ? "; too few pixels to mean much" : "";
        String missing = s.pixelsWithoutValue() > 0 ? "; " + s.pixelsWithoutValue() + " without a value" : "";
        return new MarkReading(
                label,
                label + ", median " + Words.number(s.medianHu(), 0) + ", " + Words.number(s.minHu(), 0) + " to "
                        + Words.number(s.maxHu(), 0) + ", " + Words.quantity(s.areaMm2(), 0, "mm²") + ", " + s.pixels()
                        + " pixels" + missing + few);
    }

    /** A region laid flat: mm from its upper left corner. */
    private static final class Flat {
        private final RegionMark mark;
        private final double pixelMm;
        private final CutAxes axes;
        private final PatientPoint origin;
        private final double width;
        private final double height;

        Flat(RegionMark mark, VolumeGrid grid) {
            this.mark = mark;
            this.pixelMm = Math.min(grid.columnSpacingMm(), grid.rowSpacingMm());
            this.axes = mark.place().axes();
            PatientPoint any = mark.points().get(0);
            double left =
                    mark.points().stream().mapToDouble(p -> right(p, any)).min().orElseThrow();
            double top =
                    mark.points().stream().mapToDouble(p -> down(p, any)).min().orElseThrow();
            this.width =
                    mark.points().stream().mapToDouble(p -> right(p, any)).max().orElseThrow() - left;
            this.height =
                    mark.points().stream().mapToDouble(p -> down(p, any)).max().orElseThrow() - top;
            this.origin = any.along(axes.right(), left).along(axes.down(), top);
        }

        int columns() {
            return (int) Math.ceil(width / pixelMm) + 1 + 2 * BORDER;
        }

        int rows() {
            return (int) Math.ceil(height / pixelMm) + 1 + 2 * BORDER;
        }

        CutPlane plane() {
            PatientPoint corner = origin.along(axes.right(), -BORDER * pixelMm).along(axes.down(), -BORDER * pixelMm);
            return new CutPlane(corner, axes.right().times(pixelMm), axes.down().times(pixelMm), columns(), rows());
        }

        Optional<Outline> outline() {
            double right = BORDER + width / pixelMm;
            double bottom = BORDER + height / pixelMm;
            switch (mark.kind()) {
                case ELLIPSE:
                    PixelPoint centre = new PixelPoint((BORDER + right) / 2, (BORDER + bottom) / 2);
                    return Optional.of(new Outline.Ellipse(centre, (right - BORDER) / 2, (bottom - BORDER) / 2));
                case RECTANGLE:
                    return Optional.of(new Outline.Rectangle(BORDER, BORDER, right, bottom));
                default:
                    List<PixelPoint> corners = mark.points().stream()
                            .map(p -> new PixelPoint(
                                    BORDER + right(p, origin) / pixelMm, BORDER + down(p, origin) / pixelMm))
                            .toList();
                    return Outline.Polygon.hasInside(corners)
                            ? Optional.of(new Outline.Polygon(corners))
                            : Optional.empty();
            }
        }

        private double right(PatientPoint p, PatientPoint from) {
            return p.minus(from).dot(axes.right());
        }

        private double down(PatientPoint p, PatientPoint from) {
            return p.minus(from).dot(axes.down());
        }
    }
}
