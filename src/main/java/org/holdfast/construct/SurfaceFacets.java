package org.holdfast.construct;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.TriangleMesh;

/**
 * Cuts triangles of a mesh into facets so small that a few of them make a sample, each with the surface's smooth normal.
 * Across an edge sharper than {@link #CREASE_DEG} normals are not smoothed.
 */
final class SurfaceFacets {

    /** Longest edge of a facet, mm. */
    static final double LONGEST_MM = 0.25;
    /** Faces that meet at a larger angle are two faces, not one that is curved. */
    private static final double CREASE_DEG = 30;

    /**
     * A small piece of a triangle.
     *
     * @param triangle the triangle that it is cut from
     * @param a a corner; the corners run as the triangle's
     * @param b a corner
     * @param c a corner
     * @param normal unit normal of the smooth surface at its middle
     */
    record Facet(int triangle, PatientPoint a, PatientPoint b, PatientPoint c, PatientVector normal) {

        double areaMm2() {
            return 0.5 * b.minus(a).cross(c.minus(a)).norm();
        }

        PatientPoint middle() {
            return new PatientPoint(
                    (a.x() + b.x() + c.x()) / 3, (a.y() + b.y() + c.y()) / 3, (a.z() + b.z() + c.z()) / 3);
        }
    }

    private final TriangleMesh mesh;
    private final Map<Integer, List<Integer>> atVertex = new HashMap<>();

    SurfaceFacets(TriangleMesh mesh) {
        this.mesh = mesh;
        for (int n = 0; n < mesh.triangles(); n++) {
            for (int which = 0; which < 3; which++) {
                atVertex.computeIfAbsent(mesh.corner(n, which), v -> new ArrayList<>())
                        .add(n);
            }
        }
    }

    /** The facets of a triangle, with edges of at most so many mm. */
    List<Facet> of(int triangle, double longestMm) {
        PatientPoint a = mesh.point(triangle, 0);
        PatientVector ab = mesh.point(triangle, 1).minus(a);
        PatientVector ac = mesh.point(triangle, 2).minus(a);
        double longest = Math.max(Math.max(ab.norm(), ac.norm()), ac.minus(ab).norm());
        int pieces = Math.max(1, (int) Math.ceil(longest / longestMm - 1e-9));
        PatientVector[] normals = {cornerNormal(triangle, 0), cornerNormal(triangle, 1), cornerNormal(triangle, 2)};
        List<Facet> facets = new ArrayList<>(pieces * pieces);
        for (int i = 0; i < pieces; i++) {
            for (int j = 0; j < pieces - i; j++) {
                facets.add(facet(triangle, a, ab, ac, pieces, normals, i, j, 1));
                if (j < pieces - i - 1) {
                    facets.add(facet(triangle, a, ab, ac, pieces, normals, i + 1, j + 1, -1));
                }
            }
        }
        return facets;
    }

    /** The facet at place (i, j) of the triangle's lattice, upright (1) or upside down (−1). */
    private static Facet facet(
            int triangle,
            PatientPoint a,
            PatientVector ab,
            PatientVector ac,
            int pieces,
            PatientVector[] normals,
            int i,
            int j,
            int sign) {
        PatientPoint first = at(a, ab, ac, (double) i / pieces, (double) j / pieces);
        PatientPoint second = at(a, ab, ac, (double) (i + sign) / pieces, (double) j / pieces);
        PatientPoint third = at(a, ab, ac, (double) i / pieces, (double) (j + sign) / pieces);
        double s = (i + sign / 3.0) / pieces;
        double t = (j + sign / 3.0) / pieces;
        PatientVector normal =
                normals[0].times(1 - s - t).plus(normals[1].times(s)).plus(normals[2].times(t));
        return new Facet(triangle, first, second, third, normal.unit());
    }

    private static PatientPoint at(PatientPoint a, PatientVector ab, PatientVector ac, double s, double t) {
        return a.along(ab, s).along(ac, t);
    }

    private PatientVector cornerNormal(int triangle, int which) {
        PatientVector own = mesh.normal(triangle);
        PatientVector sum = new PatientVector(0, 0, 0);
        for (int beside : atVertex.get(mesh.corner(triangle, which))) {
            PatientVector normal = mesh.normal(beside);
            if (normal.angleDegTo(own) <= CREASE_DEG) {
                sum = sum.plus(normal.times(angleAt(beside, mesh.corner(triangle, which))));
            }
        }
        return sum.unit();
    }

    private double angleAt(int triangle, int vertex) {
        for (int which = 0; which < 3; which++) {
            if (mesh.corner(triangle, which) == vertex) {
                PatientPoint here = mesh.point(triangle, which);
                PatientVector to = mesh.point(triangle, (which + 1) % 3).minus(here);
                return to.angleDegTo(mesh.point(triangle, (which + 2) % 3).minus(here));
            }
        }
        throw new IllegalArgumentException("triangle " + triangle + " has no vertex " + vertex);
    }

    /** The pieces of a set of triangles that hang together by a vertex, each as its triangles. */
    List<List<Integer>> connected(java.util.Set<Integer> triangles) {
        java.util.Set<Integer> left = new java.util.TreeSet<>(triangles);
        List<List<Integer>> pieces = new ArrayList<>();
        while (!left.isEmpty()) {
            List<Integer> piece = new ArrayList<>();
            java.util.ArrayDeque<Integer> open = new java.util.ArrayDeque<>();
            int first = left.iterator().next();
            left.remove(first);
            open.add(first);
            while (!open.isEmpty()) {
                int triangle = open.remove();
                piece.add(triangle);
                for (int which = 0; which < 3; which++) {
                    for (int beside : atVertex.get(mesh.corner(triangle, which))) {
                        if (left.remove(beside)) {
                            open.add(beside);
                        }
                    }
                }
            }
            pieces.add(piece);
        }
        return pieces;
    }
}
