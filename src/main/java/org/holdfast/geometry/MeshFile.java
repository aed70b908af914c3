package org.holdfast.geometry;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * A surface in a file: STL (binary or text) or PLY (text, binary of either byte order), told apart by content, lengths in
 * mm. STL as published by 3D Systems, 1989 (from memory); PLY as described by Turk, Stanford, 1994 (from memory). Of a PLY
 * file only the vertices' x, y, z and the faces are taken; faces of more than three corners are cut into fans.
 */
public final class MeshFile {

    /** Largest file that is read, bytes. */
    static final long MOST_BYTES = 512L * 1024 * 1024;

    private MeshFile() {}

    /**
     * Reads a file.
     *
     * @throws MeshReadException if it cannot be read or is no such file; names file, place, what was expected and found
     */
    public static TriangleMesh read(Path file) throws MeshReadException {
        try {
            long size = Files.size(file);
            if (size > MOST_BYTES) {
                throw new MeshReadException(
                        file.toString(), "", "at most " + MOST_BYTES + " bytes", String.valueOf(size), null);
            }
            return parse(Files.readAllBytes(file), file.toString());
        } catch (IOException e) {
            throw new MeshReadException(file.toString(), "", "a file that can be read", e.toString(), e);
        }
    }

    /**
     * Reads the bytes of a file.
     *
     * @param name what it is called in messages
     * @throws MeshReadException if it is no such file
     */
    public static TriangleMesh parse(byte[] bytes, String name) throws MeshReadException {
        if (starts(bytes, "ply\n") || starts(bytes, "ply\r")) {
            return new PlyReader(bytes, name).read();
        }
        return StlReader.read(bytes, name);
    }

    private static boolean starts(byte[] bytes, String word) {
        byte[] wanted = word.getBytes(StandardCharsets.US_ASCII);
        for (int n = 0; n < wanted.length; n++) {
            if (n >= bytes.length || bytes[n] != wanted[n]) {
                return false;
            }
        }
        return true;
    }

    /** Makes the mesh; a number that cannot be is told as the file's fault. */
    static TriangleMesh mesh(double[] xyz, int[] corners, String name) throws MeshReadException {
        try {
            return TriangleMesh.of(xyz, corners);
        } catch (IllegalArgumentException e) {
            throw new MeshReadException(name, "", "a surface of triangles", e.getMessage(), e);
        }
    }
}
