package org.holdfast.app;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Locale;
import org.holdfast.construct.Patch;
import org.holdfast.construct.PlanePatch;
import org.holdfast.figure.Drawing;
import org.holdfast.figure.Face;
import org.holdfast.figure.FaceMap;
import org.holdfast.figure.FaceSample;
import org.holdfast.figure.FaceState;
import org.holdfast.figure.PngWriter;
import org.holdfast.geometry.PatientVector;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.SampleReading;
import org.holdfast.measure.ThresholdContact;

/** The face-on map of one interface in one exam, as a drawing and as a PNG. */
final class FaceMapFile {

    private static final double PIXELS_PER_UNIT = 2;
    private static final String[] POSITIVE = {"L", "P", "S"};
    private static final String[] NEGATIVE = {"R", "A", "I"};

    private FaceMapFile() {}

    static void write(ContactReport report, ExamResult exam, InterfaceExam part, Path file) throws IOException {
        PngWriter.write(draw(report, exam, part), PIXELS_PER_UNIT, file);
    }

    static Drawing draw(ContactReport report, ExamResult exam, InterfaceExam part) {
        ThresholdContact contact = part.contact().orElseThrow();
        String result = contact.fraction().value().isPresent()
                ? String.format(
                        Locale.ROOT,
                        "%s: contact %.0f %% of assessable, gaps under %.1f mm not seen",
                        exam.label(),
                        100 * contact.fraction().value().getAsDouble(),
                        contact.smallestVisibleGapMm().value().orElse(Double.NaN))
                : exam.label() + ": fraction not stated";
        result += exam.isLossy() ? ", images compressed with loss" : "";
        Face face = new Face(
                part.face().label(),
                result,
                report.settings().sampleSpacingMm(),
                contact.readings().stream().map(FaceMapFile::sample).toList(),
                edges(part.face().patches().get(0)),
                Face.GapLimits.USUAL,
                Caution.TEXT);
        return FaceMap.draw(face);
    }

    private static FaceSample sample(SampleReading reading) {
        FaceState state =
                switch (reading.tissue()) {
                    case CONTACT -> reading.isBridged() ? new FaceState.Bridged() : new FaceState.Contact();
                    case GAP -> new FaceState.Gap(reading.gapMm().orElseThrow());
                    case NO_BONE -> new FaceState.NoBone();
                    case NOT_ASSESSABLE ->
                        new FaceState.NotAssessable(
                                reading.obstacle().orElseThrow().words());
                };
        return new FaceSample(
                reading.sample().uMm(), reading.sample().vMm(), reading.sample().areaMm2(), state);
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
