package org.holdfast.regions;

import ij.measure.Measurements;
import ij.process.ByteProcessor;
import ij.process.FloatProcessor;
import ij.process.ImageStatistics;
import java.util.OptionalDouble;
import org.holdfast.volume.Cut;

/**
 * HU over the pixels of a cut whose centres lie inside an outline. Immutable.
 *
 * <p>Pixels without HU (outside the valid image, in a hole) are left out of the HU and counted. A cut is interpolated, and
 * its pixels are mostly smaller than voxels: neighbours are not independent, and interpolation lowers the standard
 * deviation. To compare it between exams, cut both with the same pixels, about a voxel wide.
 *
 * @param meanHu arithmetic mean
 * @param sdHu standard deviation with n − 1; empty for a single pixel
 * @param minHu smallest
 * @param maxHu largest
 * @param medianHu median; of an even number the mean of the middle two
 * @param areaMm2 area inside the outline as drawn, mm², the part outside the picture included
 * @param countedAreaMm2 area of the counted pixels: {@code pixels} times the area of one, mm²
 * @param pixels pixels with HU whose centres lie inside
 * @param pixelsWithoutValue pixels of the picture without HU whose centres lie inside
 */
public record RegionStatistics(
        double meanHu,
        OptionalDouble sdHu,
        double minHu,
        double maxHu,
        double medianHu,
        double areaMm2,
        double countedAreaMm2,
        int pixels,
        int pixelsWithoutValue)
        implements RegionReading {

    private static final int WANTED =
            Measurements.MEAN | Measurements.STD_DEV | Measurements.MIN_MAX | Measurements.MEDIAN;

    /**
     * Reads the HU inside an outline.
     *
     * @param cut the HU
     * @param outline in the pixel coordinates of the cut; may reach beyond it
     * @return the numbers, or why there are none: the outline lies beside the picture, is too small to hold a pixel's
     *     centre, or holds only pixels without HU
     */
    public static RegionReading of(Cut cut, Outline outline) {
        int left = Math.max(0, (int) Math.ceil(outline.left()));
        int top = Math.max(0, (int) Math.ceil(outline.top()));
        int right = Math.min(cut.width() - 1, (int) Math.floor(outline.right()));
        int bottom = Math.min(cut.height() - 1, (int) Math.floor(outline.bottom()));
        if (outline.right() < 0
                || outline.bottom() < 0
                || outline.left() > cut.width() - 1
                || outline.top() > cut.height() - 1) {
            return new NotComputable("the region lies outside the picture");
        }
        if (left > right || top > bottom) {
            return tooSmall();
        }
        return read(cut, outline, new Frame(left, top, right - left + 1, bottom - top + 1));
    }

    /** The pixels that can lie inside an outline. */
    private record Frame(int left, int top, int width, int height) {}

    private static RegionReading read(Cut cut, Outline outline, Frame frame) {
        FloatProcessor hu = new FloatProcessor(frame.width(), frame.height());
        ByteProcessor mask = new ByteProcessor(frame.width(), frame.height());
        int withValue = 0;
        int without = 0;
        for (int y = 0; y < frame.height(); y++) {
            for (int x = 0; x < frame.width(); x++) {
                if (outline.contains(frame.left() + x, frame.top() + y)) {
                    float value = cut.hu(frame.left() + x, frame.top() + y);
                    if (Float.isNaN(value)) {
                        without++;
                    } else {
                        withValue++;
                        hu.setf(x, y, value);
                        mask.set(x, y, 255);
                    }
                }
            }
        }
        if (withValue == 0) {
            return without == 0
                    ? tooSmall()
                    : new NotComputable("none of the " + without + " pixels inside lies in the image");
        }
        hu.setMask(mask);
        ImageStatistics found = ImageStatistics.getStatistics(hu, WANTED, null);
        double pixelMm2 = cut.plane().stepRight().cross(cut.plane().stepDown()).norm();
        return new RegionStatistics(
                found.mean,
                withValue > 1 ? OptionalDouble.of(found.stdDev) : OptionalDouble.empty(),
                found.min,
                found.max,
                found.median,
                outline.areaPixels() * pixelMm2,
                withValue * pixelMm2,
                withValue,
                without);
    }

    private static NotComputable tooSmall() {
        return new NotComputable("the region holds no pixel's centre: draw it larger or zoom in");
    }
}
