package org.holdfast.desktop.viewmodel;

import java.util.List;
import org.holdfast.desktop.state.Words;
import org.holdfast.desktop.viewmodel.PartDetail.Row;
import org.holdfast.measure.BoneThreshold;
import org.holdfast.measure.MeasurementSettings;

/** The thresholds that a measurement used, for a reader. */
public final class SettingsRows {

    private SettingsRows() {}

    /** One row a threshold; its name in the settings document stands in the explanation. */
    public static List<Row> of(MeasurementSettings s) {
        return List.of(
                new Row("Preset", s.preset().word(), "preset: " + s.preset().purpose()),
                new Row(
                        "Bone threshold",
                        s.boneThreshold() == BoneThreshold.FIXED ? hu(s.fixedBoneHu()) : "by host bone",
                        "boneThreshold: midway between fluid and host bone on the reference exam, or fixed"),
                new Row("at most", hu(s.maxBoneHu()), "maxBoneHu"),
                new Row("Fluid", hu(s.fluidHu()), "fluidHu"),
                new Row("Implant from", hu(s.implantMinHu()), "implantMinHu: lowest HU of an implant's plateau"),
                new Row(
                        "Dark streak under",
                        hu(s.darkHu()),
                        "darkHu: under it beside the implant nothing is concluded"),
                new Row("Guard, porous titanium", mm(s.guardPorousTitaniumMm()), "guardPorousTitaniumMm"),
                new Row("Guard, solid titanium", mm(s.guardSolidTitaniumMm()), "guardSolidTitaniumMm"),
                new Row("Guard, other metal", mm(s.guardOtherMm()), "guardOtherMm"),
                new Row("Contact within", mm(s.contactWithinMm()), "contactWithinMm: beyond the guard"),
                new Row("Gap at most", mm(s.gapLimitMm()), "gapLimitMm: wider counts as no bone"),
                new Row(
                        "Host bone at",
                        Words.number(s.hostFromMm(), 0) + " – " + mm(s.hostToMm()),
                        "hostFromMm, hostToMm: depth at which host bone is read"),
                new Row("Bridging depth", mm(s.bridgingDepthMm()), "bridgingDepthMm"),
                new Row("Assessable at least", Words.percent(s.minAssessable()), "minAssessable: less and no fraction"),
                new Row("Sample spacing", mm(s.sampleSpacingMm()), "sampleSpacingMm"),
                new Row("Fitted contact under", mm(s.fit().contactGapMm()), "fit.contactGapMm: width of the gap"),
                new Row("Fitted gap, SE at most", mm(s.fit().maxGapSeMm()), "fit.maxGapSeMm: else not assessable"),
                new Row("Change beyond", Words.number(s.change().beyondSd(), 2) + " SD", "change.beyondSd"),
                new Row("Zone limit", mm(s.lucency().limitMm()), "lucency.limitMm, comparison, judgedBy"),
                new Row("Rim from", hu(s.lucency().rimHu()), "lucency.rimHu: brighter than further out by so much"),
                new Row("Break, core dip over", Words.percent(s.continuity().dipShare()), "continuity.dipShare"),
                new Row("Break, step over", Words.percent(s.continuity().stepShare()), "continuity.stepShare"));
    }

    private static String hu(double value) {
        return Words.quantity(value, 0, "HU");
    }

    private static String mm(double value) {
        return Words.quantity(value, 1, "mm");
    }
}
