package org.holdfast.desktop.viewmodel;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.construct.Construct;
import org.holdfast.desktop.state.Words;
import org.holdfast.desktop.viewmodel.NumberUnder.Bar;
import org.holdfast.measure.ComponentExam;
import org.holdfast.measure.Continuity;
import org.holdfast.measure.Continuity.Break;
import org.holdfast.measure.Migration;
import org.holdfast.measure.Migration.Motion;
import org.holdfast.measure.ScrewLucency.Zone;

/** The number under a screw, rod or body, with its error and with what the scan could not have shown. */
final class ComponentNumber {

    /** The bar's end for a zone, and for a migration to either side, mm. */
    private static final double SCALE_MM = 4;
    /** Half-width of a 95 % interval in standard errors. */
    private static final double WITHIN_95 = 1.96;

    private static final String NOT_EXCLUDED = "does not exclude loosening";

    private ComponentNumber() {}

    static NumberUnder of(ComponentExam measured, PartCell cell, Construct construct) {
        return switch (measured.component().kind().family()) {
            case SCREW -> ofScrew(measured, cell);
            case ROD -> ofRod(measured, cell);
            default -> ofMigration(measured, cell, construct);
        };
    }

    private static NumberUnder ofScrew(ComponentExam measured, PartCell cell) {
        Optional<Zone> stated = measured.lucency().value().flatMap(ComponentFinding::zoneOf);
        if (stated.isEmpty() || stated.get().largestMeanMm().value().isEmpty()) {
            return NumberUnder.without(cell, cell.cause());
        }
        Zone zone = stated.get();
        OptionalDouble least = zone.smallestVisibleMm().value();
        String unseen = least.isPresent()
                ? "zones < " + Words.quantity(least.getAsDouble(), 1, "mm") + " unseen"
                : "smallest visible zone not stated";
        OptionalDouble seen = ComponentFinding.seenMm(zone);
        if (seen.isEmpty()) {
            Bar bar = least.isPresent() ? Bar.unseen(least.getAsDouble() / SCALE_MM) : Bar.NONE;
            String value = ComponentFinding.noZone(zone);
            return new NumberUnder(
                    cell.state(),
                    value,
                    "",
                    bar,
                    NOT_EXCLUDED,
                    NOT_EXCLUDED,
                    aside(measured, zone),
                    aside(measured, zone));
        }
        double at = seen.getAsDouble();
        double se = zone.largestMeanSeMm().value().orElse(0);
        return new NumberUnder(
                cell.state(),
                "zone " + Words.number(at, 1) + (se > 0 ? " ± " + Words.number(se, 1) : "") + "\u2009mm",
                "",
                Bar.of((at - WITHIN_95 * se) / SCALE_MM, at / SCALE_MM, (at + WITHIN_95 * se) / SCALE_MM),
                "mean ± SE; " + unseen,
                unseen,
                aside(measured, zone),
                aside(measured, zone));
    }

    private static String aside(ComponentExam measured, Zone zone) {
        String whole =
                measured.continuity().value().map(ComponentNumber::breakOrNone).orElse("break: not assessable");
        String since = zone.isNew() ? "new; " : zone.isOverLimit() ? "baseline; " : "";
        return since + sector(zone) + "; " + whole;
    }

    private static String sector(Zone zone) {
        OptionalDouble widest = zone.widestSectorMm().value();
        return widest.isPresent()
                ? "widest sector " + Words.quantity(widest.getAsDouble(), 1, "mm")
                : "widest sector not stated";
    }

    private static String breakOrNone(Continuity whole) {
        return whole.breaks().isEmpty()
                ? ComponentFinding.noBreak(whole)
                : whole.breaks().get(0).status() == Continuity.Status.CONFIRMED
                        ? ComponentFinding.broken(whole.breaks().get(0))
                        : "break unconfirmed";
    }

    private static NumberUnder ofRod(ComponentExam measured, PartCell cell) {
        Optional<Continuity> stated = measured.continuity().value();
        if (stated.isEmpty()) {
            return NumberUnder.without(cell, cell.cause());
        }
        Continuity whole = stated.get();
        OptionalDouble least = whole.smallestVisibleBreakMm().value();
        String limit = least.isPresent()
                ? "breaks < " + Words.quantity(least.getAsDouble(), 1, "mm") + " unseen"
                : "smallest visible break not stated";
        String bend = whole.bendChangeDeg()
                .map(degrees -> "bend " + MotionWords.signed(degrees, 1) + "° since reference")
                .orElse("");
        double hiddenMm = whole.unassessed().stream()
                .mapToDouble(each -> each.toMm() - each.fromMm())
                .sum();
        String hidden = hiddenMm > 0 ? Words.quantity(hiddenMm, 0, "mm") + " not assessable" : "";
        String aside = bend.isEmpty() || hidden.isEmpty() ? bend + hidden : hidden + "; " + bend;
        if (whole.breaks().isEmpty()) {
            String value = whole.isBent() ? cell.words() : ComponentFinding.noBreak(whole);
            return new NumberUnder(
                    cell.state(), value, "", Bar.NONE, "a narrower break is not excluded", limit, aside, aside);
        }
        Break first = whole.breaks().get(0);
        String value = first.status() == Continuity.Status.CONFIRMED
                ? ComponentFinding.broken(first)
                : "unconfirmed, " + gap(first);
        String more = whole.breaks().size() > 1 ? whole.breaks().size() + " breaks; " : "";
        String second = first.status() == Continuity.Status.CONFIRMED
                ? form(first)
                : "seen on an artefact-reduced series only, or on one of which that is not known";
        return new NumberUnder(
                cell.state(), value, "", Bar.NONE, more + "gap along the axis; " + limit, limit, second, second);
    }

    private static String gap(Break each) {
        OptionalDouble gap = each.gapAlongAxisMm().value();
        return gap.isPresent() ? Words.quantity(gap.getAsDouble(), 1, "mm") : "gap not stated";
    }

    /** Step, angle and whether the ends are displaced. */
    static String form(Break each) {
        String step = Words.millimetres(each.stepMm().value(), 1, "not stated");
        OptionalDouble angle = each.angulationDeg().value();
        return (each.isDisplaced() ? "displaced" : "not displaced") + ", step " + step
                + (angle.isPresent() ? ", angle " + Words.number(angle.getAsDouble(), 1) + "°" : "");
    }

    private static NumberUnder ofMigration(ComponentExam measured, PartCell cell, Construct construct) {
        List<Migration> stated = MotionWords.gravestFirst(measured.migration());
        if (stated.isEmpty()) {
            return NumberUnder.without(cell, cell.cause());
        }
        Migration first = stated.get(0);
        Motion motion = first.motion().value().get();
        double at = subsidence(motion);
        String band = "± " + Words.quantity(motion.repeatabilityMm(), 1, "mm");
        String second = stated.stream()
                .filter(each -> each != first)
                .map(each -> inBone(each, construct))
                .findFirst()
                .orElse("");
        double half = 2 * SCALE_MM;
        return new NumberUnder(
                cell.state(),
                where(first, construct),
                "",
                Bar.of(
                        0.5 + (at - motion.repeatabilityMm()) / half,
                        0.5 + at / half,
                        0.5 + (at + motion.repeatabilityMm()) / half),
                verdict(motion) + ": repeatability " + band,
                verdict(motion) + ", " + band,
                second,
                second);
    }

    /** Into the bone where there is an interface, else how far. */
    private static double subsidence(Motion motion) {
        return motion.intoBoneMm().value().orElse(motion.translationMm().norm());
    }

    private static String inBone(Migration each, Construct construct) {
        return where(each, construct) + ", " + verdict(each.motion().value().orElseThrow());
    }

    private static String verdict(Motion motion) {
        return motion.isWithinError() ? "within error" : "beyond error";
    }

    private static String where(Migration each, Construct construct) {
        Motion motion = each.motion().value().orElseThrow();
        String bone = BoneNames.of(construct, each.bone());
        OptionalDouble into = motion.intoBoneMm().value();
        return into.isPresent()
                ? Words.quantity(into.getAsDouble(), 1, "mm") + " into " + bone
                : Words.quantity(motion.translationMm().norm(), 1, "mm") + " in " + bone;
    }
}
