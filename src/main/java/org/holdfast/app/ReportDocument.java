package org.holdfast.app;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.Construct;
import org.holdfast.finding.Finding;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.Obstacle;
import org.holdfast.measure.SettingsJson;
import org.holdfast.measure.Stated;
import org.holdfast.measure.ThresholdContact;
import org.holdfast.measure.Verdict;
import org.holdfast.volume.Comparability.Difference;

/** A report as its JSON document: fractions 0 to 1, a number that is not stated is null with a reason beside it. */
public final class ReportDocument {

    static final int FORMAT_VERSION = 2;
    private static final String NO_FIT = "the estimator by fit is not part of this version";
    private static final String NO_FILL = "porous fill is not part of this version";
    private static final String NO_CHANGE = "the change map is not part of this version";
    private static final String NOT_ON_FILM = "a radiograph has no HU";
    static final String KIND = "kind";
    static final String RADIOGRAPH = "radiograph";
    static final String SERIES = "seriesUids";
    private static final String CONTACT_ONLY = "contact was asked for, nothing else";

    /** The document as text. */
    public String write(ContactReport report) {
        ObjectNode root = JsonDocument.empty();
        root.put("caution", Caution.TEXT);
        root.put("limits", Caution.APPARENT_CONTACT);
        root.put("software", Software.running().toString());
        root.put("formatVersion", FORMAT_VERSION);
        root.set("settings", SettingsJson.write(report.settings()));
        ObjectNode construct = root.putObject("construct");
        construct.put("id", report.construct().id());
        construct.put("version", report.construct().version());
        construct.put("sha256", report.construct().geometrySha256());
        findings(root.putArray("findings"), report.findings());
        ArrayNode exams = root.putArray("exams");
        report.exams().forEach(exam -> exam(exams.addObject(), exam));
        report.films().forEach(film -> film(exams.addObject(), film, report.construct()));
        return JsonDocument.text(root);
    }

    /** An exam of radiographs has the same fields; what it cannot have is null with the reason. */
    private static void film(ObjectNode node, FilmResult film, Construct construct) {
        node.put("label", film.label());
        node.put(KIND, RADIOGRAPH);
        node.put("seriesUid", film.seriesUids().get(0));
        ArrayNode series = node.putArray(SERIES);
        film.seriesUids().forEach(series::add);
        JsonDocument.absent(node, "seriesSha256", NOT_ON_FILM);
        days(node, film.daysSinceSurgery());
        node.put("reference", false);
        node.putArray("comparability");
        JsonDocument.absent(node, "pose", NOT_ON_FILM);
        JsonDocument.absent(node, "pointSpread", NOT_ON_FILM);
        findings(node.putArray("findings"), film.findings());
        ArrayNode parts = node.putArray("parts");
        for (BoneInterface face : construct.interfaces()) {
            ObjectNode part = parts.addObject();
            part.put("id", face.id());
            part.put("label", face.label());
            verdict(part, FilmResult.VERDICT);
            ObjectNode contact = part.putObject("contact");
            JsonDocument.absent(contact, "byThreshold", NOT_ON_FILM);
            JsonDocument.absent(contact, "byFit", NOT_ON_FILM);
            JsonDocument.absent(contact, "porousFill", NOT_ON_FILM);
            JsonDocument.absent(contact, "change", NOT_ON_FILM);
            JsonDocument.absent(part, "lucency", NOT_ON_FILM);
            JsonDocument.absent(part, "continuity", NOT_ON_FILM);
            JsonDocument.absent(part, "migration", NOT_ON_FILM);
        }
    }

    private static void days(ObjectNode node, OptionalInt days) {
        if (days.isPresent()) {
            node.put("daysSinceSurgery", days.getAsInt());
        } else {
            JsonDocument.absent(node, "daysSinceSurgery", "the files give no date");
        }
    }

    private static void verdict(ObjectNode node, Verdict stated) {
        ObjectNode verdict = node.putObject("verdict");
        verdict.put("value", stated.value().words());
        ArrayNode causes = verdict.putArray("causes");
        stated.causes().forEach(causes::add);
    }

    private static void exam(ObjectNode node, ExamResult exam) {
        node.put("label", exam.label());
        node.put(KIND, "volume");
        node.put("seriesUid", exam.seriesUid());
        node.put("seriesSha256", exam.seriesSha256());
        days(node, exam.daysSinceSurgery());
        node.put("reference", exam.isReference());
        ArrayNode comparability = node.putArray("comparability");
        for (Difference difference : exam.comparability()) {
            ObjectNode entry = comparability.addObject();
            entry.put("field", difference.field());
            entry.put("reference", difference.referenceValue());
            entry.put("exam", difference.followUpValue());
            entry.put("effect", difference.effect().name());
            entry.put("text", difference.sentence());
        }
        ObjectNode pose = node.putObject("pose");
        pose.put("kind", exam.poseKind().name().toLowerCase(Locale.ROOT));
        pose.put("source", exam.poseSource());
        ArrayNode matrix = pose.putArray("referenceToExam");
        for (double value : exam.referenceToExam().toMatrix()) {
            matrix.add(value);
        }
        JsonDocument.absent(pose, "residualMm", "the pose was not found by registration");
        ObjectNode spread = node.putObject("pointSpread");
        spread.put("sigmaInPlaneMm", exam.pointSpread().sigmaInPlaneMm());
        spread.put("sigmaAlongTableMm", exam.pointSpread().sigmaAlongTableMm());
        spread.put("source", exam.pointSpread().source().name());
        findings(node.putArray("findings"), exam.findings());
        ArrayNode parts = node.putArray("parts");
        exam.parts().forEach(part -> part(parts.addObject(), part));
    }

    private static void part(ObjectNode node, InterfaceExam part) {
        node.put("id", part.face().id());
        node.put("label", part.face().label());
        node.put("key", part.key());
        verdict(node, part.verdict());
        ObjectNode contact = node.putObject("contact");
        if (part.contact().isPresent()) {
            byThreshold(contact.putObject("byThreshold"), part.contact().get());
        } else {
            JsonDocument.absent(
                    contact, "byThreshold", String.join("; ", part.verdict().causes()));
        }
        JsonDocument.absent(contact, "byFit", NO_FIT);
        JsonDocument.absent(contact, "porousFill", NO_FILL);
        JsonDocument.absent(contact, "change", NO_CHANGE);
        JsonDocument.absent(node, "lucency", CONTACT_ONLY);
        JsonDocument.absent(node, "continuity", CONTACT_ONLY);
        JsonDocument.absent(node, "migration", CONTACT_ONLY);
    }

    private static void byThreshold(ObjectNode node, ThresholdContact c) {
        stated(node, "fraction", c.fraction());
        if (c.statedLow().value().isPresent()) {
            node.putArray("bounds").add(c.low()).add(c.high());
        } else {
            JsonDocument.absent(node, "bounds", c.statedLow().why());
        }
        stated(node, "ofOppositeBone", c.ofOppositeBone());
        stated(node, "bridged", c.bridged());
        node.put("notAssessable", c.notAssessable());
        ObjectNode causes = node.putObject("notAssessableCauses");
        for (Obstacle obstacle : Obstacle.values()) {
            if (c.obstacles().containsKey(obstacle)) {
                causes.put(obstacle.name(), c.obstacles().get(obstacle));
            }
        }
        stated(node, "smallestVisibleGapMm", c.smallestVisibleGapMm());
        stated(node, "smallestVisibleGapIfBlurrierMm", c.smallestVisibleGapIfBlurrierMm());
        ObjectNode sensitivity = node.putObject("sensitivity");
        c.sensitivity()
                .forEach((change, value) -> stated(sensitivity, String.format(Locale.ROOT, "%+d", change), value));
        stated(node, "jitterSd", c.jitterSd());
        node.put("boneHu", c.boneHu());
        node.put("boneHuRule", c.boneRule());
        stated(node, "hostHu", c.hostHu());
        stated(node, "noiseSdHu", c.noiseSdHu());
        node.put("guardMm", c.guardMm());
        stated(node, "plateauHu", c.plateauHu());
        stated(node, "frontHu", c.frontHu());
        node.put("areaMm2", c.areaMm2());
        ObjectNode gap = node.putObject("gapMm");
        spread(gap, c.gapMm(), "no gap found");
        ObjectNode beyond = node.putObject("beyondGuardHu");
        spread(beyond, c.beyondGuardHu(), "nothing is assessable");
    }

    private static void spread(ObjectNode node, ThresholdContact.Spread spread, String why) {
        JsonDocument.number(node, "mean", spread.mean(), why);
        JsonDocument.number(node, "p10", spread.p10(), why);
        JsonDocument.number(node, "median", spread.median(), why);
        JsonDocument.number(node, "p90", spread.p90(), why);
    }

    private static void stated(ObjectNode node, String name, Stated value) {
        JsonDocument.number(node, name, value.value(), value.why());
    }

    private static void findings(ArrayNode array, List<Finding> findings) {
        for (Finding finding : findings) {
            ObjectNode entry = array.addObject();
            entry.put("code", finding.code());
            entry.put("severity", finding.severity().name());
            entry.put("text", finding.text());
            entry.put("where", finding.where());
        }
    }
}
