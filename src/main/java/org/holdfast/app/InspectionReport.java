package org.holdfast.app;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.holdfast.finding.Finding;

/**
 * What {@link Inspection} found, in the shape of its JSON document: names, units and nulls are those of the format. A
 * value that is not stated is null, and the component {@code …Why} beside it says why.
 *
 * @param caution the standing text
 * @param software name and version
 * @param formatVersion version of this shape
 * @param series the series found
 * @param unreadable files that could not be read
 * @param findings what is about the input as a whole
 */
public record InspectionReport(
        String caution,
        String software,
        int formatVersion,
        List<SeriesEntry> series,
        List<UnreadableEntry> unreadable,
        List<Finding> findings) {

    /** Version of the shape that this record describes. */
    public static final int FORMAT_VERSION = 1;

    /**
     * One series.
     *
     * @param kind volume, radiograph, image or other
     * @param files its files; null unless they were asked for
     */
    public record SeriesEntry(
            String seriesInstanceUid,
            String modality,
            String description,
            String kind,
            List<StackEntry> stacks,
            List<Finding> findings,
            @JsonInclude(JsonInclude.Include.NON_NULL) List<FileEntry> files) {}

    /**
     * One stack; lengths in mm, directions as unit vectors in LPS.
     *
     * @param pixelSpacingMm row spacing, column spacing
     * @param pitchMm median step along the normal; null for a single slice
     * @param positionsMm position of each slice along the normal
     * @param shearDeg angle between the track of the image positions and the normal
     * @param holes 0-based slices after which others are missing
     * @param firstPositionMm first pixel of the first slice
     * @param firstToLastSamePixelMm distance of the same pixel in the first and the last slice
     * @param hu statistics of the valid voxels; null unless CT that is HU
     */
    public record StackEntry(
            int rows,
            int columns,
            int slices,
            List<Double> pixelSpacingMm,
            Double pitchMm,
            @JsonInclude(JsonInclude.Include.NON_NULL) String pitchMmWhy,
            List<Double> positionsMm,
            double shearDeg,
            boolean irregular,
            List<Integer> holes,
            List<Double> rowDirection,
            List<Double> columnDirection,
            List<Double> firstPositionMm,
            List<Double> lastPositionMm,
            double firstToLastSamePixelMm,
            HuEntry hu,
            @JsonInclude(JsonInclude.Include.NON_NULL) String huWhy) {}

    /**
     * HU over the voxels that carry tissue: neither padding nor under −1024 HU.
     *
     * @param min smallest HU; null if no voxel is valid
     * @param ceiling HU at which the scale is clipped; null if it is not
     */
    public record HuEntry(
            Double min,
            Double max,
            Double mean,
            @JsonInclude(JsonInclude.Include.NON_NULL) String meanWhy,
            long validVoxels,
            long totalVoxels,
            Double ceiling,
            @JsonInclude(JsonInclude.Include.NON_NULL) String ceilingWhy) {}

    /**
     * One file.
     *
     * @param bits bits that count in a stored value; null without pixels, as what follows
     * @param storedMin smallest stored value over all samples and frames, padding included; null if it cannot be read
     */
    public record FileEntry(
            String path,
            String transferSyntax,
            Integer bits,
            Integer samples,
            String photometric,
            @JsonInclude(JsonInclude.Include.NON_NULL) String bitsWhy,
            Long storedMin,
            Long storedMax,
            Double storedMean,
            @JsonInclude(JsonInclude.Include.NON_NULL) String storedMinWhy,
            boolean lossy,
            ScaleEntry scale) {}

    /**
     * What a pixel's size means.
     *
     * @param kind patient, fiducial, geometry, calibrated, magnified, detector, scanned, unknown or none
     * @param rowMm distance between rows; null where the kind is none
     */
    public record ScaleEntry(
            String kind, Double rowMm, Double columnMm, @JsonInclude(JsonInclude.Include.NON_NULL) String rowMmWhy) {}

    /** One file that could not be read. */
    public record UnreadableEntry(String path, String reason) {}

    public InspectionReport {
        series = List.copyOf(series);
        unreadable = List.copyOf(unreadable);
        findings = List.copyOf(findings);
    }
}
