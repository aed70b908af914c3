package org.holdfast.app;

import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * What a person decided about the exams that were found: where they belong, and what becomes of each series. What they did
 * not say stays as it was proposed. Immutable.
 *
 * @param target the subject's folder
 * @param code code for a new subject; empty text until it is given
 * @param operation day of the operation of a new subject; empty until it is given
 * @param way whether images are copied
 * @param dates days given for exams whose files say none, by the exam's id
 * @param labels labels given in place of those made from the days, by the exam's id
 * @param roles roles chosen in place of the proposed ones, by the series' id
 */
public record TakeInPlan(
        TakeInTarget target,
        String code,
        Optional<LocalDate> operation,
        Way way,
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
        Objects.requireNonNull(target, "target");
        Objects.requireNonNull(code, "code");
        Objects.requireNonNull(operation, "operation");
        Objects.requireNonNull(way, "way");
        dates = Map.copyOf(dates);
        labels = Map.copyOf(labels);
        roles = Map.copyOf(roles);
    }

    /** Nothing is decided yet. */
    public static TakeInPlan undecided(TakeInTarget target) {
        return new TakeInPlan(target, "", Optional.empty(), Way.COPY, Map.of(), Map.of(), Map.of());
    }

    /** The subject's code: that of the subject which is there, else as given. */
    public String subjectCode() {
        return target.subject().map(TakeInTarget.Subject::code).orElse(code);
    }

    /** The day of the operation: that of the subject which is there, else as given. */
    public Optional<LocalDate> surgery() {
        return target.subject().map(TakeInTarget.Subject::surgery).or(() -> operation);
    }

    /** The role of a series: left out if the subject has it already, else as chosen, else as proposed. */
    public SeriesRole roleOf(IntakeSeries series) {
        return target.has(series) ? SeriesRole.LEAVE_OUT : roles.getOrDefault(series.id(), series.proposed());
    }

    /** Whether anything of an exam is taken in. */
    public boolean takes(IntakeExam exam) {
        return exam.series().stream().anyMatch(series -> roleOf(series) != SeriesRole.LEAVE_OUT);
    }

    /** The exams of which something is taken in. */
    public List<IntakeExam> taken(IntakePatient patient) {
        return patient.exams().stream().filter(this::takes).toList();
    }

    /** The day of an exam: by its files, else as given. */
    public Optional<LocalDate> dateOf(IntakeExam exam) {
        return exam.date().or(() -> Optional.ofNullable(dates.get(exam.id())));
    }

    /** Days from the operation to an exam; empty while one of the two is not known. */
    public OptionalInt daysOf(IntakeExam exam) {
        Optional<LocalDate> date = dateOf(exam);
        return date.isPresent() && surgery().isPresent()
                ? OptionalInt.of(ExamLabel.daysSince(surgery().get(), date.get()))
                : OptionalInt.empty();
    }

    /** The label of an exam: as given, else made from its day; empty text while neither is there. */
    public String labelOf(IntakeExam exam) {
        String given = labels.get(exam.id());
        if (given != null) {
            return given;
        }
        OptionalInt days = daysOf(exam);
        return days.isPresent() ? ExamLabel.of(days) : "";
    }

    /** Into another folder, or the same as it is now. */
    public TakeInPlan withTarget(TakeInTarget other) {
        return new TakeInPlan(other, code, operation, way, dates, labels, roles);
    }

    /** With another code for a new subject. */
    public TakeInPlan withCode(String other) {
        return new TakeInPlan(target, other, operation, way, dates, labels, roles);
    }

    /** With another day of the operation for a new subject, or none. */
    public TakeInPlan withOperation(Optional<LocalDate> other) {
        return new TakeInPlan(target, code, other, way, dates, labels, roles);
    }

    /** With images copied, or not. */
    public TakeInPlan withWay(Way other) {
        return new TakeInPlan(target, code, operation, other, dates, labels, roles);
    }

    /** With a day for an exam, or none. */
    public TakeInPlan withDate(String examId, Optional<LocalDate> date) {
        return new TakeInPlan(target, code, operation, way, changed(dates, examId, date), labels, roles);
    }

    /** With a label for an exam; the one made from its day for none. */
    public TakeInPlan withLabel(String examId, Optional<String> label) {
        return new TakeInPlan(target, code, operation, way, dates, changed(labels, examId, label), roles);
    }

    /**
     * With a role for a series. An exam is measured on one stack at most: another one that was measured becomes one that
     * is viewed.
     */
    public TakeInPlan withRole(IntakeExam exam, IntakeSeries series, SeriesRole role) {
        Map<String, SeriesRole> changed = new HashMap<>(roles);
        if (role == SeriesRole.MEASURE) {
            exam.series().stream()
                    .filter(other -> roleOf(other) == SeriesRole.MEASURE)
                    .forEach(other -> changed.put(other.id(), SeriesRole.VIEW));
        }
        changed.put(series.id(), role);
        return withRoles(changed);
    }

    /** With nothing of an exam. */
    public TakeInPlan without(IntakeExam exam) {
        Map<String, SeriesRole> changed = new HashMap<>(roles);
        exam.series().forEach(series -> changed.put(series.id(), SeriesRole.LEAVE_OUT));
        return withRoles(changed);
    }

    /** With what is proposed for the series of an exam. */
    public TakeInPlan asProposed(IntakeExam exam) {
        Map<String, SeriesRole> changed = new HashMap<>(roles);
        exam.series().forEach(series -> changed.remove(series.id()));
        return withRoles(changed);
    }

    private TakeInPlan withRoles(Map<String, SeriesRole> other) {
        return new TakeInPlan(target, code, operation, way, dates, labels, other);
    }

    private static <T> Map<String, T> changed(Map<String, T> map, String key, Optional<T> value) {
        Map<String, T> changed = new HashMap<>(map);
        changed.remove(key);
        value.ifPresent(present -> changed.put(key, present));
        return changed;
    }
}
