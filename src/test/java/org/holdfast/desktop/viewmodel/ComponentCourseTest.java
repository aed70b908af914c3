package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.holdfast.app.ContactReport;
import org.holdfast.app.ExamResult;
import org.holdfast.cases.SampleSubject;
import org.holdfast.construct.ConstructPart;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.viewmodel.CourseLines.BreakSpan;
import org.holdfast.desktop.viewmodel.CourseLines.ExamDay;
import org.holdfast.desktop.viewmodel.CourseLines.Lane;
import org.holdfast.desktop.viewmodel.CourseLines.Line;
import org.holdfast.desktop.viewmodel.CourseLines.Quantity;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.desktop.viewmodel.CourseResults.Status;
import org.junit.jupiter.api.Test;

/** The course of screws, rods and bodies, of results by hand: what a rod's break, a zone and a subsidence look like. */
class ComponentCourseTest {

    private static Known known() {
        ContactReport report = SampleComponents.course(SampleSubject.report());
        return new Known(Optional.of(report), Map.of(), new Status.Idle());
    }

    private static CourseLines course(String picked) {
        Known known = known();
        ContactReport report = known.report().orElseThrow();
        List<ExamDay> days = new ArrayList<>();
        for (ExamResult exam : report.exams()) {
            days.add(new ExamDay(days.size(), exam.label(), exam.daysSinceSurgery()));
        }
        return CourseLines.of(days, ConstructPart.of(report.construct()), picked, known);
    }

    private static Optional<Lane> lane(CourseLines course, Quantity quantity) {
        return course.lanes().stream()
                .filter(lane -> lane.quantity() == quantity)
                .findFirst();
    }

    @Test
    void theChosenFaceHasBothEstimators() {
        Lane contact = lane(course("cranial-face"), Quantity.CONTACT).orElseThrow();
        assertEquals(
                List.of("Cranial endplate, T12", "by threshold", "Caudal endplate, L2"),
                contact.lines().stream().map(Line::label).toList());
        assertEquals(
                List.of(false, true, false),
                contact.lines().stream().map(Line::isSecond).toList());
        // By hand: the sample's fit lies 0.05 above its threshold
        assertEquals(
                contact.lines().get(1).points().get(4).value().orElseThrow() + 0.05,
                contact.lines().get(0).points().get(4).value().orElseThrow(),
                1e-9);
    }

    @Test
    void aZoneThatIsNotSeenIsALimitAndNoPoint() {
        Line loose = lane(course("cranial-face"), Quantity.ZONE)
                .orElseThrow()
                .lines()
                .get(0);
        assertEquals("screw-l2-left", loose.partId());
        // By hand: the sample's smallest visible zone
        assertEquals(0.6, loose.points().get(0).unseen().orElseThrow());
        assertTrue(loose.points().get(0).value().isEmpty());
        // By hand: the sample's zone at 6 mo
        assertEquals(1.3, loose.points().get(2).value().orElseThrow());
        assertEquals(OptionalInt.empty(), loose.points().get(2).joinedTo());
        assertEquals(OptionalInt.of(2), loose.points().get(3).joinedTo());
    }

    @Test
    void screwsWithoutZoneAreShownOnlyWhenChosen() {
        assertEquals(
                1,
                lane(course("cranial-face"), Quantity.ZONE)
                        .orElseThrow()
                        .lines()
                        .size());
        assertEquals(
                List.of("screw-t12-right", "screw-l2-left"),
                lane(course("screw-t12-right"), Quantity.ZONE).orElseThrow().lines().stream()
                        .map(Line::partId)
                        .toList());
    }

    @Test
    void subsidenceBeginsAtNothingAndHasItsBand() {
        Lane subsidence = lane(course("body-l1"), Quantity.SUBSIDENCE).orElseThrow();
        assertEquals(
                List.of("Body, L1 in L2", "Body, L1 in T12"),
                subsidence.lines().stream().map(Line::label).toList());
        // By hand: the reference exam against itself
        assertEquals(0, subsidence.lines().get(0).points().get(0).value().orElseThrow());
        // By hand: the sample's subsidence at 24 mo and its repeatability
        assertEquals(0.5, subsidence.lines().get(0).points().get(4).value().orElseThrow());
        assertEquals(0.3, subsidence.band().orElseThrow().high());
    }

    @Test
    void aBreakLiesBetweenTheLastExamWithoutAndTheFirstWithOne() {
        List<BreakSpan> breaks = course("rod-right").breaks();
        BreakSpan right = breaks.get(0);
        assertEquals("rod-right", right.partId());
        assertEquals(OptionalInt.of(2), right.lastWhole());
        assertEquals(3, right.firstBroken());
        assertEquals("Rod right: no break seen at 6 mo, broken at 12 mo", right.words());
        assertEquals("Rod left: break at 12 mo, unconfirmed", breaks.get(1).words());
    }

    @Test
    void isReadOutWithLimitsAndBand() {
        String words = CourseTable.of(course("cranial-face"));
        assertTrue(words.contains("none seen, under 0.6\u2009mm unseen"), words);
        assertTrue(words.contains("Subsidence, within error from −0.3\u2009mm to 0.3\u2009mm"), words);
        assertTrue(words.contains("Rod right: no break seen at 6 mo, broken at 12 mo"), words);
    }

    @Test
    void numbersStandWithErrorAndLimit() {
        NumberUnder zone = under("screw-l2-left", 4);
        assertEquals(PartState.FAULT, zone.state());
        assertEquals("zone 2.9 ± 0.2\u2009mm", zone.value());
        assertEquals("mean ± SE; zones < 0.6\u2009mm unseen", zone.limit());
        assertEquals("new; widest sector 3.5\u2009mm; no break ≥ 0.5\u2009mm", zone.second());
        NumberUnder none = under("screw-t12-right", 4);
        assertEquals("no zone ≥ 0.6\u2009mm", none.value());
        assertEquals("does not exclude loosening", none.limit());
        assertTrue(none.bar().at().isEmpty() && none.bar().high().isPresent());
        NumberUnder body = under("body-l1", 4);
        assertEquals("0.5\u2009mm into L2", body.value());
        assertEquals("beyond error: repeatability ± 0.3\u2009mm", body.limit());
        assertEquals("0.1\u2009mm into T12, within error", body.second());
        NumberUnder rod = under("rod-right", 3);
        assertEquals("broken, 0.9\u2009mm", rod.value());
        assertEquals("gap along the axis; breaks < 0.5\u2009mm unseen", rod.limit());
    }

    @Test
    void aFaceShowsTheFitFirstAndTheThresholdUnderIt() {
        NumberUnder face = under("cranial-face", 4);
        assertTrue(face.limit().startsWith("by fit: bone, or a gap < 0.4\u2009mm"), face.limit());
        assertTrue(face.second().startsWith("threshold "), face.second());
        assertTrue(face.second().contains("bone, or a gap < "), face.second());
    }

    private static NumberUnder under(String part, int exam) {
        return NumberUnder.of(SampleKnown.part(part), SampleKnown.exam(exam), known());
    }
}
