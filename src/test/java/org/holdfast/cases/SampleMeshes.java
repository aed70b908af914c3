package org.holdfast.cases;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.TriangleMesh;

/** Meshes with a known surface. */
public final class SampleMeshes {

    private SampleMeshes() {}

    /** A sphere as an octahedron whose faces are halved so often and pushed out to the radius. */
    public static TriangleMesh sphere(PatientPoint centre, double radiusMm, int halvings) {
        int pieces = 1 << halvings;
        List<double[]> points = new ArrayList<>();
        for (int octant = 0; octant < 8; octant++) {
            double sx = (octant & 1) == 0 ? 1 : -1;
            double sy = (octant & 2) == 0 ? 1 : -1;
            double sz = (octant & 4) == 0 ? 1 : -1;
            boolean turned = sx * sy * sz < 0;
            for (int i = 0; i < pieces; i++) {
                for (int j = 0; j < pieces - i; j++) {
                    double[] a = {sx * i, sy * j, sz * (pieces - i - j)};
                    double[] b = {sx * (i + 1), sy * j, sz * (pieces - i - j - 1)};
                    double[] c = {sx * i, sy * (j + 1), sz * (pieces - i - j - 1)};
                    add(points, turned, a, b, c);
                    if (j < pieces - i - 1) {
                        double[] d = {sx * (i + 1), sy * (j + 1), sz * (pieces - i - j - 2)};
                        add(points, turned, b, d, c);
                    }
                }
            }
        }
        double[] xyz = new double[3 * points.size()];
        int[] corners = new int[points.size()];
        for (int n = 0; n < points.size(); n++) {
            double[] p = points.get(n);
            PatientVector out = new PatientVector(p[0], p[1], p[2]).unit();
            PatientPoint at = centre.along(out, radiusMm);
            xyz[3 * n] = at.x();
            xyz[3 * n + 1] = at.y();
            xyz[3 * n + 2] = at.z();
            corners[n] = n;
        }
        return TriangleMesh.of(xyz, corners);
    }

    private static void add(List<double[]> points, boolean turned, double[] a, double[] b, double[] c) {
        points.add(a);
        points.add(turned ? c : b);
        points.add(turned ? b : c);
    }

    /** An upright box of twelve triangles round the origin. */
    public static TriangleMesh box(double halfX, double halfY, double halfZ) {
        double[] xyz = new double[24];
        for (int n = 0; n < 8; n++) {
            xyz[3 * n] = (n & 1) == 0 ? -halfX : halfX;
            xyz[3 * n + 1] = (n & 2) == 0 ? -halfY : halfY;
            xyz[3 * n + 2] = (n & 4) == 0 ? -halfZ : halfZ;
        }
        int[] corners = {
            0, 2, 1, 1, 2, 3, 4, 5, 6, 5, 7, 6, 0, 1, 4, 1, 5, 4, 2, 6, 3, 3, 6, 7, 0, 4, 2, 2, 4, 6, 1, 3, 5, 3, 7, 5
        };
        return TriangleMesh.of(xyz, corners);
    }

    /** The mesh as binary STL. */
    public static byte[] binaryStl(TriangleMesh mesh) {
        ByteBuffer out = ByteBuffer.allocate(84 + 50 * mesh.triangles()).order(ByteOrder.LITTLE_ENDIAN);
        out.position(80);
        out.putInt(mesh.triangles());
        for (int n = 0; n < mesh.triangles(); n++) {
            out.position(84 + 50 * n + 12);
            for (int which = 0; which < 3; which++) {
                PatientPoint p = mesh.point(n, which);
                out.putFloat((float) p.x()).putFloat((float) p.y()).putFloat((float) p.z());
            }
        }
        return out.array();
    }

    /** The mesh as text STL. */
    public static byte[] textStl(TriangleMesh mesh) {
        StringBuilder text = new StringBuilder("solid sample\n");
        for (int n = 0; n < mesh.triangles(); n++) {
            text.append(" facet normal 0 0 0\n  outer loop\n");
            for (int which = 0; which < 3; which++) {
                PatientPoint p = mesh.point(n, which);
                text.append("   vertex " + p.x() + " " + p.y() + " " + p.z() + "\n");
            }
            text.append("  endloop\n endfacet\n");
        }
        return text.append("endsolid sample\n").toString().getBytes(StandardCharsets.US_ASCII);
    }

    /** The mesh as text PLY with a property more on vertices and an element more. */
    public static byte[] textPly(TriangleMesh mesh) {
        StringBuilder text = new StringBuilder("ply\r\nformat ascii 1.0\r\nelement vertex " + mesh.vertices()
                + "\r\nproperty float x\r\nproperty float confidence\r\nproperty float y\r\nproperty float z\r\n"
                + "element face " + mesh.triangles()
                + "\r\nproperty list uchar int vertex_index\r\nelement note 1\r\nproperty int n\r\nend_header\r\n");
        for (int v = 0; v < mesh.vertices(); v++) {
            PatientPoint p = mesh.vertex(v);
            text.append(p.x() + " 0.5 " + p.y() + " " + p.z() + "\n");
        }
        for (int n = 0; n < mesh.triangles(); n++) {
            text.append("3 " + mesh.corner(n, 0) + " " + mesh.corner(n, 1) + " " + mesh.corner(n, 2) + "\n");
        }
        return text.append("7\n").toString().getBytes(StandardCharsets.US_ASCII);
    }
}
