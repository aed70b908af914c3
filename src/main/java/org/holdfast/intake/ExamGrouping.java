package org.holdfast.intake;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.holdfast.finding.Finding;

/** Puts series together to exams: by patient, then by the day of the scan. Days are never guessed. */
final class ExamGrouping {

    private final Patients patients;
    private final RoleProposal roles;

    ExamGrouping(Patients patients, RoleProposal roles) {
        this.patients = patients;
        this.roles = roles;
    }

    /** @param series in the order of the report */
    List<FoundExam> exams(List<Series> series) {
        Map<Integer, List<Series>> byPatient = new TreeMap<>();
        for (Series s : series) {
            byPatient
                    .computeIfAbsent(patients.numberOf(s), key -> new ArrayList<>())
                    .add(s);
        }
        List<FoundExam> out = new ArrayList<>();
        byPatient.forEach((patient, own) -> {
            List<FoundExam> exams = new ArrayList<>();
            visits(own).forEach(visit -> exams.add(exam(patient, visit)));
            exams.sort(Comparator.comparing(exam -> exam.date().orElse(LocalDate.MAX)));
            out.addAll(exams);
        });
        return out;
    }

    /** Scans decide what visits there were; what was made of them goes where their study is. */
    private static List<List<Series>> visits(List<Series> ofPatient) {
        List<List<Series>> visits = new ArrayList<>();
        List<Series> made = new ArrayList<>();
        for (Series s : ofPatient) {
            if (isMadeAfterwards(s) && ofPatient.stream().anyMatch(o -> !isMadeAfterwards(o) && isSameStudy(o, s))) {
                made.add(s);
            } else {
                place(s, visits);
            }
        }
        for (Series s : made) {
            List<List<Series>> ofStudy = visits.stream()
                    .filter(visit -> visit.stream().anyMatch(o -> isSameStudy(o, s)))
                    .toList();
            ofStudy.stream()
                    .filter(visit -> visit.stream().anyMatch(o -> isSameDay(o, s)))
                    .findFirst()
                    .orElse(ofStudy.get(0))
                    .add(s);
        }
        return visits;
    }

    /** Adds a series to the visit that it belongs to; several that it belongs to become one. */
    private static void place(Series series, List<List<Series>> visits) {
        List<List<Series>> homes = visits.stream()
                .filter(visit -> visit.stream().anyMatch(other -> belongTogether(series, other)))
                .toList();
        List<Series> home = new ArrayList<>();
        for (List<Series> part : homes) {
            home.addAll(part);
            visits.removeIf(visit -> visit == part);
        }
        home.add(series);
        visits.add(home);
    }

    /** One day, or one study from one day into the next; without a day one study. */
    private static boolean belongTogether(Series a, Series b) {
        Optional<LocalDate> first = a.date().date();
        Optional<LocalDate> second = b.date().date();
        if (first.isEmpty() || second.isEmpty()) {
            return first.isEmpty() && second.isEmpty() && isSameStudy(a, b);
        }
        long apart = Math.abs(first.get().toEpochDay() - second.get().toEpochDay());
        return apart == 0 || apart == 1 && isSameStudy(a, b);
    }

    private static boolean isSameStudy(Series a, Series b) {
        return !a.studyInstanceUid().isEmpty() && a.studyInstanceUid().equals(b.studyInstanceUid());
    }

    private static boolean isSameDay(Series a, Series b) {
        return a.date().date().isPresent() && a.date().date().equals(b.date().date());
    }

    /** Reports, segmentations and captures carry the day on which they were made, not that of the scan. */
    private static boolean isMadeAfterwards(Series s) {
        return s.kind() == SeriesKind.OTHER
                || s.kind() == SeriesKind.IMAGE
                        && s.files().stream().allMatch(f -> f.date().sourceRank() > 2)
                        && (s.says("SCREEN_CAPTURE") || s.says("COLOUR_IMAGE") || s.says("RENDERED_IMAGE"));
    }

    private FoundExam exam(int patient, List<Series> visit) {
        List<Series> scans = visit.stream().filter(s -> !isMadeAfterwards(s)).toList();
        List<Series> dating = scans.isEmpty() ? visit : scans;
        ScanDate date = dating.stream()
                .map(Series::date)
                .min(Comparator.comparing((ScanDate d) -> d.date().orElse(LocalDate.MAX))
                        .thenComparingInt(ScanDate::sourceRank))
                .orElse(ScanDate.NONE);
        List<SeriesUse> uses = roles.uses(visit);
        return new FoundExam(patient, date.date(), date.source(), uses, findings(dating, uses));
    }

    private static List<Finding> findings(List<Series> dating, List<SeriesUse> uses) {
        List<Finding> out = new ArrayList<>();
        Set<LocalDate> days =
                dating.stream().flatMap(s -> s.date().date().stream()).collect(Collectors.toCollection(TreeSet::new));
        String where = dating.get(0).studyInstanceUid().isEmpty()
                ? ""
                : "study " + dating.get(0).studyInstanceUid();
        if (days.isEmpty() && dating.stream().anyMatch(s -> s.kind() != SeriesKind.OTHER)) {
            out.add(Finding.warning(
                    "EXAM_DATE_MISSING",
                    "no file says the day of this exam: it must be given, it is not guessed",
                    where));
        }
        if (days.size() > 1) {
            out.add(Finding.info(
                    "EXAM_OVER_MIDNIGHT",
                    "one study from one day into the next is taken as one exam of the first day",
                    where));
        }
        long studies = uses.stream()
                .filter(SeriesUse::isMeasurable)
                .map(use -> use.series().studyInstanceUid())
                .distinct()
                .count();
        if (studies > 1) {
            out.add(Finding.warning(
                    "SEVERAL_STUDIES_ON_A_DAY",
                    studies + " studies of this day could be measured and are taken as one exam: see that none was made"
                            + " before the operation and another after it",
                    where));
        }
        return out;
    }
}
