package org.holdfast.construct;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Optional;
import org.holdfast.finding.FileFailure;
import org.holdfast.geometry.MeshFile;
import org.holdfast.geometry.MeshReadException;
import org.holdfast.geometry.TriangleMesh;

/** Where the mesh files that a document names lie; there may be no such place. */
final class MeshFolder {

    /** A document that came without a folder: its meshes stay unread. */
    static final MeshFolder NONE = new MeshFolder(Optional.empty());

    private static final long MOST_BYTES = 512L << 20;

    private final Optional<Path> folder;

    private MeshFolder(Optional<Path> folder) {
        this.folder = folder;
    }

    static MeshFolder of(Path folder) {
        return new MeshFolder(Optional.of(folder));
    }

    /**
     * The shape of a component with its surface, where there is a folder.
     *
     * @param f the object {file, sha256} of the document, for messages
     */
    MeshShape read(MeshShape named, Fields f) throws ConstructReadException {
        if (folder.isEmpty()) {
            return named;
        }
        Path file = folder.get().resolve(named.file());
        byte[] bytes = bytes(file, f);
        String sha256 = sha256(bytes);
        if (!sha256.equals(named.sha256())) {
            throw f.refusal("sha256", named.sha256() + ", as the document says", sha256 + ", of the file " + file);
        }
        TriangleMesh surface;
        try {
            surface = MeshFile.parse(bytes, file.toString());
        } catch (MeshReadException e) {
            throw f.refusal("file", "a surface that can be read", e.getMessage());
        }
        return f.checked(() -> new MeshShape(named.file(), named.sha256(), Optional.of(surface)));
    }

    private static byte[] bytes(Path file, Fields f) throws ConstructReadException {
        try {
            if (Files.size(file) > MOST_BYTES) {
                throw f.refusal("file", "at most " + MOST_BYTES + " bytes", file + " with " + Files.size(file));
            }
            return Files.readAllBytes(file);
        } catch (IOException e) {
            throw f.refusal("file", "the file " + file, FileFailure.words(e));
        }
    }

    private static String sha256(byte[] bytes) {
        try {
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }
}
