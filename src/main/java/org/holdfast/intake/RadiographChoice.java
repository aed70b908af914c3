package org.holdfast.intake;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.finding.Finding;
import org.holdfast.progress.Progress;

/**
 * The radiographs of an exam. Immutable.
 *
 * @param films those that can be shown: from the front, from the side, oblique, others; raw ones behind those made for looking
 *     at; else by series number and instance
 * @param findings what could not be shown and why
 */
public record RadiographChoice(List<RadiographFile> films, List<Finding> findings) {

    private static final Comparator<RadiographFile> BEST_FIRST = Comparator.comparing(
                    (RadiographFile film) -> film.facts().orientation().view())
            .thenComparing(RadiographFile::isForProcessing);

    public RadiographChoice {
        films = List.copyOf(films);
        findings = List.copyOf(findings);
    }

    /**
     * Finds the radiographs and reads their headers.
     *
     * @param seriesInstanceUid the only series to be taken; empty for any
     * @throws java.util.concurrent.CancellationException if the person stopped it
     */
    public static RadiographChoice of(IntakeReport report, Optional<String> seriesInstanceUid, Progress progress) {
        List<RadiographFile> films = new ArrayList<>();
        List<Finding> findings = new ArrayList<>();
        Set<String> instances = new HashSet<>();
        for (Series series : report.series()) {
            if (seriesInstanceUid.isPresent() && !series.seriesInstanceUid().equals(seriesInstanceUid.get())) {
                continue;
            }
            for (ImageHeader header : series.files()) {
                progress.stopIfCancelled();
                String instance = header.identity().sopInstanceUid();
                boolean isNew = instance.isEmpty() || instances.add(instance);
                if (isNew && ImageKind.isRadiograph(header.identity()) && header.hasPixelData()) {
                    add(header, films, findings);
                }
            }
        }
        films.sort(BEST_FIRST);
        return new RadiographChoice(films, FindingSummary.of(findings));
    }

    private static void add(ImageHeader header, List<RadiographFile> films, List<Finding> findings) {
        Optional<String> why = RadiographLoader.whyNot(header);
        try {
            if (why.isEmpty()) {
                films.add(RadiographLoader.describe(header));
            }
        } catch (DicomReadException e) {
            why = Optional.of(e.reason());
        }
        why.ifPresent(reason -> findings.add(Finding.error("RADIOGRAPH_NOT_SHOWN", reason, header.name())));
    }
}
