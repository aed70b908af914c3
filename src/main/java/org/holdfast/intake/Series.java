package org.holdfast.intake;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.holdfast.finding.Finding;
import org.holdfast.volume.Acquisition;

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

    /** The day it was made: of its files' days those by the most trusted attribute, of these the earliest. */
    public ScanDate date() {
        return files.stream()
                .map(ImageHeader::date)
                .min(Comparator.comparingInt(ScanDate::sourceRank)
                        .thenComparing(date -> date.date().orElse(LocalDate.MAX)))
                .orElse(ScanDate.NONE);
    }

    /** How its first stack, or else its first image, was made; empty for objects without pictures. */
    public Optional<Acquisition> acquisition() {
        if (kind == SeriesKind.OTHER) {
            return Optional.empty();
        }
        return stacks.stream().map(Stack::acquisition).findFirst().or(() -> files.get(0).frames().stream()
                .map(FrameFacts::acquisition)
                .findFirst());
    }

    /** Whether some finding about it has this code. */
    boolean says(String code) {
        return findings.stream().anyMatch(finding -> finding.code().equals(code));
    }
}
