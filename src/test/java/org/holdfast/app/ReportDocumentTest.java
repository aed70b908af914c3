package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.holdfast.cases.SampleSubject;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.SettingsJson;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** The result document has the fields of its format, each of its type, and a reason beside every null. */
class ReportDocumentTest {

    private static final ObjectMapper MAPPER = new ObjectMapper();

    /** Fractions of a face, wherever they stand. */
    private static final Set<String> FRACTIONS = Set.of("fraction", "ofOppositeBone", "bridged", "notAssessable");

    private static JsonNode root;

    @BeforeAll
    static void read() throws Exception {
        root = MAPPER.readTree(new ReportDocument().write(SampleSubject.report()));
    }

    @Test
    void carriesWhatEveryResultCarries() {
        assertEquals(Caution.TEXT, root.get("caution").textValue());
        assertTrue(root.get("software").textValue().startsWith("holdfast "));
        assertEquals(2, root.get("formatVersion").intValue());
        assertEquals(
                SettingsJson.write(MeasurementSettings.withDefaults()).toString(),
                root.get("settings").toString());
        JsonNode construct = root.get("construct");
        assertEquals("demo-construct", construct.get("id").textValue());
        assertTrue(construct.get("version").isInt());
        assertTrue(construct.get("sha256").textValue().matches("[0-9a-f]{64}"));
        assertTrue(root.get("findings").isArray());
    }

    @Test
    void examsHaveTheirFields() {
        assertEquals(5, root.get("exams").size());
        for (JsonNode exam : root.get("exams")) {
            assertTrue(exam.get("label").isTextual());
            assertTrue(exam.get("seriesUid").textValue().startsWith("2.25."));
            assertTrue(exam.get("daysSinceSurgery").isInt());
            assertTrue(exam.get("comparability").isArray());
            JsonNode pose = exam.get("pose");
            assertTrue(Set.of("registered", "identity", "nudged")
                    .contains(pose.get("kind").textValue()));
            assertEquals(16, pose.get("referenceToExam").size());
            pose.get("referenceToExam").forEach(number -> assertTrue(number.isNumber()));
            assertTrue(pose.has("residualMm"));
            // By hand: two interfaces, a body, four screws and two rods.
            assertEquals(9, exam.get("parts").size());
        }
    }

    @Test
    void partsHaveTheirFields() {
        for (JsonNode part : everyPart()) {
            assertTrue(part.get("kind").isTextual());
            assertTrue(part.get("id").textValue().matches("[a-z0-9-]+"));
            assertTrue(Set.of("answerable", "change only", "reader only", "not answerable")
                    .contains(part.get("verdict").get("value").textValue()));
            assertTrue(part.get("verdict").get("causes").isArray());
            for (String name : List.of("lucency", "continuity", "migration")) {
                assertTrue(part.has(name), name);
            }
            assertTrue(part.has("contact"));
        }
    }

    @Test
    void interfacesHaveTheirFields() {
        for (JsonNode part : parts()) {
            JsonNode contact = part.get("contact");
            for (String name : List.of("byThreshold", "byFit", "porousFill", "change")) {
                assertTrue(contact.has(name), name);
            }
            JsonNode byThreshold = contact.get("byThreshold");
            for (String name : List.of(
                    "fraction",
                    "ofOppositeBone",
                    "bridged",
                    "notAssessable",
                    "smallestVisibleGapMm",
                    "jitterSd",
                    "boneHu",
                    "hostHu")) {
                assertTrue(byThreshold.get(name).isNumber(), name);
            }
            assertTrue(byThreshold.get("sensitivity").isObject());
            for (String change : List.of("-50", "+50", "+100")) {
                assertTrue(byThreshold.get("sensitivity").get(change).isNumber(), change);
            }
            // By hand: the threshold is 120 HU, 100 HU less is 20 HU, under fluid with its 30 HU.
            assertTrue(byThreshold.get("sensitivity").get("-100").isNull());
            assertTrue(byThreshold.get("sensitivity").get("-100Why").asText().contains("over fluid"));
            JsonNode byFit = contact.get("byFit");
            for (String name : List.of("fraction", "ofOppositeBone", "notAssessable", "smallestVisibleGapMm")) {
                assertTrue(byFit.get(name).isNumber(), name);
            }
            for (String name : List.of("mean", "median", "p90", "se")) {
                assertTrue(byFit.get("gapMm").get(name).isNumber(), name);
            }
            assertEquals(2, byFit.get("sigmaMm").size());
            assertTrue(contact.get("porousFill").has("value")
                    && contact.get("porousFill").has("se"));
        }
    }

    @Test
    void componentsHaveTheirFields() {
        for (JsonNode part : everyPart()) {
            String kind = part.get("kind").textValue();
            assertEquals(kind.contains("screw"), part.get("lucency").isObject(), kind);
            assertEquals(
                    kind.contains("screw") || kind.contains("rod"),
                    part.get("continuity").isObject(),
                    kind);
            assertEquals(!kind.equals("interface"), part.get("migration").isArray(), kind);
            if (part.get("lucency").isObject()) {
                JsonNode zone = part.get("lucency").get("byFit");
                for (String name : List.of(
                        "largestMeanMm", "widestSectorMm", "lengthOverMm", "shareOver", "rim", "smallestVisibleMm")) {
                    assertTrue(zone.has(name), name);
                }
                for (String name : List.of("atMm", "meanMm", "maxMm", "se")) {
                    assertTrue(zone.get("stations").get(0).has(name), name);
                }
            }
            if (part.get("continuity").isObject()) {
                assertTrue(part.get("continuity").get("breaks").isArray());
                assertTrue(part.get("continuity").has("smallestVisibleBreakMm"));
            }
            for (JsonNode migration : part.get("migration")) {
                for (String name : List.of(
                        "bone", "translationMm", "rotationDeg", "intoBoneMm", "repeatabilityMm", "withinError")) {
                    assertTrue(migration.has(name), name);
                }
            }
        }
    }

    @Test
    void fractionsLieBetweenTheirBounds() {
        for (JsonNode part : parts()) {
            JsonNode contact = part.get("contact").get("byThreshold");
            for (String name : FRACTIONS) {
                double value = contact.get(name).doubleValue();
                assertTrue(value >= 0 && value <= 1, name);
            }
            double low = contact.get("bounds").get(0).doubleValue();
            double high = contact.get("bounds").get(1).doubleValue();
            double fraction = contact.get("fraction").doubleValue();
            assertTrue(0 <= low && low <= fraction && fraction <= high && high <= 1);
            // By hand: contact = fraction · assessable share, which is the lower bound; what is hidden is the rest.
            assertEquals(low, fraction * (1 - contact.get("notAssessable").doubleValue()), 1e-12);
            assertEquals(high - low, contact.get("notAssessable").doubleValue(), 1e-12);
        }
    }

    @Test
    void everyNullHasItsReasonBesideIt() {
        assertEquals(List.of(), nullsWithoutReason(root, ""));
    }

    @Test
    void everyNullHasItsReasonWhereNothingCanBeMeasured() throws Exception {
        JsonNode document = MAPPER.readTree(new ReportDocument().write(beyondTheImage()));
        assertEquals(List.of(), nullsWithoutReason(document, ""));
        JsonNode contact =
                document.get("exams").get(0).get("parts").get(0).get("contact").get("byThreshold");
        assertTrue(contact.get("fraction").isNull());
        assertTrue(contact.get("bounds").isNull());
        assertTrue(contact.get("gapMm").get("p90").isNull());
        assertEquals("no gap found", contact.get("gapMm").get("p90Why").textValue());
        assertEquals(1, contact.get("notAssessable").doubleValue(), 0);
        assertFalse(contact.get("fractionWhy").textValue().isBlank());
    }

    /** The first exam with a pose that leads out of its image. */
    private static ContactReport beyondTheImage() throws UseCaseException {
        PoseFile far = new PoseFile(
                "test",
                Map.of(
                        "surgery",
                        org.holdfast.geometry.RigidTransform.translation(
                                new org.holdfast.geometry.PatientVector(0, 0, 1000))));
        return new Measurement(
                        SampleSubject.construct(),
                        MeasurementSettings.withDefaults(),
                        far,
                        Measurement.Scope.CONTACT,
                        Progress.NONE)
                .measure(SampleSubject.exams().subList(0, 1));
    }

    /** The interfaces in each exam. */
    private static List<JsonNode> parts() {
        return everyPart().stream()
                .filter(part -> part.get("kind").textValue().equals("interface"))
                .toList();
    }

    private static List<JsonNode> everyPart() {
        List<JsonNode> parts = new ArrayList<>();
        root.get("exams").forEach(exam -> exam.get("parts").forEach(parts::add));
        return parts;
    }

    private static List<String> nullsWithoutReason(JsonNode node, String path) {
        List<String> bare = new ArrayList<>();
        node.properties().forEach(field -> {
            if (field.getValue().isNull()
                    && node.path(field.getKey() + "Why").asText().isBlank()) {
                bare.add(path + "." + field.getKey());
            }
            bare.addAll(nullsWithoutReason(field.getValue(), path + "." + field.getKey()));
        });
        if (node.isArray()) {
            node.forEach(element -> bare.addAll(nullsWithoutReason(element, path + "[]")));
        }
        return bare;
    }
}
