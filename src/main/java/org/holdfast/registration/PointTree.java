package org.holdfast.registration;

/**
 * Nearest neighbours among points with normals: a balanced k-d tree over packed coordinates. Immutable once built; look-ups
 * from many threads allocate nothing but their own state.
 */
final class PointTree {

    private static final int LEAF = 8;

    private final double[] at;
    private final double[] normals;
    private final int[] order;
    private final byte[] axisOf;
    private final double[] splitAt;

    PointTree(SurfacePoints points) {
        this.at = points.at;
        this.normals = points.normals;
        this.order = new int[points.size()];
        for (int n = 0; n < order.length; n++) {
            order[n] = n;
        }
        int nodes = 1;
        while (nodes * LEAF < order.length) {
            nodes *= 2;
        }
        this.axisOf = new byte[Math.max(1, nodes)];
        this.splitAt = new double[Math.max(1, nodes)];
        build(0, order.length, 1);
    }

    private void build(int from, int to, int node) {
        if (node >= axisOf.length) {
            return;
        }
        int axis = widestAxis(from, to);
        int middle = (from + to) >>> 1;
        select(from, to - 1, middle, axis);
        axisOf[node] = (byte) axis;
        splitAt[node] = middle < to ? coordinate(middle, axis) : 0;
        build(from, middle, 2 * node);
        build(middle, to, 2 * node + 1);
    }

    private double coordinate(int slot, int axis) {
        return at[3 * order[slot] + axis];
    }

    private int widestAxis(int from, int to) {
        int widest = 0;
        double best = -1;
        for (int axis = 0; axis < 3; axis++) {
            double low = Double.POSITIVE_INFINITY;
            double high = Double.NEGATIVE_INFINITY;
            for (int slot = from; slot < to; slot++) {
                low = Math.min(low, coordinate(slot, axis));
                high = Math.max(high, coordinate(slot, axis));
            }
            if (high - low > best) {
                best = high - low;
                widest = axis;
            }
        }
        return widest;
    }

    /** Hoare's selection: afterwards the slot holds what it would hold after sorting. */
    private void select(int low, int high, int slot, int axis) {
        int from = low;
        int to = high;
        while (from < to) {
            double pivot = coordinate((from + to) >>> 1, axis);
            int left = from;
            int right = to;
            while (left <= right) {
                while (coordinate(left, axis) < pivot) {
                    left++;
                }
                while (coordinate(right, axis) > pivot) {
                    right--;
                }
                if (left <= right) {
                    int swap = order[left];
                    order[left++] = order[right];
                    order[right--] = swap;
                }
            }
            if (slot <= right) {
                to = right;
            } else if (slot >= left) {
                from = left;
            } else {
                return;
            }
        }
    }

    /** One thread's look-ups. */
    final class Search {

        private double x;
        private double y;
        private double z;
        private double nx;
        private double ny;
        private double nz;
        private double leastCosine;
        private double bestSquare;
        private int best;

        /**
         * The nearest point whose normal agrees.
         *
         * @param leastCosine smallest cosine between the normals; −2 for any
         * @param reachMm points farther away do not count
         * @return its index, or −1 for none
         */
        int nearest(
                double px, double py, double pz, double qx, double qy, double qz, double leastCosine, double reachMm) {
            x = px;
            y = py;
            z = pz;
            nx = qx;
            ny = qy;
            nz = qz;
            this.leastCosine = leastCosine;
            bestSquare = reachMm * reachMm;
            best = -1;
            descend(0, order.length, 1);
            return best;
        }

        /** Distance of the last one found, mm. */
        double distanceMm() {
            return Math.sqrt(bestSquare);
        }

        private void descend(int from, int to, int node) {
            if (node >= axisOf.length) {
                for (int slot = from; slot < to; slot++) {
                    consider(order[slot]);
                }
                return;
            }
            int axis = axisOf[node];
            double way = (axis == 0 ? x : axis == 1 ? y : z) - splitAt[node];
            int middle = (from + to) >>> 1;
            if (way < 0) {
                descend(from, middle, 2 * node);
                if (way * way < bestSquare) {
                    descend(middle, to, 2 * node + 1);
                }
            } else {
                descend(middle, to, 2 * node + 1);
                if (way * way <= bestSquare) {
                    descend(from, middle, 2 * node);
                }
            }
        }

        private void consider(int n) {
            double dx = at[3 * n] - x;
            double dy = at[3 * n + 1] - y;
            double dz = at[3 * n + 2] - z;
            double square = dx * dx + dy * dy + dz * dz;
            if (square < bestSquare
                    && normals[3 * n] * nx + normals[3 * n + 1] * ny + normals[3 * n + 2] * nz >= leastCosine) {
                bestSquare = square;
                best = n;
            }
        }
    }

    Search search() {
        return new Search();
    }
}
