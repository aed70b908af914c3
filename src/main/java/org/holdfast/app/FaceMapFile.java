package org.holdfast.app;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.construct.Patch;
import org.holdfast.construct.PlanePatch;
import org.holdfast.figure.Drawing;
import org.holdfast.figure.Face;
import org.holdfast.figure.FaceMap;
import org.holdfast.figure.FaceSample;
import org.holdfast.figure.FaceState;
import org.holdfast.figure.PngWriter;
import org.holdfast.geometry.PatientVector;
import org.holdfast.measure.FittedContact;
import org.holdfast.measure.FittedReading;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.Obstacle;
import org.holdfast.measure.SampleReading;
import org.holdfast.measure.Stated;
import org.holdfast.measure.ThresholdContact;
import org.holdfast.measure.Tissue;

/** The face-on map of one interface in one exam, as a drawing and as a PNG. */
final class FaceMapFile {

    private static final double PIXELS_PER_UNIT = 2;
    private static final String[] POSITIVE = {"L", "P", "S"};
    private static final String[] NEGATIVE = {"R", "A", "I"};

    private FaceMapFile() {}

    /**
     * Writes the map by threshold.
     *
     * @throws IOException if the file cannot be written
     */
    static void write(ContactReport report, ExamResult exam, InterfaceExam part, Path file) throws IOException {
        PngWriter.write(draw(report, exam, part), PIXELS_PER_UNIT, file);
    }

    /**
     * Writes the map by fit.
     *
     * @throws IOException if the file cannot be written
     */
    static void writeByFit(ContactReport report, ExamResult exam, InterfaceExam part, Path file) throws IOException {
        PngWriter.write(drawByFit(report, exam, part), PIXELS_PER_UNIT, file);
    }

    /** The map by threshold. */
    static Drawing draw(ContactReport report, ExamResult exam, InterfaceExam part) {
        ThresholdContact contact = part.contact().orElseThrow();
        return draw(
                report,
                part,
                words(exam, "threshold", contact.fraction(), contact.smallestVisibleGapMm()),
                contact.readings().stream().map(FaceMapFile::sample).toList());
    }

    /** The map by fit. */
    static Drawing drawByFit(ContactReport report, ExamResult exam, InterfaceExam part) {
        FittedContact contact = part.byFit().value().orElseThrow();
        return draw(
                report,
                part,
                words(exam, "fit", contact.fraction(), contact.smallestVisibleGapMm()),
                contact.readings().stream().map(FaceMapFile::sample).toList());
    }

    private static Drawing draw(ContactReport report, InterfaceExam part, String result, List<FaceSample> samples) {
        return FaceMap.draw(new Face(
                part.face().label(),
                result,
                report.settings().sampleSpacingMm(),
                samples,
                edges(part.face().patches().get(0)),
                Face.GapLimits.USUAL,
                Caution.TEXT));
    }

    private static String words(ExamResult exam, String estimator, Stated fraction, Stated smallestGapMm) {
        String result = exam.label() + ", by " + estimator;
        if (fraction.value().isEmpty()) {
            result += ": fraction not stated";
        } else {
            result += String.format(
                    Locale.ROOT,
                    ": contact %.0f %% of assessable",
                    100 * fraction.value().getAsDouble());
            if (smallestGapMm.value().isPresent()) {
                result += String.format(
                        Locale.ROOT,
                        ", gaps under %.1f mm not seen",
                        smallestGapMm.value().getAsDouble());
            }
        }
        return result + (exam.isLossy() ? ", images compressed with loss" : "");
    }

    private static FaceSample sample(FittedReading reading) {
        return new FaceSample(
                reading.sample().uMm(),
                reading.sample().vMm(),
                reading.sample().areaMm2(),
                state(reading.tissue(), reading.isBridged(), reading.gapMm(), reading.obstacle()));
    }

    private static FaceSample sample(SampleReading reading) {
        return new FaceSample(
                reading.sample().uMm(),
                reading.sample().vMm(),
                reading.sample().areaMm2(),
                state(reading.tissue(), reading.isBridged(), reading.gapMm(), reading.obstacle()));
    }

    private static FaceState state(
            Tissue tissue, boolean isBridged, OptionalDouble gapMm, Optional<Obstacle> obstacle) {
        return switch (tissue) {
            case CONTACT -> isBridged ? new FaceState.Bridged() : new FaceState.Contact();
            case GAP -> new FaceState.Gap(gapMm.orElseThrow());
            case NO_BONE -> new FaceState.NoBone();
            case NOT_ASSESSABLE ->
                new FaceState.NotAssessable(obstacle.orElseThrow().words());
        };
    }

    /** Directions at the edges of a flat face; a curved face has none. */
    private static Face.Edges edges(Patch patch) {
        if (patch instanceof PlanePatch plane) {
            return new Face.Edges(
                    letter(plane.u().times(-1)),
                    letter(plane.u()),
                    letter(plane.v()),
                    letter(plane.v().times(-1)));
        }
        return new Face.Edges("", "", "", "");
    }

    /** The letter of the main direction: L R, P A, S (superior) I (inferior). */
    private static String letter(PatientVector direction) {
        double[] along = {direction.x(), direction.y(), direction.z()};
        int main = 0;
        for (int axis = 1; axis < 3; axis++) {
            if (Math.abs(along[axis]) > Math.abs(along[main])) {
                main = axis;
            }
        }
        return along[main] > 0 ? POSITIVE[main] : NEGATIVE[main];
    }
}
