package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.holdfast.app.IntakeExam;
import org.holdfast.app.IntakePatient;
import org.holdfast.app.SeriesRole;
import org.holdfast.app.TakeInPlan;
import org.holdfast.desktop.state.Words;
import org.holdfast.volume.Acquisition.Known;
import org.holdfast.volume.Comparability;
import org.holdfast.volume.ScanFacts;

/** Whether the measured series of all exams were made alike, attribute by attribute. Stateless. */
public final class ComparisonRows {

    private static final String NOT_SAID = "not said";

    /** What a row means. */
    public enum State {
        ALIKE,
        /** To be kept in mind. */
        CAUTION,
        /** HU of these exams are not compared. */
        NOT_COMPARED
    }

    /**
     * One attribute.
     *
     * @param name such as "Tube voltage"
     * @param value such as "100 kV at 3 mo, else 120 kV"
     * @param state whether the exams are alike in it
     * @param why what follows, in sentences; empty text if they are alike
     */
    public record Row(String name, String value, State state, String why) {}

    /** An exam by its label and how its measured series was made. */
    private record Measured(String label, ScanFacts scan) {}

    private ComparisonRows() {}

    /** The rows; none while fewer than two exams are measured. */
    public static List<Row> of(IntakePatient patient, TakeInPlan plan) {
        List<Measured> measured = measured(patient, plan);
        if (measured.size() < 2) {
            return List.of();
        }
        Map<String, List<Comparability.Difference>> byField = new LinkedHashMap<>();
        for (Measured later : measured.subList(1, measured.size())) {
            for (Comparability.Difference each :
                    Comparability.between(measured.get(0).scan(), later.scan())) {
                byField.computeIfAbsent(each.field(), field -> new ArrayList<>())
                        .add(each);
            }
        }
        List<Row> rows = new ArrayList<>();
        rows.add(
                row("Tube voltage", "kvp", measured, s -> number(s.acquisition().kvp(), 0, "kV"), byField));
        rows.add(row("Kernel", "kernel", measured, s -> said(s.acquisition().kernel()), byField));
        rows.add(row(
                "Distance of slices", "pitchMm", measured, s -> nominal(s.grid().pitchMm()), byField));
        rows.add(row("Slice thickness", "sliceThicknessMm", measured, ComparisonRows::thickness, byField));
        rows.add(row("Pixel", "pixelSpacingMm", measured, ComparisonRows::pixel, byField));
        rows.add(row("Artefact reduction", "artefactReduction", measured, ComparisonRows::reduction, byField));
        rows.add(row(
                "Scanner", "scannerModel", measured, s -> said(s.acquisition().scannerModel()), byField));
        byField.forEach((field, differences) -> rows.add(other(differences)));
        return rows;
    }

    private static List<Measured> measured(IntakePatient patient, TakeInPlan plan) {
        return patient.exams().stream()
                .filter(exam -> plan.dateOf(exam).isPresent())
                .sorted(Comparator.comparing(exam -> plan.dateOf(exam).orElseThrow()))
                .flatMap(exam -> exam.series().stream()
                        .filter(series -> plan.roleOf(series) == SeriesRole.MEASURE)
                        .flatMap(series -> series.scan().stream())
                        .map(scan -> new Measured(name(exam, plan), scan)))
                .toList();
    }

    private static String name(IntakeExam exam, TakeInPlan plan) {
        String label = plan.labelOf(exam);
        return label.isEmpty() ? plan.dateOf(exam).orElseThrow().toString() : label;
    }

    private static Row row(
            String name,
            String field,
            List<Measured> measured,
            Function<ScanFacts, String> value,
            Map<String, List<Comparability.Difference>> byField) {
        List<Comparability.Difference> differences = byField.remove(field);
        return new Row(name, words(measured, value), state(differences), why(differences));
    }

    private static Row other(List<Comparability.Difference> differences) {
        Comparability.Difference first = differences.get(0);
        String value = first.isUnknown() ? "not said in all" : "not the same in all";
        return new Row(first.name(), value, state(differences), why(differences));
    }

    /** The value of most exams, and which have another. */
    private static String words(List<Measured> measured, Function<ScanFacts, String> value) {
        Map<String, List<String>> byValue = measured.stream()
                .collect(Collectors.groupingBy(
                        m -> value.apply(m.scan()),
                        LinkedHashMap::new,
                        Collectors.mapping(Measured::label, Collectors.toList())));
        if (byValue.size() == 1) {
            return byValue.keySet().iterator().next() + " in all";
        }
        String most = byValue.entrySet().stream()
                .max(Comparator.comparingInt(each -> each.getValue().size()))
                .orElseThrow()
                .getKey();
        String others = byValue.entrySet().stream()
                .filter(each -> !each.getKey().equals(most))
                .map(each -> each.getKey() + " at " + String.join(", ", each.getValue()))
                .collect(Collectors.joining(", "));
        return others + ", else " + most;
    }

    private static State state(List<Comparability.Difference> differences) {
        if (differences == null) {
            return State.ALIKE;
        }
        return Comparability.allowsHuComparison(differences) ? State.CAUTION : State.NOT_COMPARED;
    }

    private static String why(List<Comparability.Difference> differences) {
        return differences == null
                ? ""
                : differences.stream()
                        .map(Comparability.Difference::sentence)
                        .distinct()
                        .collect(Collectors.joining("\n"));
    }

    private static String number(OptionalDouble value, int decimals, String unit) {
        return value.isPresent() ? Words.quantity(value.getAsDouble(), decimals, unit) : NOT_SAID;
    }

    private static String nominal(OptionalDouble mm) {
        return mm.isPresent() ? Words.nominal(mm.getAsDouble(), "mm") : NOT_SAID;
    }

    private static String thickness(ScanFacts scan) {
        return nominal(scan.acquisition().sliceThicknessMm());
    }

    private static String pixel(ScanFacts scan) {
        return Words.quantity(scan.grid().columnSpacingMm(), 2, "mm");
    }

    private static String reduction(ScanFacts scan) {
        Known known = scan.acquisition().artefactReduction();
        return known == Known.UNKNOWN ? "no sign of it" : known == Known.YES ? "yes" : "none";
    }

    private static String said(String text) {
        return text.isBlank() ? NOT_SAID : text.strip();
    }
}
