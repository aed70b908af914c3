package org.holdfast.desktop.viewmodel;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.holdfast.construct.CutAxes;
import org.holdfast.desktop.state.ImageMark.AngleMark;
import org.holdfast.desktop.state.ImageMark.LengthMark;
import org.holdfast.desktop.state.ImageMark.RegionMark;
import org.holdfast.desktop.state.MarkPlace;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/** Marks on the slice at 306 mm of {@link SampleExam#straight()}; places are given as x and y in mm. */
final class Marks {

    static final double HEIGHT = 306;
    static final CutAxes AXIAL = new CutAxes(PatientVector.LEFT, PatientVector.POSTERIOR);

    private Marks() {}

    static PatientPoint at(double x, double y) {
        return new PatientPoint(x, y, HEIGHT);
    }

    static MarkPlace place(CutAxes axes) {
        return new MarkPlace("part", 0, at(0, 25), axes, Optional.empty());
    }

    static LengthMark length(PatientPoint from, PatientPoint to) {
        return new LengthMark("length", place(AXIAL), from, to);
    }

    static AngleMark angle(PatientPoint first, PatientPoint vertex, PatientPoint second) {
        return new AngleMark("angle", place(AXIAL), first, vertex, second);
    }

    static RegionMark region(RegionMark.Kind kind, CutAxes axes, double... xy) {
        List<PatientPoint> points = Stream.iterate(0, n -> n < xy.length, n -> n + 2)
                .map(n -> at(xy[n], xy[n + 1]))
                .toList();
        return new RegionMark("region", place(axes), kind, points);
    }
}
