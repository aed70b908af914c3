package org.holdfast.intake;

import java.util.List;
import org.holdfast.finding.Finding;

/**
 * One series with its stacks. Immutable.
 *
 * @param seriesInstanceUid the series; empty text if its files do not say
 * @param studyInstanceUid its study
 * @param modality modality as its files say, or several with a bar between
 * @param description description of the series
 * @param kind what it is good for
 * @param stacks its stacks
 * @param files all its files, duplicates and non-slices included, in an order that names do not decide
 * @param findings what a person should know, those of its stacks included
 */
public record Series(
        String seriesInstanceUid,
        String studyInstanceUid,
        String modality,
        String description,
        SeriesKind kind,
        List<Stack> stacks,
        List<ImageHeader> files,
        List<Finding> findings) {

    public Series {
        stacks = List.copyOf(stacks);
        files = List.copyOf(files);
        findings = List.copyOf(findings);
    }
}
