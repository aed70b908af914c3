package org.holdfast.registration;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.EigenDecompositionSymmetric;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;

/**
 * Weighted least squares for a small motion u(x) = t + ω × (x − centre): each row says that a direction d sees the motion
 * of a point x as d · u(x) = residual. Rows may share an offset per group (a surface that lies farther out everywhere).
 *
 * <p>Whether a motion is determined is asked of the geometry, not of the noise: of all motions, which share of their
 * squared length shows along the rows' directions? A cylinder that spins, a plane that slides show next to nothing but
 * for the scatter of their normals. Motions under {@code leastShare} are left out of the solution and listed.
 */
final class MotionFit {

    /** Side of the blocks whose residuals are taken to err together, mm. */
    private static final double BLOCK_MM = 4;

    private final PatientPoint centre;
    private final double leastShare;
    private final int groups;
    private final double offsetPrecision;
    private double[][] rows = new double[1024][];
    private double[] residuals = new double[1024];
    private double[] weights = new double[1024];
    private int[] groupOf = new int[1024];
    private long[] blockOf = new long[1024];
    private int count;
    private final double[][] lengths = new double[6][6];
    private double weightSum;

    /**
     * What the rows say.
     *
     * @param step the motion: x ↦ R x + t of the exam's side
     * @param translationMm length of the centre's way, mm
     * @param rotationRad angle of the turn
     * @param offsets of the groups
     * @param unknowns (t, ω) in mm and radians
     * @param inverse inverse of the information of the determined motions
     * @param free what is not determined
     */
    record Solution(
            RigidTransform step,
            double translationMm,
            double rotationRad,
            double[] offsets,
            double[] unknowns,
            RealMatrix inverse,
            List<PoseUncertainty.FreeMotion> free) {}

    /**
     * @param leastShare see above; 0 to 1
     * @param groups number of groups with an offset, may be 0
     * @param offsetSd how far an offset is expected to lie from 0, in the residuals' unit
     * @param residualSd about the residuals' own standard deviation, to weigh that expectation
     */
    MotionFit(PatientPoint centre, double leastShare, int groups, double offsetSd, double residualSd) {
        this.centre = centre;
        this.leastShare = leastShare;
        this.groups = groups;
        this.offsetPrecision = groups == 0 ? 0 : residualSd * residualSd / (offsetSd * offsetSd);
    }

    int size() {
        return count;
    }

    /** Adds a row for a point (x, y, z) seen along (dx, dy, dz), not necessarily of length 1. */
    void add(double x, double y, double z, double dx, double dy, double dz, double residual, double weight, int group) {
        if (count == rows.length) {
            rows = Arrays.copyOf(rows, 2 * count);
            residuals = Arrays.copyOf(residuals, 2 * count);
            weights = Arrays.copyOf(weights, 2 * count);
            groupOf = Arrays.copyOf(groupOf, 2 * count);
            blockOf = Arrays.copyOf(blockOf, 2 * count);
        }
        double rx = x - centre.x();
        double ry = y - centre.y();
        double rz = z - centre.z();
        rows[count] = new double[] {dx, dy, dz, ry * dz - rz * dy, rz * dx - rx * dz, rx * dy - ry * dx};
        residuals[count] = residual;
        weights[count] = weight;
        groupOf[count] = group;
        blockOf[count] = SurfacePoints.cellKey(rx, ry, rz, BLOCK_MM);
        count++;
        weightSum += weight;
        addLengths(weight * (dx * dx + dy * dy + dz * dz), rx, ry, rz);
    }

    /** Adds w |t + ω × r|² as a quadratic form of (t, ω). */
    private void addLengths(double w, double rx, double ry, double rz) {
        double[][] u = {{1, 0, 0, 0, rz, -ry}, {0, 1, 0, -rz, 0, rx}, {0, 0, 1, ry, -rx, 0}};
        for (double[] component : u) {
            for (int a = 0; a < 6; a++) {
                if (component[a] != 0) {
                    for (int b = 0; b < 6; b++) {
                        lengths[a][b] += w * component[a] * component[b];
                    }
                }
            }
        }
    }

    /**
     * Solves the rows.
     *
     * @throws IllegalArgumentException for fewer than 12 rows with weight: six unknowns need more than six places
     */
    Solution solve() {
        if (count < 12 || !(weightSum > 0)) {
            throw new IllegalArgumentException("a motion needs at least 12 rows with weight, got " + count);
        }
        double[][] shared = offsetShares();
        RealMatrix information = new Array2DRowRealMatrix(6, 6);
        RealVector right = new ArrayRealVector(6);
        double[] row = new double[6];
        for (int n = 0; n < count; n++) {
            project(n, shared, row);
            for (int a = 0; a < 6; a++) {
                double wa = weights[n] * row[a];
                right.addToEntry(a, wa * residuals[n]);
                for (int b = 0; b < 6; b++) {
                    // The projected rows are orthogonal to the offsets but for the expectation's share.
                    information.addToEntry(a, b, wa * rows[n][b]);
                }
            }
        }
        RealMatrix symmetric = information.add(information.transpose()).scalarMultiply(0.5);
        return solve(symmetric, right, shared);
    }

    private Solution solve(RealMatrix information, RealVector right, double[][] shared) {
        RealMatrix scale = new CholeskyDecomposition(withFloor(lengths), 1e-9, 1e-30).getL();
        RealMatrix toModes = new LUDecomposition(scale).getSolver().getInverse();
        EigenDecompositionSymmetric modes = new EigenDecompositionSymmetric(
                symmetric(toModes.multiply(information).multiply(toModes.transpose())));
        RealMatrix back = toModes.transpose().multiply(modes.getV());
        double[] x = new double[6];
        RealMatrix inverse = new Array2DRowRealMatrix(6, 6);
        List<PoseUncertainty.FreeMotion> free = new ArrayList<>();
        double meanSquare = meanSquareDirection();
        for (int mode = 0; mode < 6; mode++) {
            double share = modes.getEigenvalue(mode);
            RealVector direction = back.getColumnVector(mode);
            if (share < leastShare) {
                free.add(freeMotion(direction.mapMultiply(Math.sqrt(weightSum * meanSquare))));
                continue;
            }
            double along = direction.dotProduct(right) / share;
            for (int a = 0; a < 6; a++) {
                x[a] += along * direction.getEntry(a);
            }
            inverse = inverse.add(direction.outerProduct(direction).scalarMultiply(1 / share));
        }
        PatientVector t = new PatientVector(x[0], x[1], x[2]);
        PatientVector w = new PatientVector(x[3], x[4], x[5]);
        RigidTransform turn = w.norm() < 1e-12
                ? RigidTransform.IDENTITY
                : RigidTransform.rotation(w, Math.toDegrees(w.norm()), centre);
        return new Solution(
                turn.then(RigidTransform.translation(t)), t.norm(), w.norm(), offsets(shared, x), x, inverse, free);
    }

    /** How well the motion of a solution of these rows is known. */
    PoseUncertainty uncertainty(Solution solution) {
        RealMatrix scatter = scatter(offsetShares(), solution.unknowns(), solution.offsets());
        RealMatrix covariance = solution.inverse().multiply(scatter).multiply(solution.inverse());
        return new PoseUncertainty(centre, covariance.getData(), solution.free());
    }

    private double meanSquareDirection() {
        double sum = 0;
        for (int n = 0; n < count; n++) {
            double[] d = rows[n];
            sum += weights[n] * (d[0] * d[0] + d[1] * d[1] + d[2] * d[2]);
        }
        return sum / weightSum;
    }

    private static PoseUncertainty.FreeMotion freeMotion(RealVector x) {
        return new PoseUncertainty.FreeMotion(
                new PatientVector(x.getEntry(0), x.getEntry(1), x.getEntry(2)),
                new PatientVector(
                        Math.toDegrees(x.getEntry(3)), Math.toDegrees(x.getEntry(4)), Math.toDegrees(x.getEntry(5))));
    }

    /** Points on one line do not resist a turn about it: a floor keeps the form positive. */
    private static RealMatrix withFloor(double[][] form) {
        RealMatrix m = new Array2DRowRealMatrix(form);
        double trace = 0;
        for (int a = 0; a < 3; a++) {
            trace += form[a][a];
        }
        for (int a = 0; a < 6; a++) {
            m.addToEntry(a, a, 1e-6 * trace);
        }
        return symmetric(m);
    }

    private static RealMatrix symmetric(RealMatrix m) {
        return m.add(m.transpose()).scalarMultiply(0.5);
    }

    /** Per group: its mean row times the weight that the expectation leaves it, then that mean residual. */
    private double[][] offsetShares() {
        double[][] sums = new double[groups][7];
        double[] total = new double[groups];
        for (int n = 0; n < count; n++) {
            if (groups > 0) {
                double[] sum = sums[groupOf[n]];
                for (int a = 0; a < 6; a++) {
                    sum[a] += weights[n] * rows[n][a];
                }
                sum[6] += weights[n] * residuals[n];
                total[groupOf[n]] += weights[n];
            }
        }
        for (int g = 0; g < groups; g++) {
            for (int a = 0; a < 7; a++) {
                sums[g][a] /= total[g] + offsetPrecision;
            }
        }
        return sums;
    }

    private void project(int n, double[][] shared, double[] row) {
        for (int a = 0; a < 6; a++) {
            row[a] = rows[n][a] - (groups == 0 ? 0 : shared[groupOf[n]][a]);
        }
    }

    private double[] offsets(double[][] shared, double[] x) {
        double[] offsets = new double[groups];
        for (int g = 0; g < groups; g++) {
            offsets[g] = shared[g][6];
            for (int a = 0; a < 6; a++) {
                offsets[g] -= shared[g][a] * x[a];
            }
        }
        return offsets;
    }

    /** Sum over blocks of the outer product of their scores, enlarged for the few blocks there may be. */
    private RealMatrix scatter(double[][] shared, double[] x, double[] offsets) {
        Map<Long, double[]> blocks = new HashMap<>();
        double[] row = new double[6];
        for (int n = 0; n < count; n++) {
            if (weights[n] > 0) {
                double left = residuals[n] - (groups == 0 ? 0 : offsets[groupOf[n]]);
                for (int a = 0; a < 6; a++) {
                    left -= rows[n][a] * x[a];
                }
                project(n, shared, row);
                double[] score = blocks.computeIfAbsent(blockOf[n], k -> new double[6]);
                for (int a = 0; a < 6; a++) {
                    score[a] += weights[n] * row[a] * left;
                }
            }
        }
        double[][] sum = new double[6][6];
        for (double[] score : blocks.values()) {
            for (int a = 0; a < 6; a++) {
                for (int b = 0; b < 6; b++) {
                    sum[a][b] += score[a] * score[b];
                }
            }
        }
        int n = blocks.size();
        // Small-sample factor of cluster-robust variances: n / (n − unknowns).
        double factor = n > 6 ? (double) n / (n - 6) : n;
        return new Array2DRowRealMatrix(sum).scalarMultiply(factor);
    }
}
