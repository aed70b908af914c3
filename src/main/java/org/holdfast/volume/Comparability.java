package org.holdfast.volume;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.volume.Acquisition.Known;

/**
 * Whether HU of a later exam may be held against those of the reference exam (measurement definition, section 1).
 *
 * <p>Another tube voltage, kernel or monoenergetic energy forbids it: the same bone read 872, 670, 474 and 402 HU at
 * 80 kV, 120 kV, 150 kV with tin filter and 130 keV (BMC Medical Imaging 2021, doi 10.1186/s12880-021-00554-y). So does
 * metal artefact reduction on one side only, which changes HU exactly beside the implant, and a cone-beam volume on
 * either side. Everything else is a caution. What is not known on a side is said, as a caution too: it is unknown, not
 * different.
 */
public final class Comparability {

    /** What follows from a difference. */
    public enum Effect {
        /** No change map, no joined line and no difference of HU-based numbers between the two exams. */
        NO_HU_COMPARISON,
        /** HU-based numbers may be compared, and the difference is told beside them. */
        CAUTION
    }

    /**
     * One way in which two exams were made differently, or may have been.
     *
     * @param field what differs, as in a results document, such as {@code kvp}
     * @param name the same in words, such as "Tube voltage"
     * @param referenceValue value of the reference exam, or {@link #UNKNOWN}
     * @param followUpValue value of the later exam, or {@link #UNKNOWN}
     * @param effect what follows from it
     * @param sentence the cause in words for a reader
     */
    public record Difference(
            String field, String name, String referenceValue, String followUpValue, Effect effect, String sentence) {
        public Difference {
            Objects.requireNonNull(field, "field");
            Objects.requireNonNull(name, "name");
            Objects.requireNonNull(referenceValue, "referenceValue");
            Objects.requireNonNull(followUpValue, "followUpValue");
            Objects.requireNonNull(effect, "effect");
            Objects.requireNonNull(sentence, "sentence");
        }

        /** Whether a side does not say the value, so that the two may as well be equal. */
        public boolean isUnknown() {
            return referenceValue.equals(UNKNOWN) || followUpValue.equals(UNKNOWN);
        }
    }

    /** Stands for a value that the files do not give. */
    public static final String UNKNOWN = "unknown";

    /** Written voltages and energies are whole numbers; less than this is the same. */
    private static final double SAME_VOLTAGE = 0.5;
    /** Lengths within this share of each other count as the same. */
    private static final double SAME_LENGTH = 0.01;
    /** Noise within this share of each other counts as the same: what it varies from region to region. */
    private static final double SAME_NOISE = 0.2;

    private static final String CONSEQUENCE =
            "no change map, no joined line and no difference of HU-based numbers between them";

    private final Acquisition reference;
    private final Acquisition followUp;
    private final List<Difference> found = new ArrayList<>();

    private Comparability(Acquisition reference, Acquisition followUp) {
        this.reference = reference;
        this.followUp = followUp;
    }

    /**
     * What differs between two scans, or is not known, by acquisition, grid and noise; what forbids a comparison first,
     * else in a fixed order. Empty if they were made alike.
     */
    public static List<Difference> between(ScanFacts reference, ScanFacts followUp) {
        Comparability c = new Comparability(reference.acquisition(), followUp.acquisition());
        c.compareAcquisitions();
        c.compareGrids(reference.grid(), followUp.grid());
        c.compareNoise(reference.noiseSdHu(), followUp.noiseSdHu());
        return c.sorted();
    }

    /** {@link #between(ScanFacts, ScanFacts)} where only the acquisitions are known. */
    public static List<Difference> between(Acquisition reference, Acquisition followUp) {
        Comparability c = new Comparability(reference, followUp);
        c.compareAcquisitions();
        return c.sorted();
    }

    /** Whether nothing in the list forbids a comparison of HU-based numbers. */
    public static boolean allowsHuComparison(List<Difference> differences) {
        return differences.stream().noneMatch(d -> d.effect() == Effect.NO_HU_COMPARISON);
    }

    private List<Difference> sorted() {
        found.sort(Comparator.comparing(Difference::effect));
        return List.copyOf(found);
    }

    private void compareAcquisitions() {
        compareEnergy();
        compareReconstruction();
        compareCircumstances();
    }

    private void compareEnergy() {
        numbers("kvp", "Tube voltage", "kV", reference.kvp(), followUp.kvp(), Effect.NO_HU_COMPARISON, SAME_VOLTAGE);
        OptionalDouble a = reference.monoEnergyKeV();
        OptionalDouble b = followUp.monoEnergyKeV();
        if (a.isPresent() && b.isPresent()) {
            numbers("monoEnergyKeV", "Monoenergetic energy", "keV", a, b, Effect.NO_HU_COMPARISON, SAME_VOLTAGE);
        } else if (a.isPresent() || b.isPresent()) {
            String text = "One exam is a virtual monoenergetic image at " + value(a.isPresent() ? a : b)
                    + " keV, the other is not: HU of the same tissue differ, so " + CONSEQUENCE + ".";
            add("monoEnergyKeV", "Monoenergetic energy", none(a), none(b), Effect.NO_HU_COMPARISON, text);
        }
        if (reference.coneBeam() == Known.YES || followUp.coneBeam() == Known.YES) {
            String text = "A cone-beam volume has no trustworthy HU, so " + CONSEQUENCE + ".";
            add(
                    "coneBeam",
                    "Cone-beam device",
                    word(reference.coneBeam()),
                    word(followUp.coneBeam()),
                    Effect.NO_HU_COMPARISON,
                    text);
        } else {
            known("coneBeam", "Cone-beam device", reference.coneBeam(), followUp.coneBeam(), Effect.CAUTION);
        }
    }

    private void compareReconstruction() {
        texts("kernel", "Kernel", reference.kernel(), followUp.kernel(), Effect.NO_HU_COMPARISON);
        String a = tidy(reference.reconstruction());
        String b = tidy(followUp.reconstruction());
        if (!a.equalsIgnoreCase(b)) {
            differs("reconstruction", "Iterative or learned reconstruction", none(a), none(b), Effect.CAUTION);
        }
        known(
                "artefactReduction",
                "Metal artefact reduction",
                reference.artefactReduction(),
                followUp.artefactReduction(),
                Effect.NO_HU_COMPARISON);
    }

    private void compareGrids(VolumeGrid a, VolumeGrid b) {
        lengths("pitchMm", "Distance between slices", a.pitchMm(), b.pitchMm());
        boolean same = isNear(a.rowSpacingMm(), b.rowSpacingMm(), SAME_LENGTH * a.rowSpacingMm())
                && isNear(a.columnSpacingMm(), b.columnSpacingMm(), SAME_LENGTH * a.columnSpacingMm());
        if (!same) {
            differs("pixelSpacingMm", "Pixel spacing", spacing(a), spacing(b), Effect.CAUTION);
        }
    }

    private void compareNoise(OptionalDouble a, OptionalDouble b) {
        double tolerance = SAME_NOISE * Math.max(a.orElse(0), b.orElse(0));
        numbers("noiseSdHu", "Noise", "HU", a, b, Effect.CAUTION, tolerance);
    }

    private void compareCircumstances() {
        lengths("sliceThicknessMm", "Slice thickness", reference.sliceThicknessMm(), followUp.sliceThicknessMm());
        lengths("fieldOfViewMm", "Field of view", reference.fieldOfViewMm(), followUp.fieldOfViewMm());
        known("contrastAgent", "Contrast agent", reference.contrastAgent(), followUp.contrastAgent(), Effect.CAUTION);
        texts("detector", "Detector", reference.detector(), followUp.detector(), Effect.CAUTION);
        texts("scannerModel", "Scanner", reference.scannerModel(), followUp.scannerModel(), Effect.CAUTION);
        texts("posture", "Posture", reference.posture(), followUp.posture(), Effect.CAUTION);
        String a = loss(reference);
        String b = loss(followUp);
        if (!a.equals(b)) {
            differs("lossy", "Compression with loss", a, b, Effect.CAUTION);
        }
    }

    private void lengths(String field, String name, OptionalDouble a, OptionalDouble b) {
        double tolerance = SAME_LENGTH * Math.max(a.orElse(0), b.orElse(0));
        numbers(field, name, "mm", a, b, Effect.CAUTION, tolerance);
    }

    private void numbers(
            String field,
            String name,
            String unit,
            OptionalDouble a,
            OptionalDouble b,
            Effect effect,
            double tolerance) {
        Optional<String> first = a.isPresent() ? Optional.of(value(a) + " " + unit) : Optional.empty();
        Optional<String> second = b.isPresent() ? Optional.of(value(b) + " " + unit) : Optional.empty();
        if (first.isEmpty() || second.isEmpty()) {
            notKnown(field, name, first, second, effect);
        } else if (!isNear(a.getAsDouble(), b.getAsDouble(), tolerance)) {
            differs(field, name, first.get(), second.get(), effect);
        }
    }

    private void texts(String field, String name, String a, String b, Effect effect) {
        Optional<String> first = Optional.of(tidy(a)).filter(text -> !text.isEmpty());
        Optional<String> second = Optional.of(tidy(b)).filter(text -> !text.isEmpty());
        if (first.isEmpty() || second.isEmpty()) {
            notKnown(field, name, first, second, effect);
        } else if (!first.get().equalsIgnoreCase(second.get())) {
            differs(field, name, first.get(), second.get(), effect);
        }
    }

    private void known(String field, String name, Known a, Known b, Effect effect) {
        Optional<String> first = Optional.of(a).filter(k -> k != Known.UNKNOWN).map(Comparability::word);
        Optional<String> second = Optional.of(b).filter(k -> k != Known.UNKNOWN).map(Comparability::word);
        if (first.isEmpty() || second.isEmpty()) {
            notKnown(field, name, first, second, effect);
        } else if (a != b) {
            differs(field, name, first.get(), second.get(), effect);
        }
    }

    private void differs(String field, String name, String a, String b, Effect effect) {
        String consequence = effect == Effect.CAUTION
                ? "part of a change in HU may come from it."
                : "HU of the same tissue differ, so " + CONSEQUENCE + ".";
        String text = name + ": " + a + " on the reference exam, " + b + " on this one; " + consequence;
        add(field, name, a, b, effect, text);
    }

    /** What neither exam gives is told only where a difference would forbid the comparison. */
    private void notKnown(String field, String name, Optional<String> a, Optional<String> b, Effect ifDifferent) {
        if (a.isEmpty() && b.isEmpty() && ifDifferent == Effect.CAUTION) {
            return;
        }
        String where = a.isPresent() ? "on this exam" : b.isPresent() ? "on the reference exam" : "on either exam";
        String text = name + " is not known " + where + "; whether it was the same cannot be said.";
        add(field, name, a.orElse(UNKNOWN), b.orElse(UNKNOWN), Effect.CAUTION, text);
    }

    private void add(String field, String name, String a, String b, Effect effect, String text) {
        found.add(new Difference(field, name, a, b, effect, text));
    }

    private static boolean isNear(double a, double b, double tolerance) {
        return Math.abs(a - b) <= tolerance;
    }

    private static String tidy(String text) {
        return text.strip().replaceAll("\\s+", " ");
    }

    private static String none(String text) {
        return text.isEmpty() ? "none named" : text;
    }

    private static String none(OptionalDouble energy) {
        return energy.isPresent() ? value(energy) + " keV" : "none";
    }

    private static String loss(Acquisition a) {
        return a.lossy().map(LossyCompression::words).orElse("none");
    }

    private static String word(Known known) {
        return known == Known.UNKNOWN ? UNKNOWN : known.name().toLowerCase(Locale.ROOT);
    }

    private static String spacing(VolumeGrid grid) {
        return number(grid.rowSpacingMm()) + " × " + number(grid.columnSpacingMm()) + " mm";
    }

    private static String value(OptionalDouble value) {
        return number(value.getAsDouble());
    }

    /** At most three decimals, without trailing zeros. */
    private static String number(double value) {
        String text = String.format(Locale.ROOT, "%.3f", value);
        return text.replaceAll("\\.?0+$", "");
    }
}
