package org.holdfast.app;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.OptionalInt;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.finding.Finding;
import org.holdfast.measure.SettingsJson;
import org.holdfast.volume.Comparability.Difference;

/** A report as its JSON document: fractions 0 to 1, a number that is not stated is null with a reason beside it. */
public final class ReportDocument {

    static final int FORMAT_VERSION = 2;
    private static final String NOT_ON_FILM = "a radiograph has no HU";
    static final String KIND = "kind";
    static final String RADIOGRAPH = "radiograph";
    static final String SERIES = "seriesUids";

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
            ContactNodes.none(parts.addObject(), face, FilmResult.VERDICT, NOT_ON_FILM);
        }
        for (Component component : construct.components()) {
            ComponentNodes.none(parts.addObject(), component, FilmResult.VERDICT, NOT_ON_FILM);
        }
    }

    private static void days(ObjectNode node, OptionalInt days) {
        if (days.isPresent()) {
            node.put("daysSinceSurgery", days.getAsInt());
        } else {
            JsonDocument.absent(node, "daysSinceSurgery", "the files give no date");
        }
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
        PoseNodes.put(node, exam);
        PoseNodes.pointSpread(node.putObject("pointSpread"), exam.pointSpread());
        findings(node.putArray("findings"), exam.findings());
        ArrayNode parts = node.putArray("parts");
        exam.parts().forEach(part -> ContactNodes.put(parts.addObject(), part, exam.pointSpread()));
        exam.components().forEach(part -> ComponentNodes.put(parts.addObject(), part));
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
