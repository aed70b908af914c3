package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.holdfast.app.ExamResult;
import org.holdfast.app.ReviewExam;
import org.holdfast.construct.ConstructPart;
import org.holdfast.construct.PartKind;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.Stated;
import org.holdfast.measure.ThresholdContact;
import org.holdfast.volume.Comparability;

/**
 * A subject's course: what was measured, exam by exam, on the axis of true months. Immutable.
 *
 * @param stations the dated exams, in order of time
 * @param lanes one a measured quantity
 * @param undated labels of exams that have no place on the axis
 */
public record CourseLines(List<Station> stations, List<Lane> lanes, List<String> undated) {

    /** Why there is no number where nothing was measured. */
    public static final String NOT_MEASURED = "not measured";

    /** Mean length of a month in days: 365.25 / 12. */
    private static final double DAYS_PER_MONTH = 30.4375;

    /**
     * An exam on the axis.
     *
     * @param exam index of the exam
     * @param label its column label
     * @param months months since surgery
     */
    public record Station(int exam, String label, double months) {}

    /**
     * One measured quantity.
     *
     * @param name what it is
     * @param lowest value at the bottom
     * @param highest value at the top
     * @param lines one a part that it is measured of
     */
    public record Lane(String name, double lowest, double highest, List<Line> lines) {
        public Lane {
            lines = List.copyOf(lines);
        }
    }

    /**
     * One part through the exams.
     *
     * @param partId the part
     * @param label what it is called
     * @param isPicked whether it is the chosen part
     * @param points one a station, in their order
     */
    public record Line(String partId, String label, boolean isPicked, List<Point> points) {
        public Line {
            points = List.copyOf(points);
        }
    }

    /**
     * What one exam says of one part.
     *
     * @param station index of the station
     * @param value the number; empty where none is stated
     * @param low lower bound, with the number
     * @param high upper bound, with the number
     * @param isStale whether it no longer belongs to its inputs
     * @param joinedTo the earlier station that it may be joined with; empty for none
     * @param why why there is no number, or no join; empty where there is nothing to say
     */
    public record Point(
            int station,
            OptionalDouble value,
            OptionalDouble low,
            OptionalDouble high,
            boolean isStale,
            OptionalInt joinedTo,
            String why) {}

    public CourseLines {
        stations = List.copyOf(stations);
        lanes = List.copyOf(lanes);
        undated = List.copyOf(undated);
    }

    /**
     * An exam and its day.
     *
     * @param exam index of the exam
     * @param label its column label
     * @param daysSinceSurgery exact day; empty if it is undated
     */
    public record ExamDay(int exam, String label, OptionalInt daysSinceSurgery) {}

    /** The course as far as it is known. */
    public static CourseLines of(ReviewViewModel review, Known known) {
        List<ExamDay> days = new ArrayList<>();
        for (ReviewExam exam : review.exams()) {
            OptionalInt day = review.columns().get(exam.index()).daysSinceSurgery();
            days.add(new ExamDay(exam.index(), exam.label(), day));
        }
        return of(days, review.parts(), review.part().id(), known);
    }

    /**
     * The course as far as it is known.
     *
     * @param exams all exams, in any order
     * @param parts all parts; interfaces get a line
     * @param pickedPartId the chosen part
     * @param known what was measured
     */
    static CourseLines of(List<ExamDay> exams, List<ConstructPart> parts, String pickedPartId, Known known) {
        List<Station> stations = exams.stream()
                .filter(exam -> exam.daysSinceSurgery().isPresent())
                .map(exam -> new Station(
                        exam.exam(), exam.label(), exam.daysSinceSurgery().getAsInt() / DAYS_PER_MONTH))
                .sorted(Comparator.comparingDouble(Station::months))
                .toList();
        List<String> undated = exams.stream()
                .filter(exam -> exam.daysSinceSurgery().isEmpty())
                .map(ExamDay::label)
                .toList();
        List<Line> contact = parts.stream()
                .filter(part -> part.kind() == PartKind.INTERFACE)
                .map(part -> new Line(
                        part.id(), part.label(), part.id().equals(pickedPartId), points(part, stations, known)))
                .toList();
        List<Lane> lanes = contact.isEmpty() ? List.of() : List.of(new Lane("Contact", 0, 1, contact));
        return new CourseLines(stations, lanes, undated);
    }

    private static List<Point> points(ConstructPart part, List<Station> stations, Known known) {
        List<Point> points = new ArrayList<>();
        OptionalInt latest = OptionalInt.empty();
        for (int n = 0; n < stations.size(); n++) {
            String label = stations.get(n).label();
            Optional<ExamResult> exam = known.report().flatMap(report -> report.exam(label));
            Optional<InterfaceExam> result = known.of(label, part.id());
            Optional<ThresholdContact> contact = result.flatMap(InterfaceExam::contact);
            OptionalDouble value = contact.map(c -> c.fraction().value()).orElse(OptionalDouble.empty());
            boolean stale = known.staleness(label, part.id()).isPresent();
            boolean comparable = exam.map(e -> Comparability.allowsHuComparison(e.comparability()))
                    .orElse(true);
            String why = why(result, comparable);
            boolean joins = value.isPresent() && comparable && !stale;
            points.add(new Point(
                    n,
                    value,
                    value.isPresent() ? OptionalDouble.of(contact.orElseThrow().low()) : OptionalDouble.empty(),
                    value.isPresent() ? OptionalDouble.of(contact.orElseThrow().high()) : OptionalDouble.empty(),
                    stale,
                    joins ? latest : OptionalInt.empty(),
                    why));
            latest = joins ? OptionalInt.of(n) : latest;
        }
        return points;
    }

    private static String why(Optional<InterfaceExam> result, boolean comparable) {
        if (result.isEmpty()) {
            return NOT_MEASURED;
        }
        if (result.get().contact().isEmpty()) {
            return result.get().verdict().value().words();
        }
        Stated fraction = result.get().contact().get().fraction();
        if (fraction.value().isEmpty()) {
            return fraction.why();
        }
        return comparable ? "" : "not comparable with the reference exam";
    }
}
