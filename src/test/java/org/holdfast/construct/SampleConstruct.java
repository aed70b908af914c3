package org.holdfast.construct;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** The committed document that uses every field of the format. */
final class SampleConstruct {

    private SampleConstruct() {}

    static String json() {
        try (InputStream in = SampleConstruct.class.getResourceAsStream("every-field.json")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static Construct construct() {
        try {
            return ConstructJson.parse(json(), "every-field.json");
        } catch (ConstructReadException e) {
            throw new AssertionError(e);
        }
    }

    /** The same document with the mesh's file of these bytes, and its cylinder patch given as pieces of that mesh. */
    static String withSurfaces(byte[] mesh) {
        return withMesh(mesh)
                .replaceFirst(
                        "\\{\"kind\": \"cylinder\", \"pMm\": \\[0, 0, 302\\][^}]*\\}",
                        "{\"kind\": \"surface\", \"mesh\": \"meshes/sacral-body.stl\","
                                + " \"outline\": [[5, 0, 13], [0, 5, 13], [-5, 0, 13], [0, -5, 13]]},"
                                + " {\"kind\": \"surface\", \"mesh\": \"meshes/sacral-body.stl\", \"triangles\": [0, 1]}");
    }

    /** The same document with the hash of these bytes for the mesh's file. */
    static String withMesh(byte[] mesh) {
        return json().replaceFirst("\"sha256\": \"[0-9a-f]{64}\"", "\"sha256\": \"" + sha256(mesh) + "\"");
    }

    static String sha256(byte[] bytes) {
        try {
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
        } catch (NoSuchAlgorithmException e) {
            throw new AssertionError(e);
        }
    }
}
