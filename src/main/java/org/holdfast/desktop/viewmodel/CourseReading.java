package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.holdfast.app.ExamResult;
import org.holdfast.desktop.viewmodel.CourseLines.Point;
import org.holdfast.desktop.viewmodel.CourseLines.Station;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.volume.Comparability;

/**
 * What one exam says of one part, before points are joined to a line. Immutable.
 *
 * @param value the number; empty where none is stated
 * @param low lower bound; empty for none
 * @param high upper bound; empty for none
 * @param unseen where nothing was seen, what would not have been; empty otherwise
 * @param isStale whether it no longer belongs to its inputs
 * @param mayJoin whether it may be held against other exams
 * @param why why there is no number, or no join
 */
record CourseReading(
        OptionalDouble value,
        OptionalDouble low,
        OptionalDouble high,
        OptionalDouble unseen,
        boolean isStale,
        boolean mayJoin,
        String why) {

    private static final OptionalDouble NONE = OptionalDouble.empty();
    private static final String NOT_COMPARABLE = "not comparable with the reference exam";

    /** No number, and why. */
    static CourseReading not(String why) {
        return new CourseReading(NONE, NONE, NONE, NONE, false, false, why);
    }

    /** A number with its bounds that is read from HU: comparable exams only may be joined. */
    static CourseReading ofHu(
            OptionalDouble value,
            OptionalDouble low,
            OptionalDouble high,
            Station station,
            String partId,
            Known known) {
        boolean comparable = isComparable(station, known);
        return new CourseReading(
                value,
                low,
                high,
                NONE,
                known.staleness(station.label(), partId).isPresent(),
                comparable,
                comparable ? "" : NOT_COMPARABLE);
    }

    /** A number with its bounds that is geometry: any exams may be joined. */
    static CourseReading ofGeometry(double value, double error, Station station, String partId, Known known) {
        return new CourseReading(
                OptionalDouble.of(value),
                OptionalDouble.of(value - error),
                OptionalDouble.of(value + error),
                NONE,
                known.staleness(station.label(), partId).isPresent(),
                true,
                "");
    }

    /** Nothing seen under a limit. */
    static CourseReading unseen(double limit, Station station, String partId, Known known) {
        return new CourseReading(
                NONE,
                NONE,
                NONE,
                OptionalDouble.of(limit),
                known.staleness(station.label(), partId).isPresent(),
                false,
                "");
    }

    private static boolean isComparable(Station station, Known known) {
        return known.exam(station.label())
                .map(ExamResult::comparability)
                .map(Comparability::allowsHuComparison)
                .orElse(true);
    }

    /** Points of a line: each is joined to the latest earlier one that may be held against it. */
    static List<Point> joined(List<CourseReading> readings) {
        List<Point> points = new ArrayList<>();
        OptionalInt latest = OptionalInt.empty();
        for (int n = 0; n < readings.size(); n++) {
            CourseReading r = readings.get(n);
            boolean joins = r.value.isPresent() && r.mayJoin && !r.isStale;
            points.add(new Point(
                    n, r.value, r.low, r.high, r.unseen, r.isStale, joins ? latest : OptionalInt.empty(), r.why));
            latest = joins ? OptionalInt.of(n) : latest;
        }
        return points;
    }
}
