package org.holdfast.geometry;

/** The place of a triangle that is nearest to a point, by the region of its plane in which the point's foot lies. */
final class NearestOnTriangle {

    private NearestOnTriangle() {}

    /** With the normal of the face, edge or vertex on which the place lies. */
    static SurfacePlace of(TriangleMesh mesh, int triangle, PatientPoint p) {
        PatientPoint a = mesh.point(triangle, 0);
        PatientPoint b = mesh.point(triangle, 1);
        PatientPoint c = mesh.point(triangle, 2);
        PatientVector ab = b.minus(a);
        PatientVector ac = c.minus(a);
        double d1 = ab.dot(p.minus(a));
        double d2 = ac.dot(p.minus(a));
        if (d1 <= 0 && d2 <= 0) {
            return atCorner(mesh, triangle, 0);
        }
        double d3 = ab.dot(p.minus(b));
        double d4 = ac.dot(p.minus(b));
        if (d3 >= 0 && d4 <= d3) {
            return atCorner(mesh, triangle, 1);
        }
        double d5 = ab.dot(p.minus(c));
        double d6 = ac.dot(p.minus(c));
        if (d6 >= 0 && d5 <= d6) {
            return atCorner(mesh, triangle, 2);
        }
        // Twice the areas, each times the whole, of the triangles that the foot makes with two corners.
        double overC = d1 * d4 - d3 * d2;
        if (overC <= 0 && d1 >= 0 && d3 <= 0) {
            return onEdge(mesh, triangle, 0, a.along(ab, d1 / (d1 - d3)));
        }
        double overB = d5 * d2 - d1 * d6;
        if (overB <= 0 && d2 >= 0 && d6 <= 0) {
            return onEdge(mesh, triangle, 2, a.along(ac, d2 / (d2 - d6)));
        }
        double overA = d3 * d6 - d5 * d4;
        if (overA <= 0 && d4 >= d3 && d5 >= d6) {
            return onEdge(mesh, triangle, 1, b.towards(c, (d4 - d3) / (d4 - d3 + d5 - d6)));
        }
        double whole = overA + overB + overC;
        return new SurfacePlace(
                triangle, a.along(ab, overB / whole).along(ac, overC / whole), mesh.doubleArea(triangle));
    }

    private static SurfacePlace atCorner(TriangleMesh mesh, int triangle, int which) {
        return new SurfacePlace(triangle, mesh.point(triangle, which), mesh.vertexNormal(mesh.corner(triangle, which)));
    }

    private static SurfacePlace onEdge(TriangleMesh mesh, int triangle, int which, PatientPoint place) {
        return new SurfacePlace(triangle, place, mesh.edgeNormal(triangle, which));
    }
}
