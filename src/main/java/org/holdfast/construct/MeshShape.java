package org.holdfast.construct;

import java.util.Objects;
import org.holdfast.geometry.PatientPoint;

/**
 * A closed surface in a file beside the document. This version keeps the reference and its hash and does not read the
 * surface, so nothing is measured on it.
 *
 * @param file path relative to the document, with forward slashes, not leading out of its folder
 * @param sha256 SHA-256 of the file's bytes, 64 lower-case hexadecimal digits
 */
public record MeshShape(String file, String sha256) implements Shape {
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
    }

    @Override
    public boolean hasDistance() {
        return false;
    }

    @Override
    public double signedDistanceMm(PatientPoint p) {
        throw new UnsupportedOperationException("the surface in " + file + " is kept as data and not read");
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
