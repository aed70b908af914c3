package org.holdfast.construct;

import java.util.Objects;
import java.util.Optional;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.TriangleMesh;

/**
 * A closed surface in a file beside the document, in patient space of the reference exam, mm: the planned shape, or the
 * metal's surface in the reference scan.
 *
 * @param file path relative to the document, with forward slashes, not leading out of its folder
 * @param sha256 SHA-256 of the file's bytes, 64 lower-case hexadecimal digits
 * @param mesh the surface, closed and facing outwards; empty where the document was read without its folder
 */
public record MeshShape(String file, String sha256, Optional<TriangleMesh> mesh) implements Shape {
    public MeshShape {
        Objects.requireNonNull(file, "file");
        Objects.requireNonNull(sha256, "sha256");
        if (file.isBlank() || file.contains("\\") || file.contains(":") || leadsOut(file)) {
            throw new InvalidField(
                    "file", "a path relative to the document, with /, inside its folder", Rule.quoted(file));
        }
        if (!sha256.matches("[0-9a-f]{64}")) {
            throw new InvalidField("sha256", "64 lower-case hexadecimal digits", Rule.quoted(sha256));
        }
        mesh = mesh.map(surface -> outwards(file, surface));
    }

    /** A mesh whose surface is not at hand. */
    public MeshShape(String file, String sha256) {
        this(file, sha256, Optional.empty());
    }

    private static TriangleMesh outwards(String file, TriangleMesh surface) {
        int open = surface.openEdges();
        if (open > 0) {
            throw new InvalidField(
                    "file",
                    "a closed surface, each edge shared by two triangles that run along it in opposite directions",
                    Rule.quoted(file) + " with " + open + " edges that are not");
        }
        return surface.volumeMm3() < 0 ? surface.turnedOver() : surface;
    }

    @Override
    public boolean hasDistance() {
        return mesh.isPresent();
    }

    /** Exact for a surface that does not cut itself. */
    @Override
    public double signedDistanceMm(PatientPoint p) {
        return mesh.orElseThrow(() -> new UnsupportedOperationException(
                        "the surface in " + file + " was not read: its folder was not given"))
                .signedDistanceMm(p);
    }

    private static boolean leadsOut(String file) {
        if (file.startsWith("/")) {
            return true;
        }
        for (String step : file.split("/", -1)) {
            if (step.equals("..") || step.isEmpty()) {
                return true;
            }
        }
        return false;
    }
}
