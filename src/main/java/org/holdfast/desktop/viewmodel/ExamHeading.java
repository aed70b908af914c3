package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.holdfast.app.ExamFacts;
import org.holdfast.app.ExamResult;
import org.holdfast.app.FilmExam;
import org.holdfast.app.ReviewExam;
import org.holdfast.desktop.state.Words;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.Comparability;
import org.holdfast.volume.Comparability.Difference;

/**
 * The head of an exam's column. Immutable.
 *
 * @param title offset from surgery
 * @param aside beside the title: what kind of images, where it is no CT; may be empty
 * @param facts day, modality, tube voltage, slice, kernel
 * @param compactFacts day and modality
 * @param warning why its numbers may not be compared with those of the reference exam; empty if they may
 * @param cautions what else differs from the reference exam, one sentence each
 */
public record ExamHeading(
        String title,
        String aside,
        String facts,
        String compactFacts,
        Optional<String> warning,
        List<String> cautions) {

    public ExamHeading {
        cautions = List.copyOf(cautions);
    }

    /**
     * The head of an exam.
     *
     * @param exam as the subject's folder names it
     * @param facts what its files say; empty until they were read
     * @param reference what the reference exam's files say
     * @param result what was measured; empty if nothing was
     * @param pose where the construct lies
     */
    public static ExamHeading of(
            ReviewExam exam,
            Optional<ExamFacts> facts,
            Optional<ExamFacts> reference,
            Optional<ExamResult> result,
            ExamPose pose) {
        OptionalInt days = facts.map(ExamFacts::daysSinceSurgery).orElse(exam.daysSinceSurgery());
        String day = days.isPresent() ? "day " + Words.number(days.getAsInt(), 0) : "undated";
        List<String> words = new ArrayList<>(List.of(day));
        String short2 = day
                + facts.map(f -> f.acquisition().lossy().isPresent() ? " · CT, lossy" : " · CT")
                        .orElse("");
        facts.map(ExamFacts::acquisition).ifPresent(a -> words.addAll(scan(a)));
        List<Difference> differences = result.map(ExamResult::comparability)
                .orElseGet(() -> facts.isPresent()
                                && reference.isPresent()
                                && !facts.get().isReference()
                        ? Comparability.between(
                                reference.get().acquisition(), facts.get().acquisition())
                        : List.of());
        String causes = String.join(
                ", ",
                differences.stream()
                        .filter(d -> d.effect() == Comparability.Effect.NO_HU_COMPARISON)
                        .map(d -> "other " + d.name().toLowerCase(Locale.ROOT))
                        .toList());
        List<String> cautions =
                new ArrayList<>(differences.stream().map(Difference::sentence).toList());
        if (!causes.isEmpty()) {
            words.add(1, causes);
        }
        if (!pose.words().isEmpty()) {
            words.add(1, pose.words());
        }
        if (!pose.detail().isEmpty()) {
            cautions.add(0, pose.detail());
        }
        facts.map(ExamFacts::acquisition)
                .flatMap(Acquisition::lossy)
                .ifPresent(loss -> cautions.add(
                        0,
                        "The images were compressed with loss (" + loss.words()
                                + "): HU may be off, fine detail may be missing or made up."));
        return new ExamHeading(
                title(exam.label()),
                "",
                String.join(" · ", words),
                compact(day, short2, causes, pose),
                causes.isEmpty() ? Optional.empty() : Optional.of(causes),
                cautions);
    }

    /** The head of an exam of radiographs: kind of scale in place of tube voltage. */
    public static ExamHeading of(ReviewExam exam, FilmExam films) {
        OptionalInt days = films.daysSinceSurgery();
        String day = days.isPresent() ? "day " + Words.number(days.getAsInt(), 0) : "undated";
        return new ExamHeading(
                title(exam.label()),
                FilmWords.views(films),
                FilmWords.shortScales(films) + " · " + day,
                FilmWords.shortScales(films),
                Optional.empty(),
                List.of("Scale: " + FilmWords.scales(films) + "."));
    }

    /** In few words: what forbids a comparison first, then a pose that was not found, then the kind of exam. */
    private static String compact(String day, String usual, String causes, ExamPose pose) {
        if (!causes.isEmpty()) {
            return day + " · " + causes;
        }
        return usual.endsWith("lossy")
                        || pose.words().isEmpty()
                        || pose.isSure() && !pose.words().startsWith("registered")
                ? usual
                : pose.isSure() ? pose.words().replace(", residual", "") : day + " · " + pose.words();
    }

    private static String title(String label) {
        return label.equals("surgery") ? "After surgery" : label;
    }

    private static List<String> scan(Acquisition a) {
        List<String> words = new ArrayList<>();
        words.add(a.kvp().isPresent() ? "CT " + Words.quantity(a.kvp().getAsDouble(), 0, "kV") : "CT");
        OptionalDouble slice = a.sliceThicknessMm();
        if (slice.isPresent()) {
            words.add(Words.nominal(slice.getAsDouble(), "mm"));
        }
        if (!a.kernel().isBlank()) {
            words.add(a.kernel());
        }
        if (a.lossy().isPresent()) {
            words.add("lossy");
        }
        return words;
    }
}
