package org.holdfast.volume;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.volume.Acquisition.Known;

/**
 * What may be compared between two exams. Different tube voltage, monoenergetic energy or kernel forbid every difference
 * of HU-based numbers: the same bone read 872, 670, 474 and 402 HU at 80 kV, 120 kV, 150 kV with tin filter and 130 keV
 * (BMC Med Imaging 2021, doi 10.1186/s12880-021-00554-y, table 3). Other differences are told with their cause. What one
 * side does not say is told too, since unknown is not equal. Stateless.
 */
public final class Comparability {

    /** What a difference means for comparing. */
    public enum Effect {
        /** No change map, no joined line, no difference of HU-based numbers. */
        NO_HU_COMPARISON,
        /** May be compared with this in mind. */
        CAUTION
    }

    /**
     * One difference between two exams.
     *
     * @param field what differs
     * @param referenceValue value on the reference exam, in words
     * @param followUpValue value on the other exam, in words
     * @param effect what it means
     * @param sentence the same for a person
     */
    public record Difference(
            String field, String referenceValue, String followUpValue, Effect effect, String sentence) {}

    /** Slice thickness or field of view that differ by more than this share are told. */
    private static final double LENGTH_SHARE = 0.1;
    /** Tube voltages and energies closer than this are the same. */
    private static final double ENERGY_TOLERANCE = 0.5;

    private static final String UNKNOWN = "not said";

    private final List<Difference> differences = new ArrayList<>();

    private Comparability() {}

    /** All differences of a follow-up from the reference exam, those that forbid a comparison first. */
    public static List<Difference> between(Acquisition reference, Acquisition followUp) {
        Comparability c = new Comparability();
        c.number("tube voltage", "kV", reference.kvp(), followUp.kvp(), ENERGY_TOLERANCE, Effect.NO_HU_COMPARISON);
        c.energy(reference.monoEnergyKeV(), followUp.monoEnergyKeV());
        c.words("kernel", reference.kernel(), followUp.kernel(), Effect.NO_HU_COMPARISON);
        c.known(
                "artefact reduction",
                reference.artefactReduction(),
                followUp.artefactReduction(),
                Effect.NO_HU_COMPARISON);
        c.words("reconstruction", reference.reconstruction(), followUp.reconstruction(), Effect.CAUTION);
        c.length("slice thickness", reference.sliceThicknessMm(), followUp.sliceThicknessMm());
        c.length("field of view", reference.fieldOfViewMm(), followUp.fieldOfViewMm());
        c.known("contrast agent", reference.contrastAgent(), followUp.contrastAgent(), Effect.CAUTION);
        c.words("detector", reference.detector(), followUp.detector(), Effect.CAUTION);
        c.words("scanner", reference.scannerModel(), followUp.scannerModel(), Effect.CAUTION);
        c.words("posture", reference.posture(), followUp.posture(), Effect.CAUTION);
        c.differences.sort(java.util.Comparator.comparing(Difference::effect));
        return List.copyOf(c.differences);
    }

    /** Whether HU-based numbers of the two exams may be set against each other. */
    public static boolean allowsHuComparison(List<Difference> differences) {
        return differences.stream().noneMatch(d -> d.effect() == Effect.NO_HU_COMPARISON);
    }

    /**
     * What one side leaves unsaid where the other speaks is a caution, not a refusal: it is unknown, not different.
     */
    private void number(
            String field, String unit, OptionalDouble a, OptionalDouble b, double tolerance, Effect effect) {
        if (a.isPresent() && b.isPresent()) {
            if (Math.abs(a.getAsDouble() - b.getAsDouble()) > tolerance) {
                add(field, text(a, unit), text(b, unit), effect);
            }
        } else if (a.isPresent() || b.isPresent()) {
            add(field, text(a, unit), text(b, unit), Effect.CAUTION);
        }
    }

    private void length(String field, OptionalDouble a, OptionalDouble b) {
        double larger = Math.max(a.orElse(0), b.orElse(0));
        number(field, "mm", a, b, LENGTH_SHARE * larger, Effect.CAUTION);
    }

    /** An image without an energy is a usual one: energy on one side only is a difference, not something unsaid. */
    private void energy(OptionalDouble a, OptionalDouble b) {
        boolean one = a.isPresent() != b.isPresent();
        if (one || a.isPresent() && Math.abs(a.getAsDouble() - b.getAsDouble()) > ENERGY_TOLERANCE) {
            add(
                    "monoenergetic energy",
                    a.isPresent() ? text(a, "keV") : "usual spectrum",
                    b.isPresent() ? text(b, "keV") : "usual spectrum",
                    Effect.NO_HU_COMPARISON);
        }
    }

    private void words(String field, String a, String b, Effect effect) {
        String left = a.strip();
        String right = b.strip();
        if (left.equalsIgnoreCase(right)) {
            return;
        }
        boolean unsaid = left.isEmpty() || right.isEmpty();
        add(field, said(left), said(right), unsaid ? Effect.CAUTION : effect);
    }

    private void known(String field, Known a, Known b, Effect effect) {
        if (a != b) {
            boolean unsaid = a == Known.UNKNOWN || b == Known.UNKNOWN;
            add(field, word(a), word(b), unsaid ? Effect.CAUTION : effect);
        }
    }

    private void add(String field, String a, String b, Effect effect) {
        String consequence = effect == Effect.NO_HU_COMPARISON
                ? "; HU-based numbers of the two exams must not be set against each other."
                : "; compare with this in mind.";
        String sentence = Optional.of(field)
                        .map(f -> Character.toUpperCase(f.charAt(0)) + f.substring(1))
                        .orElseThrow()
                + " differs: " + a + " on the reference exam, " + b + " here" + consequence;
        differences.add(new Difference(field, a, b, effect, sentence));
    }

    private static String said(String text) {
        return text.isEmpty() ? UNKNOWN : text;
    }

    private static String word(Known known) {
        return known == Known.UNKNOWN ? UNKNOWN : known.name().toLowerCase(Locale.ROOT);
    }

    private static String text(OptionalDouble value, String unit) {
        if (value.isEmpty()) {
            return UNKNOWN;
        }
        double number = value.getAsDouble();
        String digits = number == Math.rint(number)
                ? String.format(Locale.ROOT, "%.0f", number)
                : String.format(Locale.ROOT, "%.2f", number);
        return digits + " " + unit;
    }
}
