package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.desktop.state.ImageMark;
import org.holdfast.desktop.state.ImageMark.AngleMark;
import org.holdfast.desktop.state.ImageMark.LengthMark;
import org.holdfast.desktop.state.ImageMark.RegionMark;
import org.holdfast.desktop.state.MarkPlace;
import org.holdfast.desktop.state.MarkTool;
import org.holdfast.geometry.PatientPoint;

/**
 * A mark while it is being drawn: the points that are set, and one more that follows the pointer. What is dragged has its
 * first point where the press was and its second at the pointer; an angle is set by three clicks; a polygon by as many as
 * the person wishes.
 */
public final class MarkDrawing {

    private static final int LEAST_CORNERS = 3;

    private final MarkTool tool;
    private final MarkPlace place;
    private final List<PatientPoint> set = new ArrayList<>();
    private PatientPoint pointer;

    /**
     * @param tool what is drawn
     * @param place the cut on which it is drawn
     * @param at the first point
     */
    public MarkDrawing(MarkTool tool, MarkPlace place, PatientPoint at) {
        this.tool = tool;
        this.place = place;
        set.add(at);
        pointer = at;
    }

    /** What is drawn. */
    public MarkTool tool() {
        return tool;
    }

    /** The cut on which it is drawn. */
    public MarkPlace place() {
        return place;
    }

    /** The pointer is here now. */
    public void follow(PatientPoint at) {
        pointer = at;
    }

    /** Sets a further point. */
    public void set(PatientPoint at) {
        set.add(at);
        pointer = at;
    }

    /** Whether all points that the tool needs are set; never for a polygon, which the person closes. */
    public boolean isComplete() {
        return set.size() >= tool.points();
    }

    /** Whether it is a polygon with corners enough to be closed. */
    public boolean canBeClosed() {
        return tool == MarkTool.POLYGON && set.size() >= LEAST_CORNERS;
    }

    /** The mark of the points that are set; empty if they are too few. */
    public Optional<ImageMark> finished(String id) {
        return isComplete() || canBeClosed() ? mark(id, set) : Optional.empty();
    }

    /** What it would be if the pointer's place were set too; lines between the points while they are too few for more. */
    public Optional<ImageMark> preview() {
        List<PatientPoint> points = new ArrayList<>(set);
        points.add(pointer);
        return mark("drawing", points);
    }

    private Optional<ImageMark> mark(String id, List<PatientPoint> points) {
        if (points.size() < 2) {
            return Optional.empty();
        }
        PatientPoint first = points.get(0);
        PatientPoint second = points.get(1);
        boolean isMere = points.size() == 2;
        return Optional.of(
                switch (tool) {
                    case LENGTH -> new LengthMark(id, place, first, second);
                    case ELLIPSE -> new RegionMark(id, place, RegionMark.Kind.ELLIPSE, List.of(first, second));
                    case RECTANGLE -> new RegionMark(id, place, RegionMark.Kind.RECTANGLE, List.of(first, second));
                    case ANGLE ->
                        isMere
                                ? new LengthMark(id, place, first, second)
                                : new AngleMark(id, place, first, second, points.get(2));
                    case POLYGON ->
                        isMere
                                ? new LengthMark(id, place, first, second)
                                : new RegionMark(id, place, RegionMark.Kind.POLYGON, points);
                });
    }
}
