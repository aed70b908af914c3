package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.holdfast.app.ExamResult;
import org.holdfast.construct.ConstructPart;
import org.holdfast.construct.PartKind;
import org.holdfast.desktop.state.ShortName;
import org.holdfast.desktop.viewmodel.CourseLines.Band;
import org.holdfast.desktop.viewmodel.CourseLines.Lane;
import org.holdfast.desktop.viewmodel.CourseLines.Line;
import org.holdfast.desktop.viewmodel.CourseLines.Quantity;
import org.holdfast.desktop.viewmodel.CourseLines.Station;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.measure.ComponentExam;
import org.holdfast.measure.Migration;
import org.holdfast.measure.Migration.Motion;
import org.holdfast.measure.Stated;

/** Migration through the exams with the band of its repeatability: subsidence into each bone, angle of the chosen screw. */
final class MotionLane {

    /** Half of the least scale, mm and degrees. */
    private static final double LEAST_HALF = 1;

    private final Function<Motion, Stated> value;
    private final ToDoubleFunction<Motion> repeatability;
    private final List<Station> stations;
    private final Known known;

    private MotionLane(
            Function<Motion, Stated> value,
            ToDoubleFunction<Motion> repeatability,
            List<Station> stations,
            Known known) {
        this.value = value;
        this.repeatability = repeatability;
        this.stations = stations;
        this.known = known;
    }

    /** Into each bone, mm, of bodies; positive towards the bone. */
    static Optional<Lane> subsidence(
            List<ConstructPart> parts, List<Station> stations, String pickedPartId, Known known) {
        MotionLane lane = new MotionLane(Motion::intoBoneMm, Motion::repeatabilityMm, stations, known);
        return lane.of(
                Quantity.SUBSIDENCE,
                parts.stream().filter(part -> part.kind() == PartKind.BODY).toList(),
                pickedPartId);
    }

    /** The chosen screw against its bone, degrees. */
    static Optional<Lane> screwAngle(
            List<ConstructPart> parts, List<Station> stations, String pickedPartId, Known known) {
        MotionLane lane = new MotionLane(Motion::screwAngleChangeDeg, Motion::repeatabilityDeg, stations, known);
        return lane.of(
                Quantity.SCREW_ANGLE,
                parts.stream()
                        .filter(part ->
                                part.kind() == PartKind.SCREW && part.id().equals(pickedPartId))
                        .toList(),
                pickedPartId);
    }

    private Optional<Lane> of(Quantity quantity, List<ConstructPart> parts, String pickedPartId) {
        List<Line> lines = new ArrayList<>();
        for (ConstructPart part : parts) {
            boolean isFirst = true;
            for (String bone : bones(part)) {
                List<CourseReading> readings =
                        stations.stream().map(s -> reading(part, bone, s)).toList();
                String label = ShortName.of(part.label()) + " in " + BoneNames.of(known, bone);
                lines.add(new Line(part.id(), label, part.id().equals(pickedPartId), CourseReading.joined(readings)));
            }
        }
        if (lines.isEmpty()) {
            return Optional.empty();
        }
        Optional<Band> band = band(parts);
        double half = Math.max(LEAST_HALF, band.map(Band::high).orElse(0.0));
        for (Line line : lines) {
            for (CourseLines.Point point : line.points()) {
                half = Math.max(half, Math.ceil(Math.abs(point.value().orElse(0))));
            }
        }
        return Optional.of(new Lane(quantity, -half, half, band, lines));
    }

    /** Bones against which a motion of the part is stated in any exam. */
    private Set<String> bones(ConstructPart part) {
        Set<String> bones = new LinkedHashSet<>();
        for (Station station : stations) {
            for (Migration each : migrations(part, station)) {
                if (each.motion().value().map(value).flatMap(MotionLane::stated).isPresent()) {
                    bones.add(each.bone());
                }
            }
        }
        return bones;
    }

    private static Optional<Double> stated(Stated stated) {
        return stated.value().isPresent() ? Optional.of(stated.value().getAsDouble()) : Optional.empty();
    }

    private List<Migration> migrations(ConstructPart part, Station station) {
        return known.component(station.label(), part.id())
                .map(ComponentExam::migration)
                .orElse(List.of());
    }

    private CourseReading reading(ConstructPart part, String bone, Station station) {
        if (known.exam(station.label()).map(ExamResult::isReference).orElse(false)) {
            return CourseReading.ofGeometry(0, 0, station, part.id(), known);
        }
        Optional<Migration> migration = migrations(part, station).stream()
                .filter(each -> each.bone().equals(bone))
                .findFirst();
        if (migration.isEmpty()) {
            return CourseReading.not(CourseLines.NOT_MEASURED);
        }
        Optional<Motion> motion = migration.get().motion().value();
        if (motion.isEmpty()) {
            return CourseReading.not(migration.get().motion().why());
        }
        return stated(value.apply(motion.get()))
                .map(at -> CourseReading.ofGeometry(
                        at, repeatability.applyAsDouble(motion.get()), station, part.id(), known))
                .orElseGet(() -> CourseReading.not(value.apply(motion.get()).why()));
    }

    /** The widest repeatability of all exams, about no change. */
    private Optional<Band> band(List<ConstructPart> parts) {
        double widest = 0;
        String source = "";
        for (ConstructPart part : parts) {
            for (Station station : stations) {
                for (Migration each : migrations(part, station)) {
                    Optional<Motion> motion = each.motion().value();
                    double width = motion.map(repeatability::applyAsDouble).orElse(0.0);
                    if (width > widest) {
                        widest = width;
                        source = motion.get().repeatabilitySource();
                    }
                }
            }
        }
        return widest > 0 ? Optional.of(new Band(-widest, widest, source)) : Optional.empty();
    }
}
