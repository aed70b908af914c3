package org.holdfast.app;

import com.fasterxml.jackson.annotation.JsonAnyGetter;
import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.Map;
import org.holdfast.finding.Finding;

/**
 * What {@link Inspection} found, in the shape of its JSON document: names, units and nulls are those of the format. A
 * value that is not stated is null, and the component {@code …Why} beside it says why.
 *
 * @param caution the standing text
 * @param software name and version
 * @param formatVersion version of this shape
 * @param exams the visits that the series belong to, each series with its role as proposed
 * @param series the series found
 * @param unreadable files that could not be read
 * @param findings what is about the input as a whole
 */
public record InspectionReport(
        String caution,
        String software,
        int formatVersion,
        List<ExamEntry> exams,
        List<SeriesEntry> series,
        List<UnreadableEntry> unreadable,
        List<Finding> findings) {

    /** Version of the shape that this record describes. */
    public static final int FORMAT_VERSION = 1;

    /**
     * One visit of one patient.
     *
     * @param patient number of the patient among those of the input, from 1; never the patient's own number
     * @param date the day, ISO 8601; null if no file says it
     * @param dateSource attribute that the day was taken from; null without a day
     * @param series its series with their roles: measured, then confirming, then viewed
     */
    public record ExamEntry(
            int patient,
            String date,
            @JsonInclude(JsonInclude.Include.NON_NULL) String dateWhy,
            String dateSource,
            @JsonInclude(JsonInclude.Include.NON_NULL) String dateSourceWhy,
            List<UseEntry> series,
            List<Finding> findings) {}

    /**
     * What a series, or one stack of it, is used for.
     *
     * @param stack 1-based number of the stack in its series; null for a series without stacks
     * @param name what it is in two or three words
     * @param description description of the series
     * @param kind kind of the series
     * @param images slices of the stack; images or objects of a series without stacks
     * @param role measure, confirm or view
     * @param reasons why, in words
     */
    public record UseEntry(
            String seriesInstanceUid,
            Integer stack,
            @JsonInclude(JsonInclude.Include.NON_NULL) String stackWhy,
            String name,
            String description,
            String kind,
            int images,
            String role,
            List<String> reasons) {}

    /**
     * How images were made, as far as their files say. A text or number that they do not say is null.
     *
     * @param kernelSharpness bone, edge, standard, soft or unknown, by the kernel's name
     * @param reconstruction iterative or learned reconstruction as named
     * @param monoEnergyKeV energy of a virtual monoenergetic image
     * @param artefactReduction yes, no or unknown, as contrastAgent and coneBeam
     * @param why for each null above, that and why it is not stated
     */
    public record AcquisitionEntry(
            Double kvp,
            String kernel,
            String kernelSharpness,
            String reconstruction,
            Double sliceThicknessMm,
            Double fieldOfViewMm,
            Double monoEnergyKeV,
            String artefactReduction,
            String contrastAgent,
            String coneBeam,
            String detector,
            String scannerModel,
            String posture,
            @JsonAnyGetter Map<String, String> why) {}

    /**
     * One series.
     *
     * @param patient number of its patient among those of the input, from 1
     * @param date day of the scan, ISO 8601; null if no file says it
     * @param dateSource attribute that the day was taken from; null without a day
     * @param acquisition how its first stack, or its first image, was made; null for objects without pictures
     * @param kind volume, radiograph, image or other
     * @param files its files; null unless they were asked for
     */
    public record SeriesEntry(
            String seriesInstanceUid,
            String studyInstanceUid,
            int patient,
            String modality,
            String description,
            String kind,
            String date,
            @JsonInclude(JsonInclude.Include.NON_NULL) String dateWhy,
            String dateSource,
            @JsonInclude(JsonInclude.Include.NON_NULL) String dateSourceWhy,
            AcquisitionEntry acquisition,
            @JsonInclude(JsonInclude.Include.NON_NULL) String acquisitionWhy,
            List<StackEntry> stacks,
            List<Finding> findings,
            @JsonInclude(JsonInclude.Include.NON_NULL) List<FileEntry> files) {}

    /**
     * One stack; lengths in mm, directions as unit vectors in LPS.
     *
     * @param number 1-based number within the series
     * @param acquisition how it was made
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
            int number,
            AcquisitionEntry acquisition,
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
     * @param transferSyntaxName the same in words
     * @param frames frames of its pixel data; null without pixels
     * @param loss how it was compressed with loss; null if the file does not say that it was
     * @param bits bits that count in a stored value; null without pixels, as what follows
     * @param storedMin smallest stored value over all samples and frames, padding included; null if it cannot be read
     */
    public record FileEntry(
            String path,
            String transferSyntax,
            String transferSyntaxName,
            Integer frames,
            Integer bits,
            Integer samples,
            String photometric,
            @JsonInclude(JsonInclude.Include.NON_NULL) String bitsWhy,
            Long storedMin,
            Long storedMax,
            Double storedMean,
            @JsonInclude(JsonInclude.Include.NON_NULL) String storedMinWhy,
            boolean lossy,
            LossEntry loss,
            @JsonInclude(JsonInclude.Include.NON_NULL) String lossWhy,
            ScaleEntry scale) {}

    /**
     * How an image lost detail.
     *
     * @param method how it was compressed; null if not said
     * @param ratio original size to compressed size; null if not said
     * @param largestError most by which a stored value may be off, where the codec bounds it; else null
     * @param words all of it in words
     */
    public record LossEntry(
            String method,
            @JsonInclude(JsonInclude.Include.NON_NULL) String methodWhy,
            Double ratio,
            @JsonInclude(JsonInclude.Include.NON_NULL) String ratioWhy,
            Integer largestError,
            @JsonInclude(JsonInclude.Include.NON_NULL) String largestErrorWhy,
            String words) {}

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
        exams = List.copyOf(exams);
        series = List.copyOf(series);
        unreadable = List.copyOf(unreadable);
        findings = List.copyOf(findings);
    }
}
