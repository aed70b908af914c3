package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
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
import org.holdfast.desktop.viewmodel.CourseLines.ExamDay;
import org.holdfast.desktop.viewmodel.CourseLines.Line;
import org.holdfast.desktop.viewmodel.CourseLines.Point;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.desktop.viewmodel.CourseResults.Place;
import org.holdfast.desktop.viewmodel.CourseResults.Status;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.volume.Comparability.Difference;
import org.holdfast.volume.Comparability.Effect;
import org.junit.jupiter.api.Test;

/** The course of the sample subject, as measured, with exams changed by hand. */
final class CourseLinesTest {

    private static final String PICKED = "cranial-face";

    private static List<ExamDay> days(ContactReport report) {
        List<ExamDay> days = new ArrayList<>();
        for (ExamResult exam : report.exams()) {
            days.add(new ExamDay(days.size(), exam.label(), exam.daysSinceSurgery()));
        }
        return days;
    }

    private static CourseLines course(ContactReport report, Map<Place, String> stale) {
        Known known = new Known(Optional.of(report), stale, new Status.Idle());
        return CourseLines.of(days(report), ConstructPart.of(report.construct()), PICKED, known);
    }

    private static Line picked(CourseLines course) {
        return course.lanes().get(0).lines().stream()
                .filter(Line::isPicked)
                .findFirst()
                .orElseThrow();
    }

    private static List<OptionalInt> joins(Line line) {
        return line.points().stream().map(Point::joinedTo).toList();
    }

    /** The sample's report with another list of differences for each exam. */
    private static ContactReport differing(List<List<Difference>> differences) {
        ContactReport report = SampleSubject.report();
        List<ExamResult> exams = new ArrayList<>();
        for (ExamResult exam : report.exams()) {
            exams.add(new ExamResult(
                    exam.label(),
                    exam.seriesUid(),
                    exam.seriesSha256(),
                    exam.daysSinceSurgery(),
                    exam.isReference(),
                    differences.get(exams.size()),
                    exam.poseKind(),
                    exam.poseSource(),
                    exam.referenceToExam(),
                    exam.pointSpread(),
                    exam.parts(),
                    exam.findings()));
        }
        return new ContactReport(report.construct(), report.settings(), exams, report.findings());
    }

    private static List<Difference> kernel() {
        return List.of(new Difference("kernel", "Kernel", "A", "B", Effect.NO_HU_COMPARISON, "Kernels differ."));
    }

    private static List<Difference> pitch() {
        return List.of(new Difference("pitchMm", "Pitch", "0.6", "1", Effect.CAUTION, "Pitches differ."));
    }

    @Test
    void givesEachInterfaceALineAndMarksThePickedOne() {
        CourseLines course = course(SampleSubject.report(), Map.of());
        assertEquals(CourseLines.Quantity.CONTACT, course.lanes().get(0).quantity());
        assertEquals(
                List.of("cranial-face", "caudal-face"),
                course.lanes().get(0).lines().stream()
                        .filter(line -> !line.isSecond())
                        .map(Line::partId)
                        .toList());
        assertEquals(PICKED, picked(course).partId());
    }

    @Test
    void placesExamsByTheirExactDay() {
        CourseLines course = course(SampleSubject.report(), Map.of());
        OptionalInt day = SampleSubject.report().exams().get(2).daysSinceSurgery();
        // Source: a year of 365.25 days has 12 months of 30.4375 days.
        assertEquals(day.getAsInt() / 30.4375, course.stations().get(2).months(), 1e-12);
        assertEquals(5, course.stations().size());
    }

    @Test
    void joinsEachExamToTheLatestThatItMayBeHeldAgainst() {
        List<List<Difference>> made = List.of(List.of(), kernel(), pitch(), kernel(), List.of());
        Line line = picked(course(differing(made), Map.of()));
        // By hand: exams 1 and 3 have another kernel; 0, 2 and 4 may be held against each other.
        assertEquals(
                List.of(
                        OptionalInt.empty(),
                        OptionalInt.empty(),
                        OptionalInt.of(0),
                        OptionalInt.empty(),
                        OptionalInt.of(2)),
                joins(line));
        assertEquals(
                "not comparable with the reference exam", line.points().get(1).why());
        assertEquals("", line.points().get(2).why());
    }

    @Test
    void doesNotJoinWhatNoLongerBelongsToItsInputs() {
        List<List<Difference>> made = List.of(List.of(), List.of(), List.of(), List.of(), List.of());
        ContactReport report = differing(made);
        Place place = new Place(report.exams().get(1).label(), PICKED);
        Line line = picked(course(report, Map.of(place, "other settings")));
        assertTrue(line.points().get(1).isStale());
        assertEquals(OptionalInt.empty(), line.points().get(1).joinedTo());
        assertEquals(OptionalInt.of(0), line.points().get(2).joinedTo());
    }

    @Test
    void namesExamsThatHaveNoDay() {
        ContactReport report = SampleSubject.report();
        List<ExamDay> days = new ArrayList<>(days(report));
        days.set(3, new ExamDay(3, days.get(3).label(), OptionalInt.empty()));
        Known known = new Known(Optional.of(report), Map.of(), new Status.Idle());
        CourseLines course = CourseLines.of(days, ConstructPart.of(report.construct()), PICKED, known);
        assertEquals(List.of(days.get(3).label()), course.undated());
        assertEquals(
                List.of(0, 1, 2, 4),
                course.stations().stream().map(CourseLines.Station::exam).toList());
        assertEquals(4, picked(course).points().size());
    }

    @Test
    void hasLinesWithoutNumbersBeforeAnythingWasMeasured() {
        ContactReport report = SampleSubject.report();
        Known nothing = new Known(Optional.empty(), Map.of(), new Status.Idle());
        CourseLines course = CourseLines.of(days(report), ConstructPart.of(report.construct()), PICKED, nothing);
        for (Point point : picked(course).points()) {
            assertEquals(CourseLines.NOT_MEASURED, point.why());
            assertTrue(point.value().isEmpty());
        }
    }

    @Test
    void tellsWhatTheVerdictForbidsFromWhatWasNotMeasured() {
        ContactReport report = SampleSubject.report();
        List<ExamResult> exams = new ArrayList<>(report.exams());
        ExamResult last = exams.get(4);
        List<InterfaceExam> parts = last.parts().stream()
                .map(part -> InterfaceExam.ofThreshold(
                        part.face(), part.examLabel(), part.verdict(), Optional.empty(), part.key()))
                .toList();
        exams.set(
                4,
                new ExamResult(
                        last.label(),
                        last.seriesUid(),
                        last.seriesSha256(),
                        last.daysSinceSurgery(),
                        last.isReference(),
                        last.comparability(),
                        last.poseKind(),
                        last.poseSource(),
                        last.referenceToExam(),
                        last.pointSpread(),
                        parts,
                        last.findings()));
        Point point = picked(course(
                        new ContactReport(report.construct(), report.settings(), exams, report.findings()), Map.of()))
                .points()
                .get(4);
        assertEquals(parts.get(0).byFit().why(), point.why());
        assertTrue(point.value().isEmpty());
    }

    @Test
    void isReadOutAsAWholeTable() {
        CourseLines course = course(differing(List.of(List.of(), kernel(), List.of(), List.of(), List.of())), Map.of());
        String words = CourseTable.of(course);
        for (Line line : course.lanes().get(0).lines()) {
            assertTrue(words.contains("Contact, " + line.label() + ": "), words);
        }
        for (CourseLines.Station station : course.stations()) {
            assertTrue(words.contains(station.label() + ", month "), words);
        }
        assertTrue(words.contains(", bounds "), words);
        assertTrue(words.contains("not comparable with the reference exam"), words);
        assertFalse(words.contains("undated"), words);
    }
}
