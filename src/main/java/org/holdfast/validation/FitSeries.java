package org.holdfast.validation;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.holdfast.construct.Construct;
import org.holdfast.construct.Material;
import org.holdfast.geometry.PatientVector;
import org.holdfast.measure.ContactByFit;
import org.holdfast.measure.ExamScan;
import org.holdfast.measure.FittedContact;
import org.holdfast.measure.FittedReading;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.SettingsException;
import org.holdfast.measure.SettingsJson;
import org.holdfast.measure.Tissue;
import org.holdfast.phantom.HuScale;
import org.holdfast.phantom.InterfaceScene;
import org.holdfast.phantom.InterfaceSpec;
import org.holdfast.progress.Progress;

/**
 * Scenes of one kind, measured by fit, with what was found against the truth. Samples lie 1 mm apart, so that more scenes
 * fit into the time; each still reads its own column of voxels.
 */
final class FitSeries {

    /** Truths in this range are counted apart for contact, mm (measurement definitions, section 8). */
    private static final double APART_FROM_MM = 0.3;

    private static final double APART_TO_MM = 0.7;
    /** A width is that of a plane front only so far from a step between two widths: column radius and blur, mm. */
    static final double FROM_STEP_MM = 1.5;

    /** Half the width of an even distribution whose standard deviation is that of the settings, 20 HU. */
    private static final double FLUID_RANGE_HU = 20 * Math.sqrt(3);

    private static final double GAP_FROM_MM = 0.3;
    private static final double GAP_TO_MM = 1.5;
    private static final double[] CONTACT_CHANCES = {0, 0.2, 0.4, 0.6, 0.8, 1};
    private static final String SETTINGS = "{\"sampleSpacingMm\": 1}";

    final List<Double> contactAcross = new ArrayList<>();
    final List<Double> contactAlong = new ArrayList<>();
    final List<Double> overTrueContact = new ArrayList<>();
    final List<Double> gaps = new ArrayList<>();
    final List<Double> gapsNearSteps = new ArrayList<>();
    int notStatedAcross;
    int notStatedAlong;
    int truthsInside;
    int truths;
    int touchingInside;
    int touching;
    int notAssessable;
    int samples;

    private FitSeries() {}

    /** What is drawn. */
    record Kind(
            String name, Material material, ContactScene.Conditions conditions, ContactScene.Gaps gaps, long seed) {}

    static FitSeries run(Kind kind, int scenes, Progress progress) {
        FitSeries series = new FitSeries();
        for (int n = 0; n < scenes; n++) {
            progress.stopIfCancelled();
            progress.report((double) n / scenes, kind.name());
            boolean extended = kind.material() == Material.TITANIUM_SOLID || n % 2 == 1;
            series.add(withFluid(ContactScene.draw(
                    kind.conditions(),
                    kind.gaps(),
                    kind.material(),
                    extended ? HuScale.EXTENDED_30710 : HuScale.CLIPPED_3071,
                    CONTACT_CHANCES[n / 2 % CONTACT_CHANCES.length],
                    kind.seed() + n)));
        }
        return series;
    }

    /** The scene with other HU in its gaps: the estimator takes them as known to a standard deviation of 20 HU. */
    private static ContactScene withFluid(ContactScene scene) {
        UniformRandomProvider random =
                RandomSource.XO_RO_SHI_RO_128_PP.create(scene.scan().seed());
        InterfaceSpec spec = scene.scene().spec();
        double fluidHu = spec.bone().fluidHu() + FLUID_RANGE_HU * (2 * random.nextDouble() - 1);
        InterfaceSpec other = spec.bone(
                spec.bone().frontMm(), spec.bone().frontHu(), spec.bone().trabecularHu(), fluidHu);
        return new ContactScene(
                InterfaceScene.of(other, scene.scene().pattern()),
                scene.scan(),
                scene.material(),
                scene.statedSpread());
    }

    static MeasurementSettings settings() {
        try {
            return SettingsJson.parse(SETTINGS, "validation");
        } catch (SettingsException e) {
            throw new IllegalStateException(e);
        }
    }

    static FittedContact measure(ContactScene scene, ExamScan exam) {
        Construct construct = scene.construct();
        return new ContactByFit(construct, construct.interfaces().get(0), settings())
                .measureReference(exam)
                .contact()
                .value()
                .orElseThrow();
    }

    private void add(ContactScene scene) {
        FittedContact contact = measure(scene, ContactValidation.examOf(scene));
        boolean isAcross = Math.abs(scene.scene().face().normal().dot(PatientVector.CRANIAL)) > 0.7;
        if (contact.fraction().value().isEmpty()) {
            notStatedAcross += isAcross ? 1 : 0;
            notStatedAlong += isAcross ? 0 : 1;
            return;
        }
        double area = 0;
        double seen = 0;
        double truth = 0;
        for (FittedReading reading : contact.readings()) {
            double u = reading.sample().uMm();
            double v = reading.sample().vMm();
            double gap = scene.scene().trueGapMm(u, v);
            samples++;
            if (reading.tissue() == Tissue.NOT_ASSESSABLE) {
                notAssessable++;
                continue;
            }
            if (gap < APART_FROM_MM || gap > APART_TO_MM) {
                area += reading.sample().areaMm2();
                seen += reading.tissue() == Tissue.CONTACT ? reading.sample().areaMm2() : 0;
                truth +=
                        gap < settings().fit().contactGapMm() ? reading.sample().areaMm2() : 0;
            }
            addGap(reading, gap, scene.scene().pattern().distanceFromChangeMm(u, v) >= FROM_STEP_MM);
        }
        if (area > 0) {
            (isAcross ? contactAcross : contactAlong).add((seen - truth) / area);
        }
        overTrueContact.add(contact.fraction().value().orElseThrow()
                - scene.scene().pattern().contactShare());
    }

    private void addGap(FittedReading reading, double gap, boolean isClear) {
        if (reading.gapMm().isEmpty()) {
            return;
        }
        double difference = reading.gapMm().getAsDouble() - gap;
        if (gap >= GAP_FROM_MM && gap <= GAP_TO_MM) {
            (isClear ? gaps : gapsNearSteps).add(difference);
        }
        boolean isInside = Math.abs(difference) <= 1.96 * reading.gapSeMm().getAsDouble();
        if (isClear && gap >= GAP_FROM_MM) {
            truths++;
            truthsInside += isInside ? 1 : 0;
        } else if (isClear) {
            touching++;
            touchingInside += isInside ? 1 : 0;
        }
    }
}
