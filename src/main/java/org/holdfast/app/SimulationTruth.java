package org.holdfast.app;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.phantom.GapPattern;

/**
 * What is true of a simulated subject's interfaces, from its {@code truth.json}: the gap at every place of a face, exam by
 * exam. For a patient there is none.
 */
public final class SimulationTruth {

    /** Nothing is known: a patient. */
    public static final SimulationTruth NONE = new SimulationTruth(Map.of());

    /** Name of the document in a simulated subject's folder. */
    public static final String DOCUMENT = "truth.json";

    private final Map<String, Map<String, GapPattern>> gapsByExam;

    private SimulationTruth(Map<String, Map<String, GapPattern>> gapsByExam) {
        this.gapsByExam = gapsByExam;
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
            if (!root.path("exams").isArray()) {
                throw new UseCaseException(file + ": exams: expected an array");
            }
            for (JsonNode exam : root.path("exams")) {
                Map<String, GapPattern> faces = new HashMap<>();
                for (JsonNode face : exam.path("interfaces")) {
                    faces.put(face.path("id").asText(), pattern(face.path("areas")));
                }
                byExam.put(exam.path("label").asText(), faces);
            }
            return new SimulationTruth(byExam);
        } catch (IllegalArgumentException e) {
            throw new UseCaseException(file + ": exams[].interfaces[].areas: " + e.getMessage(), e);
        }
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
