package org.holdfast.desktop.state;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.holdfast.geometry.PatientPoint;

/** What a person drew on a cut to measure something. Points lie in the space of the exam. Immutable. */
public sealed interface ImageMark {

    /** Name that stays when the shape changes. */
    String id();

    /** The cut on which it was drawn. */
    MarkPlace place();

    /** Its points, in the order in which they were set. */
    List<PatientPoint> points();

    /** The same with one point elsewhere. */
    ImageMark moved(int index, PatientPoint to);

    /**
     * A length between two points.
     *
     * @param id name that stays
     * @param place the cut
     * @param from one end
     * @param to the other
     */
    record LengthMark(String id, MarkPlace place, PatientPoint from, PatientPoint to) implements ImageMark {
        public LengthMark {
            Objects.requireNonNull(id, "id");
            Objects.requireNonNull(place, "place");
        }

        @Override
        public List<PatientPoint> points() {
            return List.of(from, to);
        }

        @Override
        public LengthMark moved(int index, PatientPoint point) {
            return index == 0 ? new LengthMark(id, place, point, to) : new LengthMark(id, place, from, point);
        }
    }

    /**
     * The angle between two arms.
     *
     * @param id name that stays
     * @param place the cut
     * @param first end of the first arm
     * @param vertex where the arms meet
     * @param second end of the second arm
     */
    record AngleMark(String id, MarkPlace place, PatientPoint first, PatientPoint vertex, PatientPoint second)
            implements ImageMark {
        public AngleMark {
            Objects.requireNonNull(id, "id");
            Objects.requireNonNull(place, "place");
        }

        @Override
        public List<PatientPoint> points() {
            return List.of(first, vertex, second);
        }

        @Override
        public AngleMark moved(int index, PatientPoint point) {
            return switch (index) {
                case 0 -> new AngleMark(id, place, point, vertex, second);
                case 1 -> new AngleMark(id, place, first, point, second);
                default -> new AngleMark(id, place, first, vertex, point);
            };
        }
    }

    /**
     * A region whose HU are read.
     *
     * @param id name that stays
     * @param place the cut
     * @param kind its outline
     * @param points two opposite corners of the upright rectangle round it, or the corners of a polygon in order
     */
    record RegionMark(String id, MarkPlace place, Kind kind, List<PatientPoint> points) implements ImageMark {

        /** Kinds of outline. */
        public enum Kind {
            ELLIPSE,
            RECTANGLE,
            POLYGON
        }

        public RegionMark {
            Objects.requireNonNull(id, "id");
            Objects.requireNonNull(place, "place");
            points = List.copyOf(points);
            if (kind == Kind.POLYGON ? points.size() < 3 : points.size() != 2) {
                throw new IllegalArgumentException(kind + " cannot have " + points.size() + " points");
            }
        }

        @Override
        public RegionMark moved(int index, PatientPoint to) {
            List<PatientPoint> changed = new ArrayList<>(points);
            changed.set(index, to);
            return new RegionMark(id, place, kind, changed);
        }
    }
}
