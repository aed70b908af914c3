package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.desktop.state.PartState;
import org.holdfast.desktop.state.Words;
import org.holdfast.measure.ComponentExam;
import org.holdfast.measure.Continuity;
import org.holdfast.measure.Continuity.Break;
import org.holdfast.measure.Migration.Motion;
import org.holdfast.measure.ScrewLucency;
import org.holdfast.measure.ScrewLucency.Zone;
import org.holdfast.measure.Verdict;

/**
 * One thing that was found, or not found, on a component: its state and the words of its mark. A component's cell shows
 * the gravest. Immutable.
 *
 * @param state which mark
 * @param words short words beside the mark
 */
public record ComponentFinding(PartState state, String words) {

    /** From the gravest to the least; what hides the answer comes before what is all right. */
    private static final List<PartState> GRAVITY = List.of(
            PartState.FAULT,
            PartState.UNCONFIRMED,
            PartState.CHANGED,
            PartState.NOT_ASSESSABLE,
            PartState.NOT_MEASURED,
            PartState.NO_FINDING);

    /**
     * All findings on a component in an exam, the gravest first, each once; at least one.
     *
     * @param measured what was measured
     * @param isReference whether the exam is the one that others are held against
     */
    public static List<ComponentFinding> of(ComponentExam measured, boolean isReference) {
        Verdict.Value verdict = measured.verdict().value();
        if (verdict == Verdict.Value.NOT_ANSWERABLE || verdict == Verdict.Value.READER_ONLY) {
            String words = verdict == Verdict.Value.READER_ONLY ? "read by eye" : "not assessable";
            return List.of(new ComponentFinding(PartState.NOT_ASSESSABLE, words));
        }
        List<ComponentFinding> found = new ArrayList<>();
        switch (measured.component().kind().family()) {
            case SCREW -> {
                found.add(ofLucency(measured));
                found.addAll(ofContinuity(measured));
            }
            case ROD -> found.addAll(ofContinuity(measured));
            default -> {
                // Others are judged by where they went.
            }
        }
        boolean isWhole = !found.isEmpty();
        ofMigration(measured, isReference).stream()
                .filter(finding -> !isWhole || finding.state() == PartState.CHANGED)
                .forEach(found::add);
        found.sort((a, b) -> Integer.compare(GRAVITY.indexOf(a.state()), GRAVITY.indexOf(b.state())));
        return List.copyOf(found);
    }

    private static ComponentFinding ofLucency(ComponentExam measured) {
        Optional<Zone> zone = measured.lucency().value().flatMap(ComponentFinding::zoneOf);
        if (zone.isEmpty()) {
            return new ComponentFinding(PartState.NOT_ASSESSABLE, "not assessable");
        }
        return ofZone(zone.get());
    }

    /** The zone that decides: by fit where there is one, else by threshold. */
    public static Optional<Zone> zoneOf(ScrewLucency lucency) {
        return lucency.byFit().value().or(() -> lucency.byThreshold().value());
    }

    private static ComponentFinding ofZone(Zone zone) {
        OptionalDouble width = seenMm(zone);
        if (zone.largestMeanMm().value().isEmpty()) {
            return new ComponentFinding(PartState.NOT_ASSESSABLE, "not assessable");
        }
        if (width.isEmpty()) {
            return new ComponentFinding(PartState.NO_FINDING, noZone(zone));
        }
        String words = "zone " + Words.quantity(width.getAsDouble(), 1, "mm");
        if (ZoneRound.isAllRound(zone)) {
            return new ComponentFinding(PartState.FAULT, words);
        }
        return new ComponentFinding(zone.isOverLimit() ? PartState.CHANGED : PartState.NO_FINDING, words);
    }

    /** The largest mean width of a zone that the scan can show; empty where none is seen. */
    static OptionalDouble seenMm(Zone zone) {
        OptionalDouble width = zone.largestMeanMm().value();
        OptionalDouble least = zone.smallestVisibleMm().value();
        boolean isSeen = width.isPresent()
                && width.getAsDouble() > 0
                && (zone.isOverLimit() || least.isPresent() && width.getAsDouble() >= least.getAsDouble());
        return isSeen ? width : OptionalDouble.empty();
    }

    static String noZone(Zone zone) {
        OptionalDouble least = zone.smallestVisibleMm().value();
        return least.isPresent() ? "no zone ≥ " + Words.quantity(least.getAsDouble(), 1, "mm") : "no zone seen";
    }

    private static List<ComponentFinding> ofContinuity(ComponentExam measured) {
        if (measured.continuity().value().isEmpty()) {
            return List.of(new ComponentFinding(PartState.NOT_ASSESSABLE, "not assessable"));
        }
        Continuity whole = measured.continuity().value().get();
        List<ComponentFinding> found = new ArrayList<>();
        for (Break each : whole.breaks()) {
            found.add(
                    each.status() == Continuity.Status.CONFIRMED
                            ? new ComponentFinding(PartState.FAULT, broken(each))
                            : new ComponentFinding(PartState.UNCONFIRMED, "unconfirmed"));
        }
        if (whole.isBent()) {
            String by = whole.bendChangeDeg()
                    .map(degrees -> " " + Words.number(degrees, 1) + "°")
                    .orElse("");
            found.add(new ComponentFinding(PartState.CHANGED, "bent" + by));
        }
        if (found.isEmpty()) {
            found.add(new ComponentFinding(PartState.NO_FINDING, noBreak(whole)));
        }
        return found;
    }

    static String broken(Break each) {
        OptionalDouble gap = each.gapAlongAxisMm().value();
        return "broken, "
                + (gap.isPresent()
                        ? Words.quantity(gap.getAsDouble(), 1, "mm")
                        : each.isDisplaced() ? "displaced" : "gap not stated");
    }

    static String noBreak(Continuity whole) {
        OptionalDouble least = whole.smallestVisibleBreakMm().value();
        return least.isPresent() ? "no break ≥ " + Words.quantity(least.getAsDouble(), 1, "mm") : "no break seen";
    }

    private static List<ComponentFinding> ofMigration(ComponentExam measured, boolean isReference) {
        if (isReference) {
            return List.of(new ComponentFinding(PartState.NO_FINDING, "reference"));
        }
        List<ComponentFinding> found = new ArrayList<>();
        MotionWords.gravestFirst(measured.migration())
                .forEach(each -> found.add(ofMotion(each.motion().value().orElseThrow())));
        return found.isEmpty() ? List.of(new ComponentFinding(PartState.NOT_ASSESSABLE, "not assessable")) : found;
    }

    private static ComponentFinding ofMotion(Motion motion) {
        if (motion.isWithinError()) {
            return new ComponentFinding(PartState.NO_FINDING, "within error");
        }
        return new ComponentFinding(PartState.CHANGED, MotionWords.shortly(motion));
    }
}
