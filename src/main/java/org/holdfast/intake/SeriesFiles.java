package org.holdfast.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.holdfast.finding.Finding;

/**
 * The files of one series of one patient, before stacks are made of them. Immutable.
 *
 * @param headers the files
 * @param findings what is to be said about them together
 */
record SeriesFiles(List<ImageHeader> headers, List<Finding> findings) {

    SeriesFiles {
        headers = List.copyOf(headers);
        findings = List.copyOf(findings);
    }

    /** Groups files by series UID, and those of one UID by patient: two patients' slices never make one stack. */
    static List<SeriesFiles> group(List<ImageHeader> headers) {
        Map<String, List<ImageHeader>> bySeries = new TreeMap<>();
        for (ImageHeader header : headers) {
            bySeries.computeIfAbsent(seriesKey(header), key -> new ArrayList<>())
                    .add(header);
        }
        return bySeries.values().stream().flatMap(s -> byPatient(s).stream()).toList();
    }

    /** Files without a series stand alone, as nothing says that they belong together. */
    private static String seriesKey(ImageHeader header) {
        String uid = header.identity().seriesInstanceUid();
        return uid.isEmpty() ? "no series: " + header.name() : uid;
    }

    private static List<SeriesFiles> byPatient(List<ImageHeader> ofSeries) {
        Set<String> ids = ofSeries.stream()
                .map(h -> h.identity().patientId())
                .filter(id -> !id.isEmpty())
                .collect(Collectors.toSet());
        if (ids.isEmpty() || ids.size() == 1 && ofSeries.stream().allMatch(h -> mayBe(h, ofSeries))) {
            return List.of(new SeriesFiles(ofSeries, List.of()));
        }
        Map<String, List<ImageHeader>> parts = new TreeMap<>();
        for (ImageHeader header : ofSeries) {
            parts.computeIfAbsent(header.identity().patientId(), id -> new ArrayList<>())
                    .add(header);
        }
        String uid = ofSeries.get(0).identity().seriesInstanceUid();
        Finding several = Finding.error(
                "SEVERAL_PATIENTS",
                parts.size() + " patients under one series UID; their files are kept apart",
                "series " + uid);
        return parts.values().stream()
                .map(part -> new SeriesFiles(part, List.of(several)))
                .toList();
    }

    /** Whether a file may belong to the one patient whose number other files of its series carry. */
    private static boolean mayBe(ImageHeader header, List<ImageHeader> others) {
        Identity own = header.identity();
        return !own.patientId().isEmpty()
                || PersonName.isEmpty(own.patientName())
                || others.stream()
                        .map(ImageHeader::identity)
                        .filter(o -> !o.patientId().isEmpty())
                        .allMatch(o -> PersonName.isEmpty(o.patientName())
                                || PersonName.isSame(o.patientName(), own.patientName()));
    }
}
