package org.holdfast.geometry;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Locale;

/** Reads STL: binary where the length is that of its count of triangles, else text. Facet normals are not used. */
final class StlReader {

    private static final int HEADER_BYTES = 80;
    private static final int TRIANGLE_BYTES = 50;

    private StlReader() {}

    static TriangleMesh read(byte[] bytes, String name) throws MeshReadException {
        if (bytes.length >= HEADER_BYTES + 4) {
            long count = Integer.toUnsignedLong(
                    ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN).getInt(HEADER_BYTES));
            if (bytes.length == HEADER_BYTES + 4 + TRIANGLE_BYTES * count) {
                return binary(bytes, (int) count, name);
            }
            if (!isText(bytes)) {
                throw new MeshReadException(
                        name,
                        "byte " + HEADER_BYTES,
                        "an STL or PLY file; as binary STL its count of " + count + " triangles takes "
                                + (HEADER_BYTES + 4 + TRIANGLE_BYTES * count) + " bytes",
                        bytes.length + " bytes",
                        null);
            }
        }
        if (!isText(bytes)) {
            throw new MeshReadException(name, "byte 0", "an STL or PLY file", bytes.length + " other bytes", null);
        }
        return text(bytes, name);
    }

    private static boolean isText(byte[] bytes) {
        String start = new String(bytes, 0, Math.min(bytes.length, 512), StandardCharsets.ISO_8859_1);
        return start.stripLeading().startsWith("solid") && (start.contains("facet") || start.contains("endsolid"));
    }

    private static TriangleMesh binary(byte[] bytes, int count, String name) throws MeshReadException {
        requireFewEnough(count, name);
        ByteBuffer in = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
        double[] xyz = new double[9 * count];
        for (int n = 0; n < count; n++) {
            int at = HEADER_BYTES + 4 + TRIANGLE_BYTES * n + 12;
            for (int c = 0; c < 9; c++) {
                xyz[9 * n + c] = in.getFloat(at + 4 * c);
            }
        }
        return MeshFile.mesh(xyz, inOrder(3 * count), name);
    }

    private static void requireFewEnough(long count, String name) throws MeshReadException {
        if (count > TriangleMesh.MOST_TRIANGLES) {
            throw new MeshReadException(
                    name, "", "at most " + TriangleMesh.MOST_TRIANGLES + " triangles", String.valueOf(count), null);
        }
    }

    private static TriangleMesh text(byte[] bytes, String name) throws MeshReadException {
        double[] xyz = new double[900];
        int count = 0;
        String[] lines = new String(bytes, StandardCharsets.ISO_8859_1).split("\n", -1);
        boolean ended = false;
        for (int n = 0; n < lines.length; n++) {
            String[] words = lines[n].strip().split("\\s+");
            String word = words[0].toLowerCase(Locale.ROOT);
            ended |= word.equals("endsolid");
            if (word.equals("endfacet") && count % 9 != 0) {
                throw new MeshReadException(
                        name, "line " + (n + 1), "3 vertices a facet", (count / 3 % 3) + " left over", null);
            }
            if (word.equals("vertex")) {
                if (words.length != 4) {
                    throw new MeshReadException(name, "line " + (n + 1), "vertex x y z", lines[n].strip(), null);
                }
                if (count + 3 > xyz.length) {
                    requireFewEnough(count / 9 + 1, name);
                    xyz = Arrays.copyOf(xyz, 2 * xyz.length);
                }
                for (int c = 0; c < 3; c++) {
                    xyz[count++] = number(words[c + 1], n + 1, name);
                }
            }
        }
        if (!ended || count % 9 != 0) {
            throw new MeshReadException(
                    name, "line " + lines.length, "endsolid after the last facet", "the end of the file", null);
        }
        return MeshFile.mesh(Arrays.copyOf(xyz, count), inOrder(count / 3), name);
    }

    static double number(String word, int line, String name) throws MeshReadException {
        try {
            return Double.parseDouble(word);
        } catch (NumberFormatException e) {
            throw new MeshReadException(name, "line " + line, "a number", word, e);
        }
    }

    private static int[] inOrder(int count) {
        int[] corners = new int[count];
        Arrays.setAll(corners, n -> n);
        return corners;
    }
}
