package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.construct.ComponentKind;
import org.holdfast.construct.Construct;
import org.holdfast.desktop.state.Words;
import org.holdfast.desktop.viewmodel.PartDetail.Row;
import org.holdfast.desktop.viewmodel.PartDetail.Section;
import org.holdfast.measure.Answer;
import org.holdfast.measure.ComponentExam;
import org.holdfast.measure.Continuity;
import org.holdfast.measure.Continuity.Break;
import org.holdfast.measure.LucencySettings;
import org.holdfast.measure.LucencySettings.Comparison;
import org.holdfast.measure.LucencySettings.JudgedBy;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.Migration;
import org.holdfast.measure.Migration.Motion;
import org.holdfast.measure.ScrewLucency.Zone;

/** Tables behind what is said of a screw, rod or body: zone, continuity, migration in each bone. */
final class ComponentDetail {

    /** What goes with every zone; the two figures are those of two studies with different references. */
    private static final String NO_ZONE_CAUTION =
            "Absence of a zone does not exclude loosening: CT showed 22 % and 64.8 % of loose"
                    + " screws in two studies with different torque references.";

    private static final String NO_BREAK_CAUTION =
            "Blur fills narrow breaks, and artefact reduction can draw a false break or hide a true one.";

    private static final String NO_CHANGE_CAUTION = "A change within repeatability is no change, and never a failure.";

    private ComponentDetail() {}

    /** The standing text that goes with parts of a kind. */
    static String caution(ComponentKind kind) {
        return kind.isScrew() ? NO_ZONE_CAUTION : kind.isRod() ? NO_BREAK_CAUTION : NO_CHANGE_CAUTION;
    }

    static List<Section> of(ComponentExam measured, MeasurementSettings settings, Construct construct) {
        List<Section> sections = new ArrayList<>();
        if (measured.component().kind().isScrew()) {
            if (measured.lucency().value().isPresent()) {
                Answer<Zone> fit = measured.lucency().value().get().byFit();
                Answer<Zone> threshold = measured.lucency().value().get().byThreshold();
                sections.add(new Section("Zone, by fit", zone(fit, settings.lucency())));
                sections.add(new Section("Zone, by threshold", zone(threshold, settings.lucency())));
            } else {
                sections.add(
                        new Section("Zone", notStated("Zone", measured.lucency().why())));
            }
        }
        if (measured.component().kind().isScrew() || measured.component().kind().isRod()) {
            sections.add(new Section(
                    "Continuity",
                    measured.continuity()
                            .value()
                            .map(ComponentDetail::continuity)
                            .orElseGet(() ->
                                    notStated("Break", measured.continuity().why()))));
        }
        for (Migration each : measured.migration()) {
            sections.add(new Section(
                    "Migration in " + BoneNames.of(construct, each.bone()),
                    each.motion()
                            .value()
                            .map(ComponentDetail::motion)
                            .orElseGet(() -> notStated("Motion", each.motion().why()))));
        }
        return sections;
    }

    private static List<Row> notStated(String what, String why) {
        return List.of(new Row(what, DetailRow.NOT_STATED, why));
    }

    private static List<Row> zone(Answer<Zone> answer, LucencySettings rule) {
        if (answer.value().isEmpty()) {
            return notStated("Zone", answer.why());
        }
        Zone zone = answer.value().get();
        List<Row> rows = new ArrayList<>();
        OptionalDouble se = zone.largestMeanSeMm().value();
        rows.add(DetailRow.withError("Largest mean", zone.largestMeanMm(), se, 1, "mm"));
        rows.add(DetailRow.millimetres("Widest 60° × 5\u2009mm", zone.widestSectorMm(), 1));
        String limit = (rule.comparison() == Comparison.OVER ? "> " : "≥ ") + Words.quantity(rule.limitMm(), 1, "mm");
        String by = rule.judgedBy() == JudgedBy.CIRCUMFERENTIAL_MEAN ? "mean" : "sector";
        rows.add(new Row(
                "Rule",
                by + " " + limit,
                "mean round the screw, or widest sector; after Wu et al., J Orthop Surg Res 2019;14:6"));
        rows.add(new Row(
                "By this rule",
                !zone.isOverLimit()
                        ? "not over the limit"
                        : zone.isNew() ? "new since reference" : "there at reference",
                "a zone that was there on the reference exam is baseline"));
        rows.add(DetailRow.withError(
                "Wider than reference by", zone.growthMm(), zone.growthSeMm().value(), 1, "mm"));
        rows.add(DetailRow.millimetres("Length over limit", zone.lengthOverMm(), 1));
        rows.add(DetailRow.percent("Surface over limit", zone.shareOver()));
        rows.add(DetailRow.percent("Sclerotic rim", zone.rim()));
        rows.add(new Row("Cannot tell", Words.percent(zone.notAssessable()), "share of the surface in bone"));
        rows.add(DetailRow.millimetres("Smallest visible zone", zone.smallestVisibleMm(), 2));
        return rows;
    }

    private static List<Row> continuity(Continuity whole) {
        List<Row> rows = new ArrayList<>();
        for (Break each : whole.breaks()) {
            String status = each.status() == Continuity.Status.CONFIRMED ? "Break" : "Break, unconfirmed";
            rows.add(new Row(status, "at " + Words.quantity(each.atMm(), 1, "mm"), ComponentNumber.form(each)));
            rows.add(DetailRow.millimetres("Gap along the axis", each.gapAlongAxisMm(), 2));
            rows.add(DetailRow.millimetres("Gap across the cut", each.gapPerpendicularMm(), 2));
            rows.add(DetailRow.millimetres("Step", each.stepMm(), 1));
            rows.add(DetailRow.of("Angle", each.angulationDeg(), deg -> Words.number(deg, 1) + "°"));
            rows.add(new Row("Ends", each.isDisplaced() ? "displaced" : "not displaced", ""));
        }
        if (whole.breaks().isEmpty()) {
            rows.add(new Row("Break", "none seen", "a narrower one than the smallest visible is not excluded"));
        }
        rows.add(DetailRow.millimetres("Smallest visible break", whole.smallestVisibleBreakMm(), 2));
        for (Continuity.Unassessed each : whole.unassessed()) {
            String stretch = Words.number(each.fromMm(), 0) + " – " + Words.quantity(each.toMm(), 0, "mm");
            rows.add(new Row("Not assessable", stretch, each.why()));
        }
        if (!whole.caution().isEmpty()) {
            rows.add(new Row("Caution", "see the tooltip", whole.caution()));
        }
        Optional<Double> bend = whole.bendChangeDeg();
        rows.add(new Row(
                "Bend since reference",
                bend.map(deg -> MotionWords.signed(deg, 1) + "°").orElse("reference exam"),
                whole.isBent() ? "a plastic bend beyond error" : ""));
        rows.add(DetailRow.hounsfield("Metal's plateau", whole.plateauHu()));
        rows.add(new Row("Scale", whole.isClipped() ? "clipped" : "not clipped", ""));
        return rows;
    }

    private static List<Row> motion(Motion motion) {
        List<Row> rows = new ArrayList<>();
        rows.add(DetailRow.withError(
                "Into the bone", motion.intoBoneMm(), OptionalDouble.of(motion.repeatabilityMm()), 2, "mm"));
        rows.add(DetailRow.of(
                "Screw's angle",
                motion.screwAngleChangeDeg(),
                deg -> MotionWords.signed(deg, 1) + " ± " + Words.number(motion.repeatabilityDeg(), 1) + "°"));
        rows.add(new Row(
                "Moved",
                Words.quantity(motion.translationMm().norm(), 2, "mm"),
                MotionWords.way(motion.translationMm())));
        rows.add(new Row("Turned", Words.number(motion.rotationDeg().norm(), 2) + "°", ""));
        rows.add(new Row(
                "Repeatability",
                "± " + Words.quantity(motion.repeatabilityMm(), 2, "mm") + ", "
                        + Words.number(motion.repeatabilityDeg(), 2) + "°",
                motion.repeatabilitySource()));
        rows.add(new Row("Verdict", motion.isWithinError() ? "within error" : "beyond repeatability", ""));
        return rows;
    }
}
