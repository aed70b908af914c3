package org.holdfast.measure;

import java.util.Locale;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.VolumeGrid;

/**
 * The blur of a scan as an anisotropic Gaussian, with where it comes from.
 *
 * @param sigmaInPlaneMm standard deviation in the slice, mm
 * @param sigmaAlongTableMm standard deviation along the slices' normal, mm
 * @param source where the figure comes from
 * @param residualHu root mean square by which the edges differ from blurred ones, HU
 * @param seMm standard error of σ in plane, mm
 * @param note what it was measured on, or why it was not; empty if given
 */
public record PointSpreadEstimate(
        double sigmaInPlaneMm, double sigmaAlongTableMm, Source source, Stated residualHu, Stated seMm, String note) {

    /** Where a point spread comes from. */
    public enum Source {
        /** Taken from kernel and slice thickness, not measured. */
        KERNEL_AND_THICKNESS_DEFAULT,
        /** Measured on the implant's own edges in this scan. */
        IMPLANT_EDGES,
        /** Given by the user or known from a simulation. */
        GIVEN
    }

    /** σ in plane of a soft or unnamed kernel, mm; a usual body kernel resolves about 1 mm (common practice, no source). */
    static final double SOFT_SIGMA_MM = 0.45;
    /** σ in plane of a sharp (bone, edge) kernel, mm (common practice, no source). */
    static final double SHARP_SIGMA_MM = 0.35;
    /** σ of a Gaussian with full width at half maximum 1: 1 / (2 √(2 ln 2)). */
    static final double SIGMA_OF_FWHM = 1 / (2 * Math.sqrt(2 * Math.log(2)));
    /** A kernel number from which the kernel counts as sharp (common practice, no source). */
    private static final int SHARP_KERNEL_NUMBER = 50;

    private static final String NOT_MEASURED = "the point spread was not measured in this scan";
    private static final double LEAST_SHARE = 0.05;

    private static final Pattern SHARP_WORD = Pattern.compile("BONE|EDGE|SHARP|LUNG|DETAIL");
    private static final Pattern NUMBER = Pattern.compile("(\\d{2})");

    public PointSpreadEstimate {
        if (!(sigmaInPlaneMm > 0 && sigmaInPlaneMm < 5 && sigmaAlongTableMm > 0 && sigmaAlongTableMm < 5)) {
            throw new IllegalArgumentException("point spread must lie in (0, 5) mm, got " + sigmaInPlaneMm
                    + " in plane and " + sigmaAlongTableMm + " along the table");
        }
    }

    /** A point spread that was not measured. */
    public PointSpreadEstimate(double sigmaInPlaneMm, double sigmaAlongTableMm, Source source) {
        this(sigmaInPlaneMm, sigmaAlongTableMm, source, Stated.not(NOT_MEASURED), Stated.not(NOT_MEASURED), "");
    }

    /**
     * How well σ is known, as a share of it: three standard errors of a measured one, at least a few per cent since edges
     * are not all alike; the settings' share for one that was not measured.
     */
    double sigmaShare(MeasurementSettings settings) {
        return seMm.value().isPresent()
                ? Math.max(LEAST_SHARE, 3 * seMm.value().getAsDouble() / sigmaInPlaneMm)
                : settings.fit().sigmaShare();
    }

    /**
     * The default where the scan's own edges have not been measured: σ in plane by whether the kernel is sharp, σ along
     * the table such that the slice's full width at half maximum is its nominal thickness.
     */
    public static PointSpreadEstimate ofKernelAndThickness(Acquisition acquisition, VolumeGrid grid) {
        OptionalDouble thickness = acquisition.sliceThicknessMm();
        double width = thickness.isPresent() && thickness.getAsDouble() > 0
                ? thickness.getAsDouble()
                : grid.pitchMm().orElse(1);
        double inPlane = isSharp(acquisition.kernel()) ? SHARP_SIGMA_MM : SOFT_SIGMA_MM;
        double along = Math.min(4.9, Math.max(0.1, SIGMA_OF_FWHM * width));
        return new PointSpreadEstimate(inPlane, along, Source.KERNEL_AND_THICKNESS_DEFAULT);
    }

    /**
     * Standard deviation along a unit direction of what the voxels themselves show, mm: the point spread and the voxel's
     * box (extent²/12 an axis).
     */
    public double sigmaOfVoxelsMm(PatientVector direction, VolumeGrid grid) {
        return Math.sqrt(variance(direction, grid, 1.0 / 12));
    }

    /**
     * Σ (n_i · extent_i)⁴ / 120 over the voxel's axes, mm⁴: by how much the fourth cumulant of what the voxels show falls
     * short of a Gaussian's, as a box is flatter.
     */
    static double boxMm4(PatientVector direction, VolumeGrid grid) {
        double column = direction.dot(grid.rowDirection()) * grid.columnSpacingMm();
        double row = direction.dot(grid.columnDirection()) * grid.rowSpacingMm();
        double slice = direction.dot(grid.normal()) * grid.pitchMm().orElse(0);
        return (column * column * column * column + row * row * row * row + slice * slice * slice * slice) / 120;
    }

    /**
     * Standard deviation along a unit direction of what a sampled profile shows, mm: the point spread, the voxel's box
     * (extent²/12 an axis) and linear interpolation averaged over all phases (extent²/6 an axis).
     */
    public double sigmaAlongMm(PatientVector direction, VolumeGrid grid) {
        return Math.sqrt(variance(direction, grid, 1.0 / 12 + 1.0 / 6));
    }

    /** The point spread's own variance along a unit direction, without the voxel's box, mm². */
    double sigmaAlongDirectionMm2(PatientVector direction, VolumeGrid grid) {
        return variance(direction, grid, 0);
    }

    /** The same with a note. */
    PointSpreadEstimate withNote(String words) {
        return new PointSpreadEstimate(sigmaInPlaneMm, sigmaAlongTableMm, source, residualHu, seMm, words);
    }

    private double variance(PatientVector direction, VolumeGrid grid, double boxShare) {
        double a = direction.dot(grid.rowDirection());
        double b = direction.dot(grid.columnDirection());
        double c = direction.dot(grid.normal());
        double pitch = grid.pitchMm().orElse(0);
        double column = grid.columnSpacingMm();
        double row = grid.rowSpacingMm();
        double box = a * a * column * column + b * b * row * row + c * c * pitch * pitch;
        double blur = (a * a + b * b) * sigmaInPlaneMm * sigmaInPlaneMm + c * c * sigmaAlongTableMm * sigmaAlongTableMm;
        return blur + box * boxShare;
    }

    private static boolean isSharp(String kernel) {
        String upper = kernel.toUpperCase(Locale.ROOT);
        if (SHARP_WORD.matcher(upper).find()) {
            return true;
        }
        Matcher number = NUMBER.matcher(upper);
        return number.find() && Integer.parseInt(number.group(1)) >= SHARP_KERNEL_NUMBER;
    }
}
