package org.holdfast.geometry;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;

/** Writes a mesh as binary PLY with coordinates in full double precision. */
public final class MeshWriter {

    private static final int FACE_BYTES = 13;

    private MeshWriter() {}

    /** The bytes of a PLY file, little endian. */
    public static byte[] ply(TriangleMesh mesh) {
        byte[] header = ("ply\nformat binary_little_endian 1.0\ncomment lengths in mm\nelement vertex "
                        + mesh.vertices()
                        + "\nproperty double x\nproperty double y\nproperty double z\nelement face " + mesh.triangles()
                        + "\nproperty list uchar int vertex_indices\nend_header\n")
                .getBytes(StandardCharsets.US_ASCII);
        int size = Math.addExact(header.length, Math.addExact(24 * mesh.vertices(), FACE_BYTES * mesh.triangles()));
        ByteBuffer out = ByteBuffer.allocate(size).order(ByteOrder.LITTLE_ENDIAN);
        out.put(header);
        for (int v = 0; v < mesh.vertices(); v++) {
            for (int axis = 0; axis < 3; axis++) {
                out.putDouble(mesh.coordinate(v, axis));
            }
        }
        for (int n = 0; n < mesh.triangles(); n++) {
            out.put((byte) 3);
            for (int which = 0; which < 3; which++) {
                out.putInt(mesh.corner(n, which));
            }
        }
        return out.array();
    }
}
