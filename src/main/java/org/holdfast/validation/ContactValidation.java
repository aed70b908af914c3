package org.holdfast.validation;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.construct.Construct;
import org.holdfast.construct.Material;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.measure.ContactByThreshold;
import org.holdfast.measure.ExamScan;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.PointSpreadEstimate;
import org.holdfast.measure.SampleReading;
import org.holdfast.measure.ThresholdContact;
import org.holdfast.measure.Tissue;
import org.holdfast.phantom.HuScale;
import org.holdfast.phantom.PointSpread;
import org.holdfast.phantom.ScanSimulator;
import org.holdfast.progress.Progress;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.HuVolume;

/**
 * Contact by threshold against the truth of simulated faces (analytic phantom).
 *
 * <p>Truth of a sample: contact if its gap is under the smallest gap that the estimator says it can see; samples within
 * 0.2 mm of that limit are counted apart. A scene's difference is the estimated minus the true contact fraction over the
 * rest of its assessable samples.
 */
public final class ContactValidation {

    /** Samples whose gap is so near the limit are counted apart, mm. */
    static final double APART_MM = 0.2;

    // Source: measurement definitions, section 8, contact by threshold, phantom (a): bias 1 point, limits ± 3 points.
    private static final ValidationRow.Goal GOAL = new ValidationRow.Goal(0.01, 0.03);

    private static final String PHANTOM = "analytic";
    /** Seeds of one draw of scenes lie so far from those of the next. */
    private static final long DRAW_STRIDE = 50_000;

    private static final double[] CONTACT_CHANCES = {0, 0.2, 0.4, 0.6, 0.8, 1};

    private ContactValidation() {}

    /**
     * How much is run.
     *
     * @param goalScenes scenes of the goal set with a porous face
     * @param solidScenes scenes of the goal set with a solid titanium face, extended scale
     * @param smallAreaScenes scenes of the goal set with small areas
     * @param stressScenes scenes of the stress set
     * @param narrowGapScenes scenes with gaps that no threshold can see
     * @param fitScenes scenes of the goal set with a porous face that are measured by fit
     */
    record Extent(
            int goalScenes,
            int solidScenes,
            int smallAreaScenes,
            int stressScenes,
            int narrowGapScenes,
            int fitScenes) {}

    /** Every scene. */
    public static List<ValidationRow> full(int draw, Progress progress) {
        return run(new Extent(144, 36, 12, 18, 24, 48), draw, progress);
    }

    /** A share of the scenes, for a test suite. */
    public static List<ValidationRow> quick(int draw, Progress progress) {
        return run(new Extent(30, 10, 4, 4, 6, 12), draw, progress);
    }

    static List<ValidationRow> run(Extent extent, int draw, Progress progress) {
        long shift = DRAW_STRIDE * draw;
        List<ValidationRow> rows = new ArrayList<>();
        rows.addAll(agreement(
                new Series(
                        "contact by threshold (goal set)",
                        Material.TITANIUM_POROUS,
                        ContactScene.Conditions.GOAL_SET,
                        ContactScene.Gaps.LARGE_AREAS,
                        shift + 1_000,
                        Optional.of(GOAL)),
                extent.goalScenes(),
                progress.part(0, 0.38)));
        rows.addAll(agreement(
                new Series(
                        "contact by threshold (goal set)",
                        Material.TITANIUM_SOLID,
                        ContactScene.Conditions.GOAL_SET,
                        ContactScene.Gaps.LARGE_AREAS,
                        shift + 2_000,
                        Optional.of(GOAL)),
                extent.solidScenes(),
                progress.part(0.38, 0.5)));
        rows.addAll(agreement(
                new Series(
                        "contact by threshold (areas of 6 mm)",
                        Material.TITANIUM_POROUS,
                        ContactScene.Conditions.GOAL_SET,
                        ContactScene.Gaps.SMALL_AREAS,
                        shift + 3_000,
                        Optional.empty()),
                extent.smallAreaScenes(),
                progress.part(0.5, 0.55)));
        rows.addAll(agreement(
                new Series(
                        "contact by threshold (stress set)",
                        Material.TITANIUM_POROUS,
                        ContactScene.Conditions.STRESS_SET,
                        ContactScene.Gaps.LARGE_AREAS,
                        shift + 4_000,
                        Optional.empty()),
                extent.stressScenes(),
                progress.part(0.55, 0.65)));
        rows.add(overstatement(extent.narrowGapScenes(), shift, progress.part(0.65, 0.7)));
        rows.addAll(ContactFitRows.of(extent.fitScenes(), shift, progress.part(0.7, 1)));
        return rows;
    }

    /** One row's scenes and what it is held to. */
    private record Series(
            String name,
            Material material,
            ContactScene.Conditions conditions,
            ContactScene.Gaps gaps,
            long seed,
            Optional<ValidationRow.Goal> goal) {

        ContactScene scene(int n) {
            // On the scale that clips at 3071 HU a solid face has no plateau; porous faces take both scales in turn.
            boolean extended = material == Material.TITANIUM_SOLID || n % 2 == 1;
            return ContactScene.draw(
                    conditions,
                    gaps,
                    material,
                    extended ? HuScale.EXTENDED_30710 : HuScale.CLIPPED_3071,
                    CONTACT_CHANCES[n / 2 % CONTACT_CHANCES.length],
                    seed + n);
        }
    }

    /**
     * The row of a series; scenes in which the limit is stated but hinges on the point spread are put into a row of their
     * own, without goal, as they do not allow a state.
     */
    private static List<ValidationRow> agreement(Series series, int scenes, Progress progress) {
        List<Double> settled = new ArrayList<>();
        List<Double> unsettled = new ArrayList<>();
        int notApplicable = 0;
        for (int n = 0; n < scenes; n++) {
            progress.stopIfCancelled();
            progress.report((double) n / scenes, series.name());
            ContactScene scene = series.scene(n);
            ThresholdContact contact = measure(scene);
            if (contact.fraction().value().isEmpty()) {
                notApplicable++;
            } else {
                differenceOf(scene, contact).ifPresent((contact.isLimitSettled() ? settled : unsettled)::add);
            }
        }
        return List.of(
                row(series.name(), series.material(), settled, notApplicable, series.goal()),
                row(series.name() + ", limit not settled", series.material(), unsettled, 0, Optional.empty()));
    }

    /** How far apparent contact overstates bone that truly touches, where many gaps are too small to be seen. */
    private static ValidationRow overstatement(int scenes, long shift, Progress progress) {
        String name = "apparent minus true contact (gaps under 1.2 mm)";
        List<Double> differences = new ArrayList<>();
        int notApplicable = 0;
        for (int n = 0; n < scenes; n++) {
            progress.stopIfCancelled();
            progress.report((double) n / scenes, name);
            ContactScene scene = ContactScene.draw(
                    ContactScene.Conditions.GOAL_SET,
                    ContactScene.Gaps.NARROW,
                    Material.TITANIUM_POROUS,
                    HuScale.EXTENDED_30710,
                    CONTACT_CHANCES[n % CONTACT_CHANCES.length],
                    shift + 5_000 + n);
            ThresholdContact contact = measure(scene);
            if (contact.fraction().value().isEmpty()) {
                notApplicable++;
            } else {
                differences.add(contact.fraction().value().orElseThrow()
                        - scene.scene().pattern().contactShare());
            }
        }
        return row(name, Material.TITANIUM_POROUS, differences, notApplicable, Optional.empty());
    }

    private static ValidationRow row(
            String name,
            Material material,
            List<Double> differences,
            int notApplicable,
            Optional<ValidationRow.Goal> goal) {
        return ValidationRow.of(
                name,
                PHANTOM,
                material.word().replace('-', ' '),
                differences.stream().mapToDouble(d -> d).toArray(),
                notApplicable,
                goal);
    }

    /** Estimated minus true fraction; empty where every gap of the scene lies so near the limit that it is counted apart. */
    static OptionalDouble differenceOf(ContactScene scene, ThresholdContact contact) {
        double limitMm = contact.smallestVisibleGapMm().value().orElseThrow();
        double seen = 0;
        double truth = 0;
        double area = 0;
        for (SampleReading reading : contact.readings()) {
            double gap = scene.scene()
                    .trueGapMm(reading.sample().uMm(), reading.sample().vMm());
            if (reading.tissue() != Tissue.NOT_ASSESSABLE && Math.abs(gap - limitMm) > APART_MM) {
                area += reading.sample().areaMm2();
                seen += reading.tissue() == Tissue.CONTACT ? reading.sample().areaMm2() : 0;
                truth += gap < limitMm ? reading.sample().areaMm2() : 0;
            }
        }
        return area > 0 ? OptionalDouble.of((seen - truth) / area) : OptionalDouble.empty();
    }

    private static ThresholdContact measure(ContactScene scene) {
        return measure(scene, MeasurementSettings.withDefaults());
    }

    static ThresholdContact measure(ContactScene scene, MeasurementSettings settings) {
        Construct construct = scene.construct();
        return new ContactByThreshold(construct, construct.interfaces().get(0), settings)
                .measureReference(examOf(scene))
                .contact();
    }

    /** The scene's scan, with the point spread that the estimator is told. */
    static ExamScan examOf(ContactScene scene) {
        HuVolume volume = ScanSimulator.scan(scene.scene().scene(), scene.scan(), Progress.NONE);
        PointSpread stated = scene.statedSpread();
        return new ExamScan(
                "scene",
                "1.2.3",
                "00",
                volume,
                Acquisition.unknown(),
                new PointSpreadEstimate(
                        stated.sigmaInPlaneMm(), stated.sigmaAlongTableMm(), PointSpreadEstimate.Source.GIVEN),
                RigidTransform.IDENTITY,
                ExamScan.PoseKind.IDENTITY);
    }
}
