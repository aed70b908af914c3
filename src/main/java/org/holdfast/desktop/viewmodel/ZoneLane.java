package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.construct.ConstructPart;
import org.holdfast.construct.PartKind;
import org.holdfast.desktop.viewmodel.CourseLines.Lane;
import org.holdfast.desktop.viewmodel.CourseLines.Line;
import org.holdfast.desktop.viewmodel.CourseLines.Quantity;
import org.holdfast.desktop.viewmodel.CourseLines.Station;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.measure.ComponentExam;
import org.holdfast.measure.ScrewLucency.Zone;

/** Widths of zones: of the chosen screw, and of every other that has ever shown one. */
final class ZoneLane {

    private static final double LEAST_SCALE_MM = 3;
    private static final double WITHIN_95 = 1.96;

    private ZoneLane() {}

    static Optional<Lane> of(List<ConstructPart> parts, List<Station> stations, String pickedPartId, Known known) {
        List<Line> lines = new ArrayList<>();
        double highest = LEAST_SCALE_MM;
        for (ConstructPart part : parts) {
            boolean isPicked = part.id().equals(pickedPartId);
            if (part.kind() != PartKind.SCREW) {
                continue;
            }
            List<CourseReading> readings =
                    stations.stream().map(s -> reading(part, s, known)).toList();
            boolean hasZone = readings.stream().anyMatch(r -> r.value().isPresent());
            boolean isMeasured = readings.stream().anyMatch(r -> r.unseen().isPresent()) || hasZone;
            if (hasZone || isPicked && isMeasured) {
                lines.add(new Line(part.id(), part.label(), isPicked, CourseReading.joined(readings)));
            }
            for (CourseReading each : readings) {
                highest = Math.max(highest, Math.ceil(each.value().orElse(0)));
            }
        }
        return lines.isEmpty()
                ? Optional.empty()
                : Optional.of(new Lane(Quantity.ZONE, 0, highest, Optional.empty(), lines));
    }

    private static CourseReading reading(ConstructPart part, Station station, Known known) {
        Optional<ComponentExam> measured = known.component(station.label(), part.id());
        if (measured.isEmpty()) {
            return CourseReading.not(CourseLines.NOT_MEASURED);
        }
        Optional<Zone> zone = measured.get().lucency().value().flatMap(ComponentFinding::zoneOf);
        if (zone.isEmpty() || zone.get().largestMeanMm().value().isEmpty()) {
            return CourseReading.not(ComponentCauses.whyNoZone(measured.get().lucency()));
        }
        OptionalDouble seen = ComponentFinding.seenMm(zone.get());
        OptionalDouble least = zone.get().smallestVisibleMm().value();
        if (seen.isEmpty()) {
            return least.isPresent()
                    ? CourseReading.unseen(least.getAsDouble(), station, part.id(), known)
                    : CourseReading.not("no zone seen, smallest visible zone not stated");
        }
        double at = seen.getAsDouble();
        double error = WITHIN_95 * zone.get().largestMeanSeMm().value().orElse(0);
        return CourseReading.ofHu(
                seen,
                OptionalDouble.of(Math.max(0, at - error)),
                OptionalDouble.of(at + error),
                station,
                part.id(),
                known);
    }
}
