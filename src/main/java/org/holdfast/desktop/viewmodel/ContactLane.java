package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.construct.ConstructPart;
import org.holdfast.construct.PartKind;
import org.holdfast.desktop.viewmodel.ContactHeadline.Estimator;
import org.holdfast.desktop.viewmodel.CourseLines.Lane;
import org.holdfast.desktop.viewmodel.CourseLines.Line;
import org.holdfast.desktop.viewmodel.CourseLines.Quantity;
import org.holdfast.desktop.viewmodel.CourseLines.Station;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.measure.InterfaceExam;

/**
 * Contact of every face. A face has one estimator along its line: the fit if any exam states it, else the threshold; the
 * chosen face has the threshold as a second line then.
 */
final class ContactLane {

    private ContactLane() {}

    static Optional<Lane> of(List<ConstructPart> parts, List<Station> stations, String pickedPartId, Known known) {
        List<Line> lines = new ArrayList<>();
        for (ConstructPart part : parts) {
            if (part.kind() != PartKind.INTERFACE) {
                continue;
            }
            boolean isPicked = part.id().equals(pickedPartId);
            boolean isFitted = stations.stream().anyMatch(s -> known.of(s.label(), part.id())
                    .flatMap(ContactHeadline::byFit)
                    .filter(ContactHeadline::isStated)
                    .isPresent());
            Estimator first = isFitted ? Estimator.BY_FIT : Estimator.BY_THRESHOLD;
            lines.add(line(part, stations, isPicked, first, false, known));
            if (isPicked && isFitted) {
                lines.add(line(part, stations, true, Estimator.BY_THRESHOLD, true, known));
            }
        }
        return lines.isEmpty()
                ? Optional.empty()
                : Optional.of(new Lane(Quantity.CONTACT, 0, 1, Optional.empty(), lines));
    }

    private static Line line(
            ConstructPart part,
            List<Station> stations,
            boolean isPicked,
            Estimator estimator,
            boolean isSecond,
            Known known) {
        List<CourseReading> readings =
                stations.stream().map(s -> reading(part, s, estimator, known)).toList();
        String label = isSecond ? "by threshold" : part.label();
        return new Line(part.id(), label, isPicked, isSecond, CourseReading.joined(readings));
    }

    private static CourseReading reading(ConstructPart part, Station station, Estimator estimator, Known known) {
        Optional<InterfaceExam> result = known.of(station.label(), part.id());
        if (result.isEmpty()) {
            return CourseReading.not(CourseLines.NOT_MEASURED);
        }
        Optional<ContactHeadline> contact = estimator == Estimator.BY_FIT
                ? ContactHeadline.byFit(result.get())
                : ContactHeadline.byThreshold(result.get());
        if (contact.isEmpty()) {
            boolean isRefused = estimator == Estimator.BY_THRESHOLD;
            return CourseReading.not(
                    isRefused
                            ? result.get().verdict().value().words()
                            : result.get().byFit().why());
        }
        ContactHeadline c = contact.get();
        return c.isStated()
                ? CourseReading.ofHu(c.fraction().value(), c.low(), c.high(), station, part.id(), known)
                : CourseReading.not(c.fraction().why());
    }
}
