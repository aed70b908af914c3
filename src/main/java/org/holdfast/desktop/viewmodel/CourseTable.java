package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.List;
import org.holdfast.desktop.state.Words;
import org.holdfast.desktop.viewmodel.CourseLines.Lane;
import org.holdfast.desktop.viewmodel.CourseLines.Line;
import org.holdfast.desktop.viewmodel.CourseLines.Point;
import org.holdfast.desktop.viewmodel.CourseLines.Station;

/** The whole course in words, a sentence a part: for those who cannot see the chart. */
public final class CourseTable {

    private CourseTable() {}

    /** Every number with its month, its bounds and what forbids to hold it against the others. */
    public static String of(CourseLines course) {
        List<String> sentences = new ArrayList<>();
        for (Lane lane : course.lanes()) {
            for (Line line : lane.lines()) {
                List<String> points =
                        line.points().stream().map(p -> point(course, lane, p)).toList();
                sentences.add(lane.name() + ", " + line.label() + ": " + String.join("; ", points));
            }
            lane.band()
                    .ifPresent(band -> sentences.add(lane.name() + ", within error from "
                            + lane.quantity().format(band.low()) + " to "
                            + lane.quantity().format(band.high()) + ", " + band.source()));
        }
        course.breaks().forEach(each -> sentences.add(each.words()));
        if (!course.undated().isEmpty()) {
            sentences.add("undated, not on the axis: " + String.join(", ", course.undated()));
        }
        return sentences.isEmpty() ? "course: nothing measured" : String.join(". ", sentences);
    }

    private static String point(CourseLines course, Lane lane, Point point) {
        Station station = course.stations().get(point.station());
        String exam = station.label() + ", month " + Words.number(station.months(), 1) + ", ";
        if (point.unseen().isPresent()) {
            return exam + "none seen, under "
                    + lane.quantity().format(point.unseen().getAsDouble()) + " unseen";
        }
        if (point.value().isEmpty()) {
            return exam + (point.why().equals(CourseLines.NOT_MEASURED) ? point.why() : "not stated, " + point.why());
        }
        String bounds = point.low().isPresent() && point.high().isPresent()
                ? ", bounds " + lane.quantity().format(point.low().getAsDouble()) + " to "
                        + lane.quantity().format(point.high().getAsDouble())
                : "";
        return exam
                + lane.quantity().format(point.value().getAsDouble())
                + bounds
                + (point.isStale() ? ", old settings" : "")
                + (point.why().isEmpty() ? "" : ", " + point.why());
    }
}
