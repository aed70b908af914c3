package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.construct.Construct;
import org.holdfast.measure.Answer;
import org.holdfast.measure.ComponentExam;
import org.holdfast.measure.Continuity;
import org.holdfast.measure.Migration;
import org.holdfast.measure.ScrewLucency;
import org.holdfast.measure.ScrewLucency.Zone;

/** What there is to say of a component's state beyond the words of its mark. */
final class ComponentCauses {

    private ComponentCauses() {}

    /** Further findings, why something is not stated, and what the verdict says; may be empty. */
    static String of(ComponentExam measured, List<ComponentFinding> found, Construct construct) {
        List<String> causes = new ArrayList<>();
        found.stream().skip(1).map(ComponentFinding::words).forEach(causes::add);
        causes.addAll(measured.verdict().causes());
        measured.continuity()
                .value()
                .map(Continuity::caution)
                .filter(caution -> !caution.isEmpty())
                .ifPresent(causes::add);
        switch (measured.component().kind().family()) {
            case SCREW -> {
                add(causes, "zone: ", whyNoZone(measured.lucency()));
                add(causes, "break: ", measured.continuity().why());
            }
            case ROD -> add(causes, "break: ", measured.continuity().why());
            default -> {
                for (Migration each : measured.migration()) {
                    add(
                            causes,
                            "against " + BoneNames.of(construct, each.bone()) + ": ",
                            each.motion().why());
                }
            }
        }
        return String.join("; ", causes.stream().distinct().toList());
    }

    /** Why no zone is stated; empty text where one is. */
    static String whyNoZone(Answer<ScrewLucency> lucency) {
        if (lucency.value().isEmpty()) {
            return lucency.why();
        }
        Optional<Zone> zone = ComponentFinding.zoneOf(lucency.value().get());
        return zone.map(each -> each.largestMeanMm().why())
                .orElse(lucency.value().get().byFit().why());
    }

    private static void add(List<String> causes, String what, String why) {
        if (!why.isEmpty()) {
            causes.add(what + why);
        }
    }
}
