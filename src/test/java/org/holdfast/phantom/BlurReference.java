package org.holdfast.phantom;

import java.util.function.DoubleUnaryOperator;
import org.apache.commons.numbers.gamma.Erf;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.VolumeGrid;
import org.holdfast.volume.VoxelIndex;

/** Blurred shapes by numerical integration, written apart from the simulator and sharing no code with it. */
final class BlurReference {

    private BlurReference() {}

    /** A shape blurred by the Gaussian only, as a function of the place. */
    interface Blurred {
        double at(PatientPoint p);
    }

    static double cdf(double t) {
        return 0.5 * (1 + Erf.value(t / Math.sqrt(2)));
    }

    static double density(double t) {
        return Math.exp(-0.5 * t * t) / Math.sqrt(2 * Math.PI);
    }

    /** Composite Simpson rule with an even number of intervals. */
    static double simpson(DoubleUnaryOperator f, double from, double to, int intervals) {
        double h = (to - from) / intervals;
        double sum = f.applyAsDouble(from) + f.applyAsDouble(to);
        for (int n = 1; n < intervals; n++) {
            sum += (n % 2 == 1 ? 4 : 2) * f.applyAsDouble(from + n * h);
        }
        return sum * h / 3;
    }

    /** Nodes and weights of Gauss-Legendre quadrature with four points on [−1, 1]. */
    // Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 1964, Table 25.4, n = 4
    private static final double[][] GAUSS = {
        {-0.861136311594053, 0.347854845137454},
        {-0.339981043584856, 0.652145154862546},
        {0.339981043584856, 0.652145154862546},
        {0.861136311594053, 0.347854845137454}
    };

    /** Mean of a blurred shape over the box of a voxel, four Gauss points an axis (error under 1e-6 at these σ). */
    static double overVoxel(VolumeGrid grid, VoxelIndex voxel, Blurred shape) {
        PatientPoint c = grid.voxelToPatient(voxel);
        double a = 0.5 * grid.columnSpacingMm();
        double b = 0.5 * grid.rowSpacingMm();
        double h = 0.5 * grid.pitchMm().orElseThrow();
        double sum = 0;
        for (double[] x : GAUSS) {
            for (double[] y : GAUSS) {
                for (double[] z : GAUSS) {
                    PatientPoint p = c.along(grid.rowDirection(), a * x[0])
                            .along(grid.columnDirection(), b * y[0])
                            .along(grid.normal(), h * z[0]);
                    sum += x[1] * y[1] * z[1] * shape.at(p) / 8;
                }
            }
        }
        return sum;
    }

    /** σ of the point spread along a direction: √(nᵀΣn). */
    static double sigmaAlong(VolumeGrid grid, PointSpread spread, PatientVector n) {
        double inPlane = spread.sigmaInPlaneMm();
        double along = spread.sigmaAlongTableMm();
        double t = n.dot(grid.normal());
        return Math.sqrt((1 - t * t) * inPlane * inPlane + t * t * along * along);
    }

    /** A disc of radius r blurred by an isotropic two-dimensional Gaussian, at distance rho from its centre. */
    static double disc(double rho, double r, double sigma) {
        double from = Math.max(-r, rho - 8 * sigma);
        double to = Math.min(r, rho + 8 * sigma);
        if (from >= to) {
            return 0;
        }
        // x = r sin(angle) takes the vertical tangents at ±r out of the integrand.
        return simpson(
                angle -> {
                    double x = r * Math.sin(angle);
                    double half = r * Math.cos(angle);
                    return density((rho - x) / sigma) / sigma * (cdf(half / sigma) - cdf(-half / sigma)) * half;
                },
                Math.asin(from / r),
                Math.asin(to / r),
                80);
    }

    /** A ball of radius r, Gaussian with sigma across and along z, at distance rho from the z axis and height z. */
    static double ball(double rho, double z, double r, double across, double along) {
        double from = Math.max(-r, z - 8 * along);
        double to = Math.min(r, z + 8 * along);
        if (from >= to) {
            return 0;
        }
        return simpson(
                height -> density((z - height) / along)
                        / along
                        * disc(rho, Math.sqrt(Math.max(1e-12, r * r - height * height)), across),
                from,
                to,
                60);
    }
}
