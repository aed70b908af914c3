package org.holdfast.measure;

import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;

/**
 * The voxels of a thin column along a normal, put together in steps of height: mean height, mean HU, number. Voxels as
 * they are, not interpolated values: their noise is their own and their blur is known. Arrays must not be written.
 *
 * @param tMm mean height of each step over the surface, mm, ascending
 * @param hu mean HU of each step
 * @param weight number of voxels of each step
 */
record ValueColumn(double[] tMm, double[] hu, double[] weight) {

    private static final double STEP_MM = 0.1;

    int size() {
        return tMm.length;
    }

    /**
     * How a surface bends under a column, to tell a voxel's height.
     *
     * @param radiusMm radius, mm; infinite for a plane
     * @param axis direction along which it does not bend; null for a sphere or a plane
     */
    record Bend(double radiusMm, PatientVector axis) {
        static final Bend PLANE = new Bend(Double.POSITIVE_INFINITY, null);

        /** Height over the surface of a place at height t over the tangent plane; none beyond the middle of the part. */
        double heightMm(double t, double squareAside) {
            if (radiusMm == Double.POSITIVE_INFINITY) {
                return t;
            }
            double fromMiddle = t + radiusMm;
            return fromMiddle > 0
                    ? Math.sqrt(fromMiddle * fromMiddle + squareAside) - radiusMm
                    : Double.NEGATIVE_INFINITY;
        }
    }

    /**
     * Reads a column.
     *
     * @param p place on the surface
     * @param n unit outward normal
     * @param bend how the surface bends there
     * @param radiusMm radius of the column
     * @param fromMm height from which it is read
     * @param toMm height up to which it is read
     */
    static ValueColumn read(
            HuVolume volume, PatientPoint p, PatientVector n, Bend bend, double radiusMm, double fromMm, double toMm) {
        int steps = Math.max(1, (int) Math.ceil((toMm - fromMm) / STEP_MM));
        Sums sums = new Sums(fromMm, new double[steps], new double[steps], new int[steps]);
        VolumeGrid grid = volume.grid();
        double axial = n.dot(grid.normal());
        double aside = radiusMm * Math.sqrt(Math.max(0, 1 - axial * axial));
        double middle = p.minus(PatientPoint.ORIGIN).dot(grid.normal());
        double low = middle + Math.min(fromMm * axial, toMm * axial) - aside;
        double high = middle + Math.max(fromMm * axial, toMm * axial) + aside;
        for (int k = 0; k < grid.slices(); k++) {
            double position = grid.sliceOrigin(k).minus(PatientPoint.ORIGIN).dot(grid.normal());
            if (position >= low && position <= high) {
                readSlice(volume, k, p, n, bend, radiusMm, sums);
            }
        }
        return sums.column();
    }

    private static void readSlice(
            HuVolume volume, int k, PatientPoint p, PatientVector n, Bend bend, double radiusMm, Sums sums) {
        VolumeGrid grid = volume.grid();
        PatientVector u = grid.rowDirection();
        PatientVector v = grid.columnDirection();
        PatientVector start = grid.sliceOrigin(k).minus(p);
        double un = u.dot(n);
        double vn = v.dot(n);
        double startN = start.dot(n);
        double startU = start.dot(u);
        double startV = start.dot(v);
        double square = start.dot(start);
        double column = grid.columnSpacingMm();
        double row = grid.rowSpacingMm();
        double bendU = bend.axis() == null ? 0 : bend.axis().dot(u);
        double bendV = bend.axis() == null ? 0 : bend.axis().dot(v);
        double bendStart = bend.axis() == null ? 0 : bend.axis().dot(start);
        double a = column * column * (1 - un * un);
        for (int j = 0; j < grid.rows(); j++) {
            double y = j * row;
            double t0 = startN + y * vn;
            double b = column * (startU - t0 * un);
            double c = square + 2 * y * startV + y * y - t0 * t0 - radiusMm * radiusMm;
            int first = 0;
            int last = grid.columns() - 1;
            if (a > 1e-9) {
                double root = b * b - a * c;
                if (root < 0) {
                    continue;
                }
                first = Math.max(first, (int) Math.ceil((-b - Math.sqrt(root)) / a));
                last = Math.min(last, (int) Math.floor((-b + Math.sqrt(root)) / a));
            } else if (c > 0) {
                continue;
            }
            for (int i = first; i <= last; i++) {
                double x = i * column;
                double t = t0 + x * un;
                double lateral = square + 2 * (x * startU + y * startV) + x * x + y * y - t * t;
                double along = bendStart + x * bendU + y * bendV;
                sums.add(bend.heightMm(t, Math.max(0, lateral - along * along)), volume.hu(i, j, k));
            }
        }
    }

    private record Sums(double fromMm, double[] t, double[] hu, int[] count) {

        void add(double height, double value) {
            double step = Math.floor((height - fromMm) / STEP_MM);
            if (step >= 0 && step < count.length && !Double.isNaN(value)) {
                int n = (int) step;
                t[n] += height;
                hu[n] += value;
                count[n]++;
            }
        }

        ValueColumn column() {
            int filled = 0;
            for (int n : count) {
                filled += n > 0 ? 1 : 0;
            }
            double[] places = new double[filled];
            double[] values = new double[filled];
            double[] weights = new double[filled];
            int at = 0;
            for (int n = 0; n < count.length; n++) {
                if (count[n] > 0) {
                    places[at] = t[n] / count[n];
                    values[at] = hu[n] / count[n];
                    weights[at++] = count[n];
                }
            }
            return new ValueColumn(places, values, weights);
        }
    }
}
