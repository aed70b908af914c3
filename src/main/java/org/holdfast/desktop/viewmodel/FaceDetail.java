package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.holdfast.app.ContactReport;
import org.holdfast.app.ReviewExam;
import org.holdfast.app.SimulationTruth;
import org.holdfast.desktop.state.Words;
import org.holdfast.desktop.viewmodel.PartDetail.Row;
import org.holdfast.desktop.viewmodel.PartDetail.Section;
import org.holdfast.measure.ChangeMap;
import org.holdfast.measure.FittedContact;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.Obstacle;
import org.holdfast.measure.PorousFill;
import org.holdfast.measure.Stated;
import org.holdfast.measure.ThresholdContact;

/** Tables behind the number of a face: both estimators, what changed since the reference exam, what is true. */
final class FaceDetail {

    private FaceDetail() {}

    static List<Section> of(InterfaceExam measured, ReviewExam exam, ContactReport report, SimulationTruth truth) {
        List<Section> sections = new ArrayList<>();
        sections.add(new Section(
                "By fit",
                measured.byFit()
                        .value()
                        .map(FaceDetail::fit)
                        .orElseGet(() -> List.of(new Row(
                                "Contact",
                                DetailRow.NOT_STATED,
                                measured.byFit().why())))));
        measured.contact().ifPresent(c -> sections.add(new Section("By threshold", threshold(c))));
        sections.add(new Section("Since the reference exam", since(measured)));
        List<Row> face = new ArrayList<>();
        measured.contact()
                .map(ThresholdContact::areaMm2)
                .or(() -> measured.byFit().value().map(FittedContact::areaMm2))
                .ifPresent(area -> face.add(new Row("Area", Words.quantity(area, 0, "mm²"), "")));
        face.add(new Row(
                "Construct",
                report.construct().id() + ", version " + report.construct().version(),
                ""));
        face.addAll(truthRows(exam, measured, truth));
        sections.add(new Section("Face", face));
        return sections;
    }

    private static List<Row> fit(FittedContact c) {
        List<Row> rows = new ArrayList<>();
        String bounds = c.low().value().isPresent() && c.high().value().isPresent()
                ? " ("
                        + Words.percentRange(
                                c.low().value().getAsDouble(), c.high().value().getAsDouble())
                        + ")"
                : "";
        rows.add(DetailRow.of("Contact", c.fraction(), value -> Words.percent(value) + bounds));
        rows.add(DetailRow.percent("Opposite host bone", c.ofOppositeBone()));
        rows.add(DetailRow.percent("Bridged", c.bridged()));
        rows.add(new Row("Cannot tell", Words.percent(c.notAssessable()), obstacles(c.obstacles())));
        rows.add(DetailRow.millimetres("Smallest visible gap", c.smallestVisibleGapMm(), 2));
        rows.add(gaps(c.gapMm(), "fitted width of the gap over all that can be assessed, contact included"));
        rows.add(DetailRow.millimetres("Gap, SE of a place", c.gapSeMm(), 2));
        rows.add(new Row("Bone from", Words.quantity(c.boneHu(), 0, "HU"), "bone of fewer HU counts as none"));
        return rows;
    }

    private static List<Row> threshold(ThresholdContact c) {
        List<Row> rows = new ArrayList<>();
        String bounds = " (" + Words.percentRange(c.low(), c.high()) + ")";
        rows.add(DetailRow.of("Contact", c.fraction(), value -> Words.percent(value) + bounds));
        rows.add(DetailRow.percent("Opposite host bone", c.ofOppositeBone()));
        rows.add(DetailRow.percent("Bridged", c.bridged()));
        rows.add(new Row("Cannot tell", Words.percent(c.notAssessable()), obstacles(c.obstacles())));
        rows.add(DetailRow.millimetres("Smallest visible gap", c.smallestVisibleGapMm(), 2));
        rows.add(new Row("Bone ± 50 HU", shifted(c, 50), "the number with the bone threshold 50 HU higher and lower"));
        rows.add(new Row("Bone ± 100 HU", shifted(c, 100), "the same with 100 HU"));
        rows.add(DetailRow.of("Pose jitter, SD", c.jitterSd(), sd -> Words.quantity(100 * sd, 1, "points")));
        rows.add(new Row(
                "Bone from",
                Words.quantity(c.boneHu(), 0, "HU") + ", guard " + Words.quantity(c.guardMm(), 1, "mm"),
                c.boneRule()));
        rows.add(DetailRow.hounsfield("Host bone", c.hostHu()));
        rows.add(DetailRow.hounsfield("Noise, SD", c.noiseSdHu()));
        rows.add(gaps(c.gapMm(), "where bone was found at a distance"));
        return rows;
    }

    private static List<Row> since(InterfaceExam measured) {
        List<Row> rows = new ArrayList<>();
        PorousFill fill = measured.fill();
        String drift = fill.driftHu().value().isPresent()
                ? "drift of " + MotionWords.signed(fill.driftHu().value().getAsDouble(), 0) + "\u2009HU in "
                        + fill.reference() + " taken off; no clinical threshold exists"
                : "";
        Row stated = DetailRow.of(
                "Bone in the pores (exploratory)",
                fill.value(),
                value -> Words.number(100 * value, 1)
                        + (fill.se().value().isPresent()
                                ? " ± " + Words.number(100 * fill.se().value().getAsDouble(), 1)
                                : "")
                        + "\u2009%");
        rows.add(stated.why().isEmpty() ? new Row(stated.name(), stated.value(), drift) : stated);
        Optional<ChangeMap> change = measured.change().value();
        if (change.isEmpty()) {
            rows.add(new Row(
                    "Change of mineral", DetailRow.NOT_STATED, measured.change().why()));
            return rows;
        }
        ChangeMap map = change.get();
        rows.add(new Row(
                "More mineral",
                Words.percentRange(map.more(), map.moreAtMost()) + "\u2009%",
                "if nothing, or all, that is not comparable had more"));
        rows.add(new Row(
                "Less mineral",
                Words.percentRange(map.less(), map.lessAtMost()) + "\u2009%",
                "if nothing, or all, that is not comparable had less"));
        rows.add(new Row("Within error", Words.percent(map.none()), "share of the whole face"));
        rows.add(new Row("Not comparable", Words.percent(map.notComparable()), "share of the whole face"));
        rows.add(new Row("Error, SD", Words.quantity(map.errorHu(), 0, "HU"), map.errorSource()));
        rows.add(new Row(
                "Smallest visible change",
                Words.quantity(map.smallestVisibleHu(), 0, "HU"),
                "found at 95 of 100 places"));
        rows.add(DetailRow.hounsfield("Drift in muscle", map.driftHu()));
        return rows;
    }

    private static Row gaps(ThresholdContact.Spread gapMm, String what) {
        OptionalDouble median = gapMm.median();
        OptionalDouble p90 = gapMm.p90();
        String value = median.isPresent() && p90.isPresent()
                ? Words.number(median.getAsDouble(), 1) + ", " + Words.quantity(p90.getAsDouble(), 1, "mm")
                : "no gap seen";
        return new Row("Gaps, median, 90th", value, what);
    }

    private static String shifted(ThresholdContact c, int hu) {
        Stated lower = c.sensitivity().get(-hu);
        Stated higher = c.sensitivity().get(hu);
        if (lower == null
                || higher == null
                || lower.value().isEmpty()
                || higher.value().isEmpty()) {
            return DetailRow.NOT_STATED;
        }
        return Words.percentRange(higher.value().getAsDouble(), lower.value().getAsDouble()) + '\u2009' + '%';
    }

    private static String obstacles(Map<Obstacle, Double> shares) {
        return shares.entrySet().stream()
                .sorted(Map.Entry.comparingByKey())
                .map(e -> Words.percent(e.getValue()) + " " + e.getKey().words())
                .collect(Collectors.joining("; "));
    }

    private static List<Row> truthRows(ReviewExam exam, InterfaceExam measured, SimulationTruth truth) {
        String id = measured.face().id();
        OptionalDouble touching = truth.touchingFraction(exam.label(), id);
        if (touching.isEmpty()) {
            return List.of();
        }
        List<Row> rows = new ArrayList<>();
        rows.add(new Row(
                "Simulated truth",
                Words.percent(touching.getAsDouble()) + " touching",
                "known because it is invented"));
        ContactHeadline.of(measured)
                .map(headline -> headline.smallestVisibleGapMm().value())
                .filter(OptionalDouble::isPresent)
                .ifPresent(gap -> rows.add(new Row(
                        "under the unseen gap",
                        Words.percent(truth.fractionUnder(exam.label(), id, gap.getAsDouble())
                                .orElseThrow()),
                        "what a scan with this limit should read as contact")));
        return rows;
    }
}
