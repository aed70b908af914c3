package org.holdfast.intake;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.PixelLayout;
import org.holdfast.dicom.PixelSource;
import org.holdfast.finding.Finding;
import org.holdfast.progress.Progress;

/** Says where identifiers contradict each other or are missing. Patients are told by number; no name or number is printed. */
final class IdentityFaults {

    private final List<Series> series;
    private final Patients patients;
    private final List<Finding> findings = new ArrayList<>();

    private IdentityFaults(List<Series> series) {
        this.series = series;
        this.patients = Patients.of(series);
    }

    /** @param series in the order of the report */
    static List<Finding> of(List<Series> series, Progress progress) {
        IdentityFaults faults = new IdentityFaults(series);
        faults.studies();
        faults.numbers();
        faults.names();
        faults.seriesInStudies();
        faults.instances(progress);
        faults.missing();
        return faults.findings;
    }

    private void studies() {
        groups(Series::studyInstanceUid).forEach((study, own) -> {
            String where = "study " + study;
            Set<Integer> of = patientsOf(own);
            if (of.size() > 1) {
                findings.add(Finding.error(
                        "STUDY_OF_SEVERAL_PATIENTS",
                        "one StudyInstanceUID on " + words(of) + ": kept apart, see which is right",
                        where));
            }
            List<Long> days = own.stream()
                    .filter(s -> s.kind() == SeriesKind.VOLUME || s.kind() == SeriesKind.RADIOGRAPH)
                    .flatMap(s -> s.date().date().stream())
                    .map(day -> day.toEpochDay())
                    .sorted()
                    .toList();
            if (!days.isEmpty() && days.get(days.size() - 1) - days.get(0) > 1) {
                findings.add(Finding.warning(
                        "STUDY_OVER_DAYS",
                        "one study with scans " + (days.get(days.size() - 1) - days.get(0))
                                + " days apart: each day is an exam of its own",
                        where));
            }
        });
    }

    private void numbers() {
        groups(s -> Patients.identity(s).patientId()).forEach((id, own) -> {
            List<String> names = different(own, Identity::patientName);
            if (names.size() > 1) {
                Set<Integer> of = patientsOf(own);
                findings.add(Finding.error(
                        "PATIENT_ID_WITH_SEVERAL_NAMES",
                        "one PatientID with " + names.size() + " names: "
                                + (of.size() > 1
                                        ? "kept apart as " + words(of)
                                        : "within series of patient "
                                                + of.iterator().next()),
                        "patient " + patientsOf(own).iterator().next()));
            }
        });
        groups(s -> Patients.identity(s).patientId()).forEach((id, own) -> {
            long births = own.stream()
                    .flatMap(s -> s.files().stream())
                    .map(h -> Patients.birth(h.identity()))
                    .filter(birth -> !birth.isEmpty())
                    .distinct()
                    .count();
            if (births > 1) {
                Set<Integer> of = patientsOf(own);
                findings.add(Finding.error(
                        "PATIENT_ID_WITH_SEVERAL_BIRTH_DATES",
                        "one PatientID with " + births + " birth dates: "
                                + (of.size() > 1 ? "kept apart as " + words(of) : "see whether it is one person"),
                        "patient " + of.iterator().next()));
            }
        });
    }

    /** The same person in two hospitals, or two people of one name: only a person can tell. */
    private void names() {
        Map<Integer, Identity> one = new TreeMap<>();
        series.forEach(s -> one.putIfAbsent(patients.numberOf(s), Patients.identity(s)));
        List<Integer> numbers = List.copyOf(one.keySet());
        for (int a = 0; a < numbers.size(); a++) {
            for (int b = a + 1; b < numbers.size(); b++) {
                Identity first = one.get(numbers.get(a));
                Identity second = one.get(numbers.get(b));
                if (!first.patientId().equals(second.patientId())
                        && PersonName.isSame(first.patientName(), second.patientName())) {
                    findings.add(Finding.warning(
                            "NAME_WITH_SEVERAL_PATIENT_IDS",
                            "patients " + numbers.get(a) + " and " + numbers.get(b)
                                    + " have one name and two PatientIDs: kept apart",
                            "patient " + numbers.get(b)));
                }
            }
        }
    }

    private void seriesInStudies() {
        groups(Series::seriesInstanceUid).forEach((uid, own) -> {
            long studies = own.stream()
                    .flatMap(s -> s.files().stream())
                    .map(h -> h.identity().studyInstanceUid())
                    .distinct()
                    .count();
            if (studies > 1) {
                findings.add(Finding.warning(
                        "SERIES_IN_SEVERAL_STUDIES",
                        "one series UID under " + studies + " StudyInstanceUIDs; it is taken as one series",
                        "series " + uid));
            }
        });
    }

    /** One SOP instance is one object for ever: different pixels under its UID are somebody's mistake. */
    private void instances(Progress progress) {
        Map<String, List<ImageHeader>> byUid = new LinkedHashMap<>();
        series.stream()
                .flatMap(s -> s.files().stream())
                .filter(h -> !h.identity().sopInstanceUid().isEmpty())
                .forEach(h -> byUid.computeIfAbsent(h.identity().sopInstanceUid(), key -> new ArrayList<>())
                        .add(h));
        byUid.values().removeIf(same -> same.size() == 1);
        List<String> differing = new ArrayList<>();
        int done = 0;
        for (Map.Entry<String, List<ImageHeader>> entry : byUid.entrySet()) {
            progress.stopIfCancelled();
            progress.report((double) done++ / byUid.size(), "comparing files of one UID");
            if (entry.getValue().stream()
                            .flatMap(header -> contents(header).stream())
                            .distinct()
                            .count()
                    > 1) {
                differing.add(entry.getKey());
            }
        }
        if (!differing.isEmpty()) {
            findings.add(Finding.error(
                    "INSTANCE_UID_WITH_OTHER_PIXELS",
                    differing.size() == 1
                            ? "one SOP instance UID stands on different pictures"
                            : differing.size() + " SOP instance UIDs stand on different pictures each",
                    differing.stream().sorted().findFirst().orElseThrow()));
        }
    }

    /** What the pictures of a file are, whatever its header and its name; empty if they cannot be compared. */
    private static Optional<String> contents(ImageHeader header) {
        Optional<PixelSource> pixels = header.pixels();
        boolean readable = pixels.isPresent()
                && pixels.get().whyUnreadable().isEmpty()
                && pixels.get().isComplete()
                && header.frames().size() == pixels.get().layout().frames();
        if (!readable) {
            return Optional.empty();
        }
        PixelLayout layout = pixels.get().layout();
        try {
            StringBuilder out = new StringBuilder(layout.rows() + " " + layout.columns());
            for (Slice frame : header.slices()) {
                out.append(' ').append(PixelDigest.ofStoredValues(frame));
            }
            return Optional.of(out.toString());
        } catch (DicomReadException e) {
            // Said where it matters: when the pixels are used.
            return Optional.empty();
        }
    }

    private void missing() {
        missing("MISSING_SERIES_UID", Identity::seriesInstanceUid, "SeriesInstanceUID: each stands alone");
        missing("MISSING_STUDY_UID", Identity::studyInstanceUid, "StudyInstanceUID");
        missing("MISSING_INSTANCE_UID", Identity::sopInstanceUid, "SOPInstanceUID: copies cannot be told by it");
    }

    private void missing(String code, Function<Identity, String> uid, String name) {
        List<String> files = series.stream()
                .flatMap(s -> s.files().stream())
                .filter(h -> uid.apply(h.identity()).isEmpty())
                .map(ImageHeader::name)
                .sorted()
                .toList();
        if (!files.isEmpty()) {
            findings.add(Finding.warning(
                    code,
                    files.size() + (files.size() == 1 ? " file has no " : " files have no ") + name,
                    files.get(0)));
        }
    }

    /** Series by a text, without those that have none. */
    private Map<String, List<Series>> groups(Function<Series, String> by) {
        Map<String, List<Series>> out = new TreeMap<>();
        for (Series s : series) {
            if (!by.apply(s).isEmpty()) {
                out.computeIfAbsent(by.apply(s), key -> new ArrayList<>()).add(s);
            }
        }
        return out;
    }

    /** Names that cannot be one person's, over all files. */
    private static List<String> different(List<Series> own, Function<Identity, String> name) {
        List<String> out = new ArrayList<>();
        own.stream()
                .flatMap(s -> s.files().stream())
                .map(h -> name.apply(h.identity()))
                .filter(text -> !PersonName.isEmpty(text))
                .distinct()
                .sorted()
                .filter(text -> out.stream().noneMatch(known -> PersonName.isSame(known, text)))
                .forEach(out::add);
        return out;
    }

    private Set<Integer> patientsOf(List<Series> own) {
        return own.stream().map(patients::numberOf).collect(Collectors.toCollection(TreeSet::new));
    }

    private static String words(Set<Integer> numbers) {
        return "patients " + numbers.stream().map(String::valueOf).collect(Collectors.joining(" and "));
    }
}
