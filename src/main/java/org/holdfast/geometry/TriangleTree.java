package org.holdfast.geometry;

import java.util.stream.IntStream;

/**
 * Boxes within boxes around the triangles of a mesh, to find the nearest one. Immutable; safe to share between threads.
 */
final class TriangleTree {

    private static final int LEAF_TRIANGLES = 4;

    private final TriangleMesh mesh;
    private final int[] order;
    /** Six numbers a node: low x, y, z, high x, y, z. Children of node n are 2n + 1 and 2n + 2. */
    private final double[] boxes;

    private final int leaves;

    TriangleTree(TriangleMesh mesh) {
        this.mesh = mesh;
        int wanted = Math.max(1, (mesh.triangles() + LEAF_TRIANGLES - 1) / LEAF_TRIANGLES);
        this.leaves = Integer.highestOneBit(Math.max(1, 2 * wanted - 1));
        this.boxes = new double[6 * (2 * leaves - 1)];
        double[][] centres = new double[3][mesh.triangles()];
        for (int n = 0; n < mesh.triangles(); n++) {
            for (int axis = 0; axis < 3; axis++) {
                centres[axis][n] = coordinate(n, 0, axis) + coordinate(n, 1, axis) + coordinate(n, 2, axis);
            }
        }
        this.order = IntStream.range(0, mesh.triangles()).toArray();
        split(0, 0, order.length, centres);
    }

    PatientPoint lowCorner() {
        return new PatientPoint(boxes[0], boxes[1], boxes[2]);
    }

    PatientPoint highCorner() {
        return new PatientPoint(boxes[3], boxes[4], boxes[5]);
    }

    /** First triangle of a node in the order: nodes of one level share the triangles evenly. */
    private static int middle(int from, int to) {
        return from + (to - from + 1) / 2;
    }

    private void split(int node, int from, int to, double[][] centres) {
        bound(node, from, to);
        if (node >= leaves - 1) {
            return;
        }
        int axis = widestAxis(node);
        int middle = middle(from, to);
        select(from, to, middle, centres[axis]);
        split(2 * node + 1, from, middle, centres);
        split(2 * node + 2, middle, to, centres);
    }

    private void bound(int node, int from, int to) {
        for (int axis = 0; axis < 3; axis++) {
            double low = Double.POSITIVE_INFINITY;
            double high = Double.NEGATIVE_INFINITY;
            for (int n = from; n < to; n++) {
                for (int which = 0; which < 3; which++) {
                    double c = coordinate(order[n], which, axis);
                    low = Math.min(low, c);
                    high = Math.max(high, c);
                }
            }
            boxes[6 * node + axis] = low;
            boxes[6 * node + 3 + axis] = high;
        }
    }

    private int widestAxis(int node) {
        int widest = 0;
        for (int axis = 1; axis < 3; axis++) {
            if (extent(node, axis) > extent(node, widest)) {
                widest = axis;
            }
        }
        return widest;
    }

    private double extent(int node, int axis) {
        return boxes[6 * node + 3 + axis] - boxes[6 * node + axis];
    }

    /** Quickselect: puts the smaller centres before the wanted place. */
    private void select(int from, int to, int wanted, double[] centre) {
        int low = from;
        int high = to - 1;
        while (low < high) {
            double pivot = centre[order[(low + high) >>> 1]];
            int i = low;
            int j = high;
            while (i <= j) {
                while (centre[order[i]] < pivot) {
                    i++;
                }
                while (centre[order[j]] > pivot) {
                    j--;
                }
                if (i <= j) {
                    int swap = order[i];
                    order[i++] = order[j];
                    order[j--] = swap;
                }
            }
            if (wanted <= j) {
                high = j;
            } else if (wanted >= i) {
                low = i;
            } else {
                return;
            }
        }
    }

    private double coordinate(int triangle, int which, int axis) {
        return mesh.coordinate(mesh.corner(triangle, which), axis);
    }

    SurfacePlace nearest(PatientPoint p) {
        Search search = new Search(p);
        search.visit(0, 0, order.length);
        return search.best;
    }

    /** One search; keeps the best place so far. */
    private final class Search {
        private final PatientPoint p;
        private SurfacePlace best;
        private double bestSquare = Double.POSITIVE_INFINITY;

        Search(PatientPoint p) {
            this.p = p;
        }

        void visit(int node, int from, int to) {
            if (from >= to || boxSquare(node) >= bestSquare) {
                return;
            }
            if (node >= leaves - 1) {
                for (int n = from; n < to; n++) {
                    consider(order[n]);
                }
                return;
            }
            int middle = middle(from, to);
            boolean leftFirst = boxSquare(2 * node + 1) <= boxSquare(2 * node + 2);
            if (leftFirst) {
                visit(2 * node + 1, from, middle);
                visit(2 * node + 2, middle, to);
            } else {
                visit(2 * node + 2, middle, to);
                visit(2 * node + 1, from, middle);
            }
        }

        private void consider(int triangle) {
            SurfacePlace place = NearestOnTriangle.of(mesh, triangle, p);
            PatientVector d = p.minus(place.point());
            double square = d.dot(d);
            if (square < bestSquare) {
                bestSquare = square;
                best = place;
            }
        }

        private double boxSquare(int node) {
            double x = beyond(p.x(), node, 0);
            double y = beyond(p.y(), node, 1);
            double z = beyond(p.z(), node, 2);
            return x * x + y * y + z * z;
        }

        private double beyond(double value, int node, int axis) {
            return Math.max(0, Math.max(boxes[6 * node + axis] - value, value - boxes[6 * node + 3 + axis]));
        }
    }
}
