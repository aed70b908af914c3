package org.holdfast.app;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.phantom.GapPattern;

/**
 * What is true of a simulated subject, from its {@code truth.json}: the gap at every place of a face, zones round screws,
 * breaks and migration, exam by exam. For a patient there is none.
 */
public final class SimulationTruth {

    /** Nothing is known: a patient. */
    public static final SimulationTruth NONE = new SimulationTruth(Map.of(), Map.of());

    /** Name of the document in a simulated subject's folder. */
    public static final String DOCUMENT = "truth.json";

    private final Map<String, Map<String, GapPattern>> gapsByExam;
    private final Map<String, Parts> partsByExam;

    private SimulationTruth(Map<String, Map<String, GapPattern>> gapsByExam, Map<String, Parts> partsByExam) {
        this.gapsByExam = gapsByExam;
        this.partsByExam = partsByExam;
    }

    /**
     * A true break.
     *
     * @param component id of the broken part
     * @param atMm distance along the part from its first point
     * @param gapAlongAxisMm width along the axis
     */
    public record TrueBreak(String component, double atMm, double gapAlongAxisMm) {}

    /**
     * What is true of an exam's components.
     *
     * @param zoneMm widest mean zone round each screw
     * @param breaks breaks
     * @param intoBoneMm subsidence, by component and bone
     */
    private record Parts(Map<String, Double> zoneMm, List<TrueBreak> breaks, Map<String, Double> intoBoneMm) {

        static final Parts NONE = new Parts(Map.of(), List.of(), Map.of());
    }

    /** Width of the zone round a screw, mm; empty where nothing is known. */
    public OptionalDouble zoneMm(String exam, String screwId) {
        return known(parts(exam).zoneMm().get(screwId));
    }

    /** The breaks of a part. */
    public List<TrueBreak> breaks(String exam, String componentId) {
        return parts(exam).breaks().stream()
                .filter(each -> each.component().equals(componentId))
                .toList();
    }

    /** How far a component has gone into a bone, mm; empty where nothing is known. */
    public OptionalDouble intoBoneMm(String exam, String componentId, String boneId) {
        return known(parts(exam).intoBoneMm().get(between(componentId, boneId)));
    }

    private Parts parts(String exam) {
        return partsByExam.getOrDefault(exam, Parts.NONE);
    }

    private static OptionalDouble known(Double value) {
        return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
    }

    private static String between(String componentId, String boneId) {
        return componentId + "\n" + boneId;
    }

    /** Whether anything is known. */
    public boolean isEmpty() {
        return gapsByExam.isEmpty();
    }

    /** Share of a face where bone touches the implant; empty where nothing is known. */
    public OptionalDouble touchingFraction(String exam, String interfaceId) {
        return pattern(exam, interfaceId)
                .map(pattern -> OptionalDouble.of(pattern.contactShare()))
                .orElse(OptionalDouble.empty());
    }

    /** Share of a face where the gap is under a width, mm: what an estimator with that limit should call contact. */
    public OptionalDouble fractionUnder(String exam, String interfaceId, double gapMm) {
        return pattern(exam, interfaceId)
                .map(pattern -> OptionalDouble.of(pattern.shareUnder(gapMm)))
                .orElse(OptionalDouble.empty());
    }

    private Optional<GapPattern> pattern(String exam, String interfaceId) {
        return Optional.ofNullable(gapsByExam.getOrDefault(exam, Map.of()).get(interfaceId));
    }

    /**
     * Reads the truth of a subject folder; {@link #NONE} where it has none.
     *
     * @throws UseCaseException if the document is damaged
     */
    public static SimulationTruth read(Path subjectFolder) throws UseCaseException {
        Path file = subjectFolder.resolve(DOCUMENT);
        if (!Files.exists(file)) {
            return NONE;
        }
        JsonNode root = JsonFile.read(file);
        try {
            Map<String, Map<String, GapPattern>> byExam = new HashMap<>();
            Map<String, Parts> parts = new HashMap<>();
            if (!root.path("exams").isArray()) {
                throw new UseCaseException(file + ": exams: expected an array");
            }
            for (JsonNode exam : root.path("exams")) {
                Map<String, GapPattern> faces = new HashMap<>();
                for (JsonNode face : exam.path("interfaces")) {
                    faces.put(face.path("id").asText(), pattern(face.path("areas")));
                }
                byExam.put(exam.path("label").asText(), faces);
                parts.put(exam.path("label").asText(), parts(exam, file + ": exams[]"));
            }
            return new SimulationTruth(byExam, parts);
        } catch (IllegalArgumentException e) {
            throw new UseCaseException(file + ": exams[].interfaces[].areas: " + e.getMessage(), e);
        }
    }

    private static Parts parts(JsonNode exam, String at) throws UseCaseException {
        Map<String, Double> zones = new HashMap<>();
        for (JsonNode screw : exam.path("screws")) {
            zones.put(screw.path("id").asText(), number(screw, "meanZoneMm", at + ".screws[]"));
        }
        List<TrueBreak> breaks = new ArrayList<>();
        for (JsonNode each : exam.path("breaks")) {
            breaks.add(new TrueBreak(
                    each.path("component").asText(),
                    number(each, "atMm", at + ".breaks[]"),
                    number(each, "gapAlongAxisMm", at + ".breaks[]")));
        }
        Map<String, Double> into = new HashMap<>();
        for (JsonNode each : exam.path("migration")) {
            into.put(
                    between(each.path("component").asText(), each.path("bone").asText()),
                    number(each, "intoBoneMm", at + ".migration[]"));
        }
        return new Parts(zones, breaks, into);
    }

    private static double number(JsonNode node, String name, String at) throws UseCaseException {
        if (!node.path(name).isNumber()) {
            throw new UseCaseException(
                    at + "." + name + ": expected a number, found " + JsonFile.found(node.path(name)));
        }
        return node.path(name).doubleValue();
    }

    private static GapPattern pattern(JsonNode areas) {
        JsonNode rows = areas.path("gapMm");
        double[][] gaps = new double[rows.size()][];
        for (int n = 0; n < gaps.length; n++) {
            gaps[n] = numbers(rows.get(n));
        }
        return new GapPattern(numbers(areas.path("uLinesMm")), numbers(areas.path("vLinesMm")), gaps);
    }

    private static double[] numbers(JsonNode array) {
        double[] values = new double[array.size()];
        for (int n = 0; n < values.length; n++) {
            if (!array.get(n).isNumber()) {
                throw new IllegalArgumentException("expected a number, found " + array.get(n));
            }
            values[n] = array.get(n).doubleValue();
        }
        return values;
    }
}
