package org.holdfast.intake;

import java.util.Optional;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.PixelLayout;
import org.holdfast.dicom.PixelReader;
import org.holdfast.dicom.PixelSource;

/**
 * Smallest, largest and mean stored value over all samples and frames of a file, padding included, after the bits that do
 * not count were masked.
 *
 * @param min smallest stored value
 * @param max largest stored value
 * @param mean mean stored value
 */
public record StoredStatistics(long min, long max, double mean) {

    /** Why the statistics of a file cannot be computed, or empty if they can. */
    public static Optional<String> whyNot(ImageHeader header) {
        if (header.pixels().isEmpty()) {
            return Optional.of("no pixel data that the header describes");
        }
        PixelSource pixels = header.pixels().get();
        if (pixels.whyUnreadable().isPresent()) {
            return pixels.whyUnreadable();
        }
        return pixels.isComplete()
                ? Optional.empty()
                : Optional.of("pixel data cut short: " + pixels.availableBytes() + " of "
                        + pixels.layout().totalBytes() + " bytes");
    }

    /**
     * The statistics of a file.
     *
     * @throws IllegalArgumentException if {@link #whyNot} gives a reason
     * @throws DicomReadException if the file cannot be read any more
     */
    public static StoredStatistics of(ImageHeader header) throws DicomReadException {
        whyNot(header).ifPresent(why -> {
            throw new IllegalArgumentException(header.name() + ": " + why);
        });
        PixelSource pixels = header.pixels().orElseThrow();
        PixelLayout layout = pixels.layout();
        int[] values = new int[Math.toIntExact(layout.frameValues())];
        PixelReader reader = new PixelReader();
        // Only unsigned values of all 32 bits do not fit an int.
        long mask = layout.signed() ? -1L : 0xFFFFFFFFL;
        long min = Long.MAX_VALUE;
        long max = Long.MIN_VALUE;
        double sum = 0;
        for (int frame = 0; frame < layout.frames(); frame++) {
            reader.readValues(pixels, frame, values);
            long frameSum = 0;
            for (int value : values) {
                long stored = value & mask;
                min = Math.min(min, stored);
                max = Math.max(max, stored);
                frameSum += stored;
            }
            sum += frameSum;
        }
        return new StoredStatistics(min, max, sum / ((double) values.length * layout.frames()));
    }
}
