package org.holdfast.app;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import org.holdfast.construct.ConstructJson;
import org.holdfast.measure.SettingsJson;

/**
 * What was measured in full, down to every sample, sector and station, as a review needs it back; {@code
 * results/measure.json} is the same for people and scripts. Carries the hash of that document, so that files of two runs
 * are not mixed.
 */
final class SamplesDocument {

    static final int FORMAT_VERSION = 2;
    static final String MEASURE_SHA256 = "measureSha256";

    private SamplesDocument() {}

    /**
     * The document as text.
     *
     * @param measureSha256 hash of the measure document's bytes
     */
    static String write(ContactReport report, String measureSha256) {
        ObjectNode root = JsonDocument.empty();
        root.put("caution", Caution.TEXT);
        root.put("software", Software.running().toString());
        root.put("formatVersion", FORMAT_VERSION);
        root.put(MEASURE_SHA256, measureSha256);
        root.put("construct", ConstructJson.write(report.construct()));
        root.set("settings", SettingsJson.write(report.settings()));
        ArrayNode exams = root.putArray("exams");
        report.exams().forEach(exam -> exams.add(RecordWriter.write(exam)));
        ArrayNode films = root.putArray("films");
        report.films().forEach(film -> films.add(RecordWriter.write(film)));
        ArrayNode findings = root.putArray("findings");
        report.findings().forEach(finding -> findings.add(RecordWriter.write(finding)));
        return JsonDocument.line(root);
    }
}
