package org.holdfast.geometry;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;

/**
 * A surface of triangles in patient space, mm. Corners of a triangle run anticlockwise seen from outside. Immutable; safe
 * to share between threads.
 *
 * <p>Vertices with the same coordinates are one vertex, triangles without area are dropped.
 */
public final class TriangleMesh {

    /** Most triangles of a mesh: more than any planned implant has, few enough to be kept. */
    public static final int MOST_TRIANGLES = 5_000_000;

    /** Twice the area of a triangle that has none but for rounding. */
    private static final double LEAST_DOUBLE_AREA_MM2 = 1e-12;

    private final double[] xyz;
    private final int[] corners;
    private final TriangleTree tree;
    private final double[] vertexNormals;
    private final double[] edgeNormals;

    private TriangleMesh(double[] xyz, int[] corners) {
        this.xyz = xyz;
        this.corners = corners;
        this.tree = new TriangleTree(this);
        MeshNormals normals = new MeshNormals(this);
        this.vertexNormals = normals.ofVertices();
        this.edgeNormals = normals.ofEdges();
    }

    /**
     * Makes a mesh.
     *
     * @param xyz coordinates of the vertices, mm: x, y, z of the first, of the second …
     * @param corners three vertex indices a triangle, 0-based
     * @throws IllegalArgumentException if a number is not finite, an index names no vertex, or no triangle has an area
     */
    public static TriangleMesh of(double[] xyz, int[] corners) {
        if (xyz.length % 3 != 0 || corners.length % 3 != 0) {
            throw new IllegalArgumentException("coordinates and corners come in threes, got " + xyz.length
                    + " coordinates and " + corners.length + " corners");
        }
        if (corners.length / 3 > MOST_TRIANGLES) {
            throw new IllegalArgumentException("at most " + MOST_TRIANGLES + " triangles, got " + corners.length / 3);
        }
        for (int n = 0; n < xyz.length; n++) {
            if (!Double.isFinite(xyz[n])) {
                throw new IllegalArgumentException("coordinates must be finite, vertex " + n / 3 + " has " + xyz[n]);
            }
        }
        int vertices = xyz.length / 3;
        for (int n = 0; n < corners.length; n++) {
            if (corners[n] < 0 || corners[n] >= vertices) {
                throw new IllegalArgumentException(
                        "triangle " + n / 3 + " names vertex " + corners[n] + ", there are " + vertices + " from 0 on");
            }
        }
        return welded(xyz, corners);
    }

    private record Place(double x, double y, double z) {}

    private static TriangleMesh welded(double[] xyz, int[] corners) {
        Map<Place, Integer> seen = new HashMap<>();
        int[] to = new int[xyz.length / 3];
        double[] kept = new double[xyz.length];
        for (int n = 0; n < to.length; n++) {
            // −0 is the same place as 0.
            Place place = new Place(xyz[3 * n] + 0.0, xyz[3 * n + 1] + 0.0, xyz[3 * n + 2] + 0.0);
            Integer earlier = seen.putIfAbsent(place, seen.size());
            to[n] = earlier == null ? seen.size() - 1 : earlier;
            if (earlier == null) {
                kept[3 * to[n]] = place.x;
                kept[3 * to[n] + 1] = place.y;
                kept[3 * to[n] + 2] = place.z;
            }
        }
        kept = Arrays.copyOf(kept, 3 * seen.size());
        int[] used = new int[corners.length];
        int count = 0;
        for (int n = 0; n < corners.length; n += 3) {
            int a = to[corners[n]];
            int b = to[corners[n + 1]];
            int c = to[corners[n + 2]];
            if (a != b && b != c && c != a && hasArea(kept, a, b, c)) {
                used[count++] = a;
                used[count++] = b;
                used[count++] = c;
            }
        }
        if (count == 0) {
            throw new IllegalArgumentException("a mesh needs a triangle with an area, got none");
        }
        return new TriangleMesh(kept, Arrays.copyOf(used, count));
    }

    private static boolean hasArea(double[] xyz, int a, int b, int c) {
        PatientVector normal =
                point(xyz, b).minus(point(xyz, a)).cross(point(xyz, c).minus(point(xyz, a)));
        return normal.norm() > LEAST_DOUBLE_AREA_MM2;
    }

    private static PatientPoint point(double[] xyz, int vertex) {
        return new PatientPoint(xyz[3 * vertex], xyz[3 * vertex + 1], xyz[3 * vertex + 2]);
    }

    /** Number of triangles. */
    public int triangles() {
        return corners.length / 3;
    }

    /** Number of vertices. */
    public int vertices() {
        return xyz.length / 3;
    }

    /** A vertex by its index. */
    public PatientPoint vertex(int index) {
        return point(xyz, index);
    }

    /** Index of a corner of a triangle. */
    public int corner(int triangle, int which) {
        return corners[3 * triangle + which];
    }

    /** A corner of a triangle. */
    public PatientPoint point(int triangle, int which) {
        return vertex(corner(triangle, which));
    }

    double coordinate(int vertex, int axis) {
        return xyz[3 * vertex + axis];
    }

    /** Twice the area of a triangle along its normal. */
    PatientVector doubleArea(int triangle) {
        PatientPoint a = point(triangle, 0);
        return point(triangle, 1).minus(a).cross(point(triangle, 2).minus(a));
    }

    /** Unit normal of a triangle, outwards. */
    public PatientVector normal(int triangle) {
        return doubleArea(triangle).unit();
    }

    /** Area of a triangle, mm². */
    public double areaMm2(int triangle) {
        return 0.5 * doubleArea(triangle).norm();
    }

    /** Unit normal at a vertex: the mean of its triangles', weighted by their angles there. */
    public PatientVector vertexNormal(int vertex) {
        return vector(vertexNormals, vertex);
    }

    /** Normal of the edge that begins at a corner of a triangle: the mean of its two triangles'. */
    PatientVector edgeNormal(int triangle, int which) {
        return vector(edgeNormals, 3 * triangle + which);
    }

    private static PatientVector vector(double[] from, int n) {
        return new PatientVector(from[3 * n], from[3 * n + 1], from[3 * n + 2]);
    }

    /** Area of the whole surface, mm². */
    public double areaMm2() {
        double area = 0;
        for (int n = 0; n < triangles(); n++) {
            area += areaMm2(n);
        }
        return area;
    }

    /** Enclosed volume of a closed surface, mm³ (divergence theorem); negative if its triangles face inwards. */
    public double volumeMm3() {
        PatientPoint from = vertex(0);
        double sum = 0;
        for (int n = 0; n < triangles(); n++) {
            PatientVector a = point(n, 0).minus(from);
            sum += a.dot(point(n, 1).minus(from).cross(point(n, 2).minus(from)));
        }
        return sum / 6;
    }

    /** Number of edges that are not shared by exactly two triangles which run along it in opposite directions. */
    public int openEdges() {
        Map<Long, Integer> balance = new HashMap<>();
        for (int n = 0; n < corners.length; n++) {
            int from = corners[n];
            int to = corners[n % 3 == 2 ? n - 2 : n + 1];
            long key = (long) Math.min(from, to) << 32 | Math.max(from, to);
            // Once each way makes 1 + 1000; anything else is open, met too often, or turned over.
            balance.merge(key, from < to ? 1 : 1000, Integer::sum);
        }
        return (int) balance.values().stream().filter(b -> b != 1001).count();
    }

    /** The same surface turned inside out. */
    public TriangleMesh turnedOver() {
        int[] turned = corners.clone();
        for (int n = 0; n < turned.length; n += 3) {
            turned[n + 1] = corners[n + 2];
            turned[n + 2] = corners[n + 1];
        }
        return new TriangleMesh(xyz, turned);
    }

    /** This surface in another place. */
    public TriangleMesh moved(RigidTransform hereToThere) {
        double[] there = new double[xyz.length];
        for (int n = 0; n < vertices(); n++) {
            PatientPoint p = hereToThere.apply(vertex(n));
            there[3 * n] = p.x();
            there[3 * n + 1] = p.y();
            there[3 * n + 2] = p.z();
        }
        return new TriangleMesh(there, corners);
    }

    /** The place on the surface that is nearest to a point. */
    public SurfacePlace nearest(PatientPoint p) {
        return tree.nearest(p);
    }

    /**
     * Signed distance of a point from a closed surface, mm: negative inside. The sign is that of the pseudo-normal of the
     * nearest face, edge or vertex (Bærentzen and Aanæs, IEEE Trans Vis Comput Graph 2005;11:243), exact for a closed
     * surface that does not cut itself.
     */
    public double signedDistanceMm(PatientPoint p) {
        SurfacePlace place = nearest(p);
        PatientVector way = p.minus(place.point());
        double distance = way.norm();
        return way.dot(place.pseudoNormal()) < 0 ? -distance : distance;
    }

    /** Middle of the box around all vertices. */
    public PatientPoint middle() {
        return tree.lowCorner().towards(tree.highCorner(), 0.5);
    }

    /** Half of the diagonal of the box around all vertices, mm. */
    public double reachMm() {
        return 0.5 * tree.lowCorner().distanceTo(tree.highCorner());
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof TriangleMesh o && Arrays.equals(xyz, o.xyz) && Arrays.equals(corners, o.corners);
    }

    @Override
    public int hashCode() {
        return 31 * Arrays.hashCode(xyz) + Arrays.hashCode(corners);
    }

    @Override
    public String toString() {
        return "mesh of " + triangles() + " triangles, " + vertices() + " vertices";
    }
}
