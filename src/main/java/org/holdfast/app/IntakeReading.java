package org.holdfast.app;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.holdfast.app.IntakeContent.LeftAside;
import org.holdfast.finding.Finding;
import org.holdfast.finding.Severity;
import org.holdfast.intake.FoundExam;
import org.holdfast.intake.IntakeReport;
import org.holdfast.intake.Series;
import org.holdfast.intake.SeriesUse;
import org.holdfast.progress.Progress;

/**
 * What intake found as plain records, with a name for each series or stack by which its source is found again.
 *
 * @param content what was found
 * @param uses the source of each series of the content, by its id
 */
record IntakeReading(IntakeContent content, Map<String, SeriesUse> uses) {

    private static final int LETTERS = 26;

    static IntakeReading of(List<Path> paths, IntakeReport report, Progress progress) {
        HeaderLook look = new HeaderLook();
        Map<Series, Optional<String>> risks = new IdentityHashMap<>();
        int done = 0;
        for (Series series : report.series()) {
            progress.stopIfCancelled();
            risks.put(series, look.look(series));
            progress.report(++done / (double) report.series().size(), "looking at what the headers tell");
        }
        Map<String, SeriesUse> uses = new LinkedHashMap<>();
        Map<Integer, List<IntakeExam>> byPatient = new TreeMap<>();
        List<FoundExam> exams = report.exams();
        for (int n = 0; n < exams.size(); n++) {
            IntakeExam exam = exam("exam-" + (n + 1), exams.get(n), risks, uses);
            byPatient
                    .computeIfAbsent(exams.get(n).patient(), patient -> new ArrayList<>())
                    .add(exam);
        }
        List<IntakePatient> patients = byPatient.entrySet().stream()
                .map(each -> new IntakePatient("patient " + letter(each.getKey()), each.getValue(), List.of()))
                .toList();
        int files = report.series().stream().mapToInt(s -> s.files().size()).sum()
                + report.unreadable().size();
        IntakeContent content =
                new IntakeContent(paths, files, patients, leftAside(report), notes(report, patients), look.changes());
        return new IntakeReading(content, uses);
    }

    private static IntakeExam exam(
            String id, FoundExam found, Map<Series, Optional<String>> risks, Map<String, SeriesUse> uses) {
        List<IntakeSeries> series = new ArrayList<>();
        for (SeriesUse use : found.uses()) {
            String seriesId = id + "-series-" + (series.size() + 1);
            uses.put(seriesId, use);
            series.add(SeriesDescription.of(seriesId, use, risks.getOrDefault(use.series(), Optional.empty())));
        }
        List<IntakeNote> notes = found.findings().stream()
                .filter(finding -> !finding.code().equals("EXAM_DATE_MISSING"))
                .map(IntakeReading::note)
                .toList();
        return new IntakeExam(id, found.date(), found.dateSource(), series, notes);
    }

    /** Letters, since numbers count exams: A to Z, then AA and so on. */
    private static String letter(int number) {
        String last = Character.toString((char) ('A' + (number - 1) % LETTERS));
        return number > LETTERS ? letter((number - 1) / LETTERS) + last : last;
    }

    private static List<LeftAside> leftAside(IntakeReport report) {
        Map<String, List<String>> byReason = report.unreadable().stream()
                .collect(Collectors.groupingBy(
                        IntakeReport.Unreadable::reason,
                        TreeMap::new,
                        Collectors.mapping(IntakeReport.Unreadable::path, Collectors.toList())));
        return byReason.entrySet().stream()
                .map(each -> new LeftAside(each.getKey(), each.getValue()))
                .toList();
    }

    private static List<IntakeNote> notes(IntakeReport report, List<IntakePatient> patients) {
        List<IntakeNote> notes = new ArrayList<>(
                report.findings().stream().map(IntakeReading::note).toList());
        if (patients.size() > 1) {
            notes.add(new IntakeNote(
                    IntakeNote.Mark.CAUTION,
                    "these files are of " + patients.size()
                            + " patients, told apart by number and name: one subject is taken in at a time"));
        }
        return notes;
    }

    /** A finding as a note. */
    static IntakeNote note(Finding finding) {
        IntakeNote.Mark mark = finding.severity() == Severity.INFO
                ? IntakeNote.Mark.KNOWN
                : finding.severity() == Severity.WARNING ? IntakeNote.Mark.CAUTION : IntakeNote.Mark.FAULT;
        return new IntakeNote(mark, finding.text());
    }
}
