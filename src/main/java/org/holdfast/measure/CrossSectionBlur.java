package org.holdfast.measure;

import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.VolumeGrid;

/**
 * The blur of a scan across a straight part: a Gaussian in the plane at right angles to its axis. A part that is the same
 * all along its axis is blurred by this alone, whatever its tilt against the grid. Voxels as they are, not interpolated
 * values: point spread and the voxel's box (extent² / 12 an axis).
 *
 * @param majorRad angle of the wider blur from the part's zero direction, radians, in (−π/2, π/2]
 * @param majorMm standard deviation in that direction, mm
 * @param minorMm standard deviation at right angles to it, mm, not above {@code majorMm}
 */
record CrossSectionBlur(double majorRad, double majorMm, double minorMm) {

    /**
     * Projects a point spread on the plane of two directions.
     *
     * @param spread blur of the scan
     * @param zero unit direction at right angles to the part's axis
     * @param quarter unit direction at right angles to both
     */
    static CrossSectionBlur of(PointSpreadEstimate spread, VolumeGrid grid, PatientVector zero, PatientVector quarter) {
        double inPlane = spread.sigmaInPlaneMm();
        double alongTable = spread.sigmaAlongTableMm();
        PatientVector[] axes = {grid.rowDirection(), grid.columnDirection(), grid.normal()};
        double pitch = grid.pitchMm().orElse(0);
        double[] variances = {
            inPlane * inPlane + grid.columnSpacingMm() * grid.columnSpacingMm() / 12,
            inPlane * inPlane + grid.rowSpacingMm() * grid.rowSpacingMm() / 12,
            alongTable * alongTable + pitch * pitch / 12
        };
        double xx = 0;
        double xy = 0;
        double yy = 0;
        for (int n = 0; n < 3; n++) {
            double x = axes[n].dot(zero);
            double y = axes[n].dot(quarter);
            xx += variances[n] * x * x;
            xy += variances[n] * x * y;
            yy += variances[n] * y * y;
        }
        double middle = 0.5 * (xx + yy);
        double half = Math.hypot(0.5 * (xx - yy), xy);
        double angle = half < 1e-12 ? 0 : 0.5 * Math.atan2(2 * xy, xx - yy);
        return new CrossSectionBlur(angle, Math.sqrt(middle + half), Math.sqrt(middle - half));
    }
}
