package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.stream.Stream;
import org.holdfast.app.ReviewExam;
import org.holdfast.construct.ConstructPart;
import org.holdfast.desktop.state.Words;
import org.holdfast.desktop.viewmodel.CourseResults.Known;

/**
 * A subject's course: what was measured, exam by exam, on the axis of true months. Immutable.
 *
 * @param stations the dated exams, in order of time
 * @param lanes one a measured quantity
 * @param breaks when parts broke
 * @param undated labels of exams that have no place on the axis
 */
public record CourseLines(List<Station> stations, List<Lane> lanes, List<BreakSpan> breaks, List<String> undated) {

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

    /** What a lane shows. */
    public enum Quantity {
        CONTACT("Contact"),
        ZONE("Zone"),
        SUBSIDENCE("Subsidence"),
        SCREW_ANGLE("Screw angle");

        private final String words;

        Quantity(String words) {
            this.words = words;
        }

        /** As the lane is named. */
        public String words() {
            return words;
        }

        /** A value with its unit. */
        public String format(double value) {
            return switch (this) {
                case CONTACT -> Words.percent(value);
                case ZONE, SUBSIDENCE -> Words.quantity(value, 1, "mm");
                case SCREW_ANGLE -> Words.number(value, 1) + "°";
            };
        }
    }

    /**
     * Changes inside it are within error.
     *
     * @param low lower end
     * @param high upper end
     * @param source where it comes from, in words
     */
    public record Band(double low, double high, String source) {}

    /**
     * One measured quantity.
     *
     * @param quantity what it is
     * @param lowest value at the bottom
     * @param highest value at the top
     * @param band within which a change is none; empty where that is not known
     * @param lines one a part that it is measured of, and a second one where there are two estimators
     */
    public record Lane(Quantity quantity, double lowest, double highest, Optional<Band> band, List<Line> lines) {
        public Lane {
            lines = List.copyOf(lines);
        }

        /** What it is called. */
        public String name() {
            return quantity.words();
        }
    }

    /**
     * One part through the exams.
     *
     * @param partId the part
     * @param label what it is called
     * @param isPicked whether it is the chosen part
     * @param isSecond whether the chosen part has a line already: this is its other estimator, or its other bone
     * @param points one a station, in their order
     */
    public record Line(String partId, String label, boolean isPicked, boolean isSecond, List<Point> points) {
        public Line {
            points = List.copyOf(points);
        }

        /** The headline of a part. */
        public Line(String partId, String label, boolean isPicked, List<Point> points) {
            this(partId, label, isPicked, false, points);
        }
    }

    /**
     * What one exam says of one part.
     *
     * @param station index of the station
     * @param value the number; empty where none is stated
     * @param low lower bound, with the number
     * @param high upper bound, with the number
     * @param unseen where nothing was seen, what would not have been; empty otherwise
     * @param isStale whether it no longer belongs to its inputs
     * @param joinedTo the earlier station that it may be joined with; empty for none
     * @param why why there is no number, or no join; empty where there is nothing to say
     */
    public record Point(
            int station,
            OptionalDouble value,
            OptionalDouble low,
            OptionalDouble high,
            OptionalDouble unseen,
            boolean isStale,
            OptionalInt joinedTo,
            String why) {

        /** A number, or none; nothing that lies under a detection limit. */
        public Point(
                int station,
                OptionalDouble value,
                OptionalDouble low,
                OptionalDouble high,
                boolean isStale,
                OptionalInt joinedTo,
                String why) {
            this(station, value, low, high, OptionalDouble.empty(), isStale, joinedTo, why);
        }
    }

    /**
     * When a part broke.
     *
     * @param partId the part
     * @param label what it is called
     * @param isPicked whether it is the chosen part
     * @param lastWhole the last station without a break before; empty if there is none
     * @param firstBroken the first station with one
     * @param isConfirmed whether it is confirmed
     * @param words the same in words
     */
    public record BreakSpan(
            String partId,
            String label,
            boolean isPicked,
            OptionalInt lastWhole,
            int firstBroken,
            boolean isConfirmed,
            String words) {}

    public CourseLines {
        stations = List.copyOf(stations);
        lanes = List.copyOf(lanes);
        breaks = List.copyOf(breaks);
        undated = List.copyOf(undated);
    }

    /** A course in which nothing broke. */
    public CourseLines(List<Station> stations, List<Lane> lanes, List<String> undated) {
        this(stations, lanes, List.of(), undated);
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
     * @param parts all parts
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
        List<Lane> lanes = Stream.of(
                        ContactLane.of(parts, stations, pickedPartId, known),
                        ZoneLane.of(parts, stations, pickedPartId, known),
                        MotionLane.subsidence(parts, stations, pickedPartId, known),
                        MotionLane.screwAngle(parts, stations, pickedPartId, known))
                .flatMap(Optional::stream)
                .toList();
        return new CourseLines(stations, lanes, BreakSpans.of(parts, stations, pickedPartId, known), undated);
    }
}
