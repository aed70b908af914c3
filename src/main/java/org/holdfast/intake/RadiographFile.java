package org.holdfast.intake;

import java.util.List;
import java.util.Objects;
import org.holdfast.finding.Finding;
import org.holdfast.volume.FilmFacts;

/**
 * A file that can be shown as a radiograph, its header read, its pixels not yet. Immutable.
 *
 * @param file the file
 * @param facts what is known of the radiograph but its pixels
 * @param findings what was odd about its header
 */
public record RadiographFile(ImageHeader file, FilmFacts facts, List<Finding> findings) {

    static final String FOR_PROCESSING = "FOR_PROCESSING";

    public RadiographFile {
        Objects.requireNonNull(file, "file");
        Objects.requireNonNull(facts, "facts");
        findings = List.copyOf(findings);
    }

    /** Whether it is raw data that were not made for looking at. */
    public boolean isForProcessing() {
        return findings.stream().anyMatch(finding -> finding.code().equals(FOR_PROCESSING));
    }
}
