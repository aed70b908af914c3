package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.holdfast.app.ExamFacts;
import org.holdfast.app.ReviewExam;
import org.holdfast.cases.MemoryExams;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.measure.ExamScan.PoseKind;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.Acquisition.Known;
import org.holdfast.volume.LossyCompression;
import org.junit.jupiter.api.Test;

class ExamHeadingTest {

    private static final ReviewExam EXAM = new ReviewExam(
            1, "3 mo", Path.of("ct"), OptionalInt.of(90), Optional.empty(), Optional.empty(), Optional.empty());

    private static Acquisition scan(double kvp, String kernel) {
        return scan(kvp, kernel, Optional.empty());
    }

    private static Acquisition scan(double kvp, String kernel, Optional<LossyCompression> lossy) {
        return new Acquisition(
                Optional.empty(),
                OptionalDouble.of(kvp),
                kernel,
                "",
                OptionalDouble.of(0.75),
                OptionalDouble.of(200),
                Known.NO,
                Known.NO,
                OptionalDouble.empty(),
                "",
                "",
                "",
                Known.NO,
                lossy);
    }

    private static ExamFacts facts(Acquisition acquisition, boolean isReference, OptionalInt days) {
        return new ExamFacts(
                "2.25.1",
                MemoryExams.grid(),
                acquisition,
                days,
                isReference,
                RigidTransform.IDENTITY,
                PoseKind.IDENTITY,
                "reference exam",
                List.of());
    }

    private static final Optional<ExamFacts> REFERENCE = Optional.of(facts(scan(120, "B60"), true, OptionalInt.of(3)));

    private static ExamHeading of(Optional<ExamFacts> facts) {
        return ExamHeading.of(EXAM, facts, REFERENCE, Optional.empty(), ExamPose.UNKNOWN);
    }

    @Test
    void saysTheDayWhileNothingWasRead() {
        ExamHeading heading =
                ExamHeading.of(EXAM, Optional.empty(), Optional.empty(), Optional.empty(), ExamPose.UNKNOWN);
        assertEquals(new ExamHeading("3 mo", "", "day 90", "day 90", Optional.empty(), List.of()), heading);
    }

    @Test
    void saysHowTheExamWasMade() {
        ExamHeading heading = of(Optional.of(facts(scan(120, "B60"), false, OptionalInt.of(93))));
        assertEquals("day 93 · CT 120\u2009kV · 0.75\u2009mm · B60", heading.facts());
        assertEquals("day 93 · CT", heading.compactFacts());
        assertEquals(Optional.empty(), heading.warning());
    }

    @Test
    void warnsOfWhatForbidsToCompare() {
        ExamHeading heading = of(Optional.of(facts(scan(80, "B60"), false, OptionalInt.of(93))));
        assertEquals(Optional.of("other tube voltage"), heading.warning());
        assertTrue(heading.facts().startsWith("day 93 · other tube voltage · CT 80\u2009kV"), heading.facts());
        assertEquals("day 93 · other tube voltage", heading.compactFacts());
        assertTrue(heading.cautions().stream().anyMatch(caution -> caution.contains("80")), heading::toString);
    }

    @Test
    void marksImagesCompressedWithLoss() {
        LossyCompression loss = new LossyCompression("JPEG 2000", OptionalDouble.of(12.5), OptionalInt.empty());
        ExamHeading heading = of(Optional.of(facts(scan(120, "B60", Optional.of(loss)), false, OptionalInt.of(93))));
        assertTrue(heading.facts().endsWith(" · lossy"), heading.facts());
        assertEquals("day 93 · CT, lossy", heading.compactFacts());
        assertTrue(heading.cautions().get(0).contains("JPEG 2000, 12.5 : 1"), heading::toString);
    }

    @Test
    void theReferenceExamIsNotHeldAgainstItself() {
        ExamFacts other = facts(scan(80, "B60"), true, OptionalInt.of(3));
        assertEquals(Optional.empty(), of(Optional.of(other)).warning());
        assertEquals(List.of(), of(Optional.of(other)).cautions());
    }

    @Test
    void leavesOutWhatFilesDoNotSay() {
        ExamHeading heading = of(Optional.of(facts(Acquisition.unknown(), false, OptionalInt.empty())));
        assertEquals("undated · CT", heading.facts());
    }

    @Test
    void callsTheFirstExamByTheOperation() {
        ReviewExam surgery = new ReviewExam(
                0, "surgery", Path.of("ct"), OptionalInt.of(-2), Optional.empty(), Optional.empty(), Optional.empty());
        ExamHeading heading =
                ExamHeading.of(surgery, Optional.empty(), Optional.empty(), Optional.empty(), ExamPose.UNKNOWN);
        assertEquals("After surgery", heading.title());
        assertEquals("day \u22122", heading.facts());
    }
}
