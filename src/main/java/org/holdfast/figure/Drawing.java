package org.holdfast.figure;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;

/**
 * A picture as a list of primitives, painted one over the other in order, on a filled ground. Immutable.
 *
 * @param widthPx width, logical pixels, above 0
 * @param heightPx height, logical pixels, above 0
 * @param title what the picture shows, in one line, for those who cannot see it
 * @param ground colour of the ground
 * @param marks the primitives
 */
public record Drawing(double widthPx, double heightPx, String title, Colour ground, List<Mark> marks) {

    public Drawing {
        Objects.requireNonNull(title, "title");
        Objects.requireNonNull(ground, "ground");
        marks = List.copyOf(marks);
        if (!(widthPx > 0 && heightPx > 0 && Double.isFinite(widthPx) && Double.isFinite(heightPx))) {
            throw new IllegalArgumentException("a drawing cannot measure " + widthPx + " x " + heightPx);
        }
    }

    /** Collects marks. Not thread-safe. */
    public static final class Builder {

        private final List<Mark> marks = new ArrayList<>();

        public Builder line(double x1, double y1, double x2, double y2, Stroke stroke) {
            marks.add(new Mark.Line(new FigurePoint(x1, y1), new FigurePoint(x2, y2), stroke));
            return this;
        }

        public Builder fill(double x, double y, double width, double height, Colour colour) {
            marks.add(new Mark.Rectangle(x, y, width, height, Optional.of(colour), Optional.empty()));
            return this;
        }

        public Builder frame(double x, double y, double width, double height, Stroke stroke) {
            marks.add(new Mark.Rectangle(x, y, width, height, Optional.empty(), Optional.of(stroke)));
            return this;
        }

        public Builder disc(double x, double y, double radius, Colour colour) {
            marks.add(new Mark.Circle(new FigurePoint(x, y), radius, Optional.of(colour), Optional.empty()));
            return this;
        }

        public Builder ring(double x, double y, double radius, Stroke stroke) {
            marks.add(new Mark.Circle(new FigurePoint(x, y), radius, Optional.empty(), Optional.of(stroke)));
            return this;
        }

        public Builder words(double x, double y, String text, TextStyle style) {
            marks.add(new Mark.Words(new FigurePoint(x, y), text, style));
            return this;
        }

        public Builder add(Mark mark) {
            marks.add(Objects.requireNonNull(mark, "mark"));
            return this;
        }

        /** The drawing with all marks so far. */
        public Drawing build(double widthPx, double heightPx, String title, Colour ground) {
            return new Drawing(widthPx, heightPx, title, ground, marks);
        }
    }
}
