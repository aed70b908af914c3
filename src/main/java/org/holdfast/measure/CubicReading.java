package org.holdfast.measure;

import org.holdfast.geometry.PatientPoint;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;
import org.holdfast.volume.VoxelCoord;

/**
 * HU between voxels by cubic convolution over 4 × 4 × 4 voxels (Catmull–Rom, the kernel with a = −1/2 of Keys, IEEE Trans
 * Acoust Speech Signal Process 1981;29:1153). Beside metal a straight line between voxels is off by more than a change of
 * bone, and by another amount in every exam, as the voxels lie otherwise; the cubic is exact for parabolas. Where it
 * cannot be used (at the border, in a hole or an irregular stack, beside padding) the reading is trilinear.
 */
final class CubicReading {

    private final HuVolume volume;
    private final VolumeGrid grid;
    private final boolean isIrregular;

    CubicReading(HuVolume volume) {
        this.volume = volume;
        this.grid = volume.grid();
        this.isIrregular = grid.isIrregular() || !grid.holesAfter().isEmpty();
    }

    /** HU at a point of patient space; NaN outside the valid image. */
    double hu(PatientPoint p) {
        VoxelCoord c = grid.patientToVoxel(p);
        int i = (int) Math.floor(c.i());
        int j = (int) Math.floor(c.j());
        int k = (int) Math.floor(c.k());
        boolean inside =
                i >= 1 && j >= 1 && k >= 1 && i + 2 < grid.columns() && j + 2 < grid.rows() && k + 2 < grid.slices();
        double hu = inside && !isIrregular ? convolved(i, j, k, c.i() - i, c.j() - j, c.k() - k) : Double.NaN;
        return Double.isNaN(hu) ? volume.sample(p) : hu;
    }

    private double convolved(int i, int j, int k, double fi, double fj, double fk) {
        double a0 = before(fi);
        double a1 = near(fi);
        double a2 = near(1 - fi);
        double a3 = before(1 - fi);
        double sum = 0;
        for (int c = -1; c <= 2; c++) {
            double plane = 0;
            for (int b = -1; b <= 2; b++) {
                double row = a0 * volume.hu(i - 1, j + b, k + c)
                        + a1 * volume.hu(i, j + b, k + c)
                        + a2 * volume.hu(i + 1, j + b, k + c)
                        + a3 * volume.hu(i + 2, j + b, k + c);
                plane += weight(b, fj) * row;
            }
            sum += weight(c, fk) * plane;
        }
        return sum;
    }

    private static double weight(int offset, double fraction) {
        return switch (offset) {
            case -1 -> before(fraction);
            case 0 -> near(fraction);
            case 1 -> near(1 - fraction);
            default -> before(1 - fraction);
        };
    }

    /** Weight of the voxel before the two that enclose the point, a fraction f past the first of them. */
    private static double before(double f) {
        return -0.5 * f * (1 - f) * (1 - f);
    }

    /** Weight of the first of the two voxels that enclose the point, a fraction f past it. */
    private static double near(double f) {
        return 1 + f * f * (1.5 * f - 2.5);
    }
}
