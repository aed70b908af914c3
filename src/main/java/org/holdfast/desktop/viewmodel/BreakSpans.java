package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.holdfast.construct.ConstructPart;
import org.holdfast.construct.PartKind;
import org.holdfast.desktop.viewmodel.CourseLines.BreakSpan;
import org.holdfast.desktop.viewmodel.CourseLines.Station;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.measure.ComponentExam;
import org.holdfast.measure.Continuity;

/** When rods and screws broke: between the last exam without and the first with a break. */
final class BreakSpans {

    private BreakSpans() {}

    static List<BreakSpan> of(List<ConstructPart> parts, List<Station> stations, String pickedPartId, Known known) {
        List<BreakSpan> spans = new ArrayList<>();
        for (ConstructPart part : parts) {
            if (part.kind() == PartKind.ROD || part.kind() == PartKind.SCREW) {
                span(part, stations, part.id().equals(pickedPartId), known).ifPresent(spans::add);
            }
        }
        return spans;
    }

    /** A confirmed break tells when; where there is none an unconfirmed one does. */
    private static Optional<BreakSpan> span(ConstructPart part, List<Station> stations, boolean isPicked, Known known) {
        return span(part, stations, isPicked, true, known).or(() -> span(part, stations, isPicked, false, known));
    }

    private static Optional<BreakSpan> span(
            ConstructPart part, List<Station> stations, boolean isPicked, boolean isConfirmed, Known known) {
        OptionalInt whole = OptionalInt.empty();
        for (int n = 0; n < stations.size(); n++) {
            Optional<Continuity> continuity = known.component(stations.get(n).label(), part.id())
                    .map(ComponentExam::continuity)
                    .flatMap(answer -> answer.value());
            if (continuity.isEmpty()) {
                continue;
            }
            Continuity.Status wanted = isConfirmed ? Continuity.Status.CONFIRMED : Continuity.Status.UNCONFIRMED;
            if (continuity.get().breaks().stream().anyMatch(each -> each.status() == wanted)) {
                return Optional.of(new BreakSpan(
                        part.id(),
                        part.label(),
                        isPicked,
                        whole,
                        n,
                        isConfirmed,
                        words(part, stations, whole, n, isConfirmed)));
            }
            if (continuity.get().breaks().isEmpty()) {
                whole = OptionalInt.of(n);
            }
        }
        return Optional.empty();
    }

    private static String words(
            ConstructPart part, List<Station> stations, OptionalInt whole, int broken, boolean isConfirmed) {
        String first = stations.get(broken).label();
        if (!isConfirmed) {
            return part.label() + ": break at " + first + ", unconfirmed";
        }
        return whole.isPresent()
                ? part.label() + ": no break seen at "
                        + stations.get(whole.getAsInt()).label() + ", broken at " + first
                : part.label() + ": broken at " + first;
    }
}
