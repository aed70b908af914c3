package org.holdfast.geometry;

import java.util.HashMap;
import java.util.Map;

/** Normals of a mesh's vertices and edges from those of its triangles. */
final class MeshNormals {

    private final TriangleMesh mesh;

    MeshNormals(TriangleMesh mesh) {
        this.mesh = mesh;
    }

    /** Unit normals, three numbers a vertex, weighted by the angle of each triangle; 0 for a vertex of no triangle. */
    double[] ofVertices() {
        double[] sums = new double[3 * mesh.vertices()];
        for (int n = 0; n < mesh.triangles(); n++) {
            PatientVector normal = mesh.normal(n);
            for (int which = 0; which < 3; which++) {
                PatientPoint here = mesh.point(n, which);
                PatientVector to = mesh.point(n, (which + 1) % 3).minus(here);
                PatientVector from = mesh.point(n, (which + 2) % 3).minus(here);
                add(sums, mesh.corner(n, which), normal.times(Math.toRadians(to.angleDegTo(from))));
            }
        }
        for (int v = 0; v < mesh.vertices(); v++) {
            double length = Math.sqrt(square(sums[3 * v]) + square(sums[3 * v + 1]) + square(sums[3 * v + 2]));
            for (int axis = 0; axis < 3 && length > 0; axis++) {
                sums[3 * v + axis] /= length;
            }
        }
        return sums;
    }

    /** Sums of the normals of the triangles at each edge: three numbers an edge, three edges a triangle. */
    double[] ofEdges() {
        Map<Long, PatientVector> sums = new HashMap<>();
        for (int n = 0; n < mesh.triangles(); n++) {
            for (int which = 0; which < 3; which++) {
                sums.merge(key(n, which), mesh.normal(n), PatientVector::plus);
            }
        }
        double[] normals = new double[9 * mesh.triangles()];
        for (int n = 0; n < mesh.triangles(); n++) {
            for (int which = 0; which < 3; which++) {
                add(normals, 3 * n + which, sums.get(key(n, which)));
            }
        }
        return normals;
    }

    private long key(int triangle, int which) {
        int a = mesh.corner(triangle, which);
        int b = mesh.corner(triangle, (which + 1) % 3);
        return (long) Math.min(a, b) << 32 | Math.max(a, b);
    }

    private static void add(double[] sums, int n, PatientVector v) {
        sums[3 * n] += v.x();
        sums[3 * n + 1] += v.y();
        sums[3 * n + 2] += v.z();
    }

    private static double square(double x) {
        return x * x;
    }
}
