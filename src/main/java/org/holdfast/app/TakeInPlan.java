package org.holdfast.app;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * What a person decided about the exams that were found: where they belong, and what becomes of each series. What they did
 * not say stays as it was proposed. Immutable.
 *
 * @param code the subject's study code; empty text until it is given
 * @param surgery day of the operation; empty until it is given
 * @param way whether images are copied
 * @param folder the subject's folder
 * @param dates days given for exams whose files say none, by the exam's id
 * @param labels labels given in place of those made from the days, by the exam's id
 * @param roles roles chosen in place of the proposed ones, by the series' id
 */
public record TakeInPlan(
        String code,
        Optional<LocalDate> surgery,
        Way way,
        Path folder,
        Map<String, LocalDate> dates,
        Map<String, String> labels,
        Map<String, SeriesRole> roles) {

    /** What happens to the images. */
    public enum Way {
        /** They are copied into the subject's folder without what tells who the patient is. */
        COPY,
        /** They stay where and as they are; the subject's document says where. */
        REFER
    }

    public TakeInPlan {
        Objects.requireNonNull(code, "code");
        Objects.requireNonNull(surgery, "surgery");
        Objects.requireNonNull(way, "way");
        Objects.requireNonNull(folder, "folder");
        dates = Map.copyOf(dates);
        labels = Map.copyOf(labels);
        roles = Map.copyOf(roles);
    }

    /** Nothing is decided yet. */
    public static TakeInPlan undecided(Path folder) {
        return new TakeInPlan("", Optional.empty(), Way.COPY, folder, Map.of(), Map.of(), Map.of());
    }

    /** The role of a series: as chosen, else as proposed. */
    public SeriesRole roleOf(FoundSeries series) {
        return roles.getOrDefault(series.id(), series.proposed());
    }

    /** Whether anything of an exam is taken in. */
    public boolean takes(FoundExam exam) {
        return exam.series().stream().anyMatch(series -> roleOf(series) != SeriesRole.LEAVE_OUT);
    }

    /** The day of an exam: by its files, else as given. */
    public Optional<LocalDate> dateOf(FoundExam exam) {
        return exam.date().or(() -> Optional.ofNullable(dates.get(exam.id())));
    }

    /** Days from the operation to an exam; empty while one of the two is not known. */
    public OptionalInt daysOf(FoundExam exam) {
        Optional<LocalDate> date = dateOf(exam);
        return date.isPresent() && surgery.isPresent()
                ? OptionalInt.of(ExamLabel.daysSince(surgery.get(), date.get()))
                : OptionalInt.empty();
    }

    /** The label of an exam: as given, else made from its day; empty text while neither is there. */
    public String labelOf(FoundExam exam) {
        String given = labels.get(exam.id());
        if (given != null) {
            return given;
        }
        OptionalInt days = daysOf(exam);
        return days.isPresent() ? ExamLabel.of(days) : "";
    }

    /** With another code. */
    public TakeInPlan withCode(String other) {
        return new TakeInPlan(other, surgery, way, folder, dates, labels, roles);
    }

    /** With another day of the operation, or none. */
    public TakeInPlan withSurgery(Optional<LocalDate> other) {
        return new TakeInPlan(code, other, way, folder, dates, labels, roles);
    }

    /** With images copied, or not. */
    public TakeInPlan withWay(Way other) {
        return new TakeInPlan(code, surgery, other, folder, dates, labels, roles);
    }

    /** Into another folder. */
    public TakeInPlan withFolder(Path other) {
        return new TakeInPlan(code, surgery, way, other, dates, labels, roles);
    }

    /** With a day for an exam, or none. */
    public TakeInPlan withDate(String examId, Optional<LocalDate> date) {
        return new TakeInPlan(code, surgery, way, folder, changed(dates, examId, date), labels, roles);
    }

    /** With a label for an exam; the one made from its day for none. */
    public TakeInPlan withLabel(String examId, Optional<String> label) {
        return new TakeInPlan(code, surgery, way, folder, dates, changed(labels, examId, label), roles);
    }

    /**
     * With a role for a series. An exam is measured on one series at most: another one that was measured becomes one that
     * is viewed.
     */
    public TakeInPlan withRole(FoundExam exam, FoundSeries series, SeriesRole role) {
        Map<String, SeriesRole> changed = new HashMap<>(roles);
        if (role == SeriesRole.MEASURE && series.kind() == FoundSeries.Kind.VOLUME) {
            exam.series().stream()
                    .filter(other -> other.kind() == FoundSeries.Kind.VOLUME && roleOf(other) == SeriesRole.MEASURE)
                    .forEach(other -> changed.put(other.id(), SeriesRole.VIEW));
        }
        changed.put(series.id(), role);
        return new TakeInPlan(code, surgery, way, folder, dates, labels, changed);
    }

    /** With nothing of an exam. */
    public TakeInPlan without(FoundExam exam) {
        Map<String, SeriesRole> changed = new HashMap<>(roles);
        exam.series().forEach(series -> changed.put(series.id(), SeriesRole.LEAVE_OUT));
        return new TakeInPlan(code, surgery, way, folder, dates, labels, changed);
    }

    /** With what is proposed for the series of an exam. */
    public TakeInPlan asProposed(FoundExam exam) {
        Map<String, SeriesRole> changed = new HashMap<>(roles);
        exam.series().forEach(series -> changed.remove(series.id()));
        return new TakeInPlan(code, surgery, way, folder, dates, labels, changed);
    }

    private static <T> Map<String, T> changed(Map<String, T> map, String key, Optional<T> value) {
        Map<String, T> changed = new HashMap<>(map);
        changed.remove(key);
        value.ifPresent(present -> changed.put(key, present));
        return changed;
    }
}
