package org.holdfast.app;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.holdfast.construct.ConstructJson;
import org.holdfast.phantom.DemoSeries;
import org.holdfast.phantom.DemoTruth;
import org.holdfast.phantom.TruthJson;
import org.holdfast.progress.Progress;

/**
 * Makes the invented demo subject: a subject folder with its construct, five simulated CT exams, in the full size a visit with radiographs, and the truth. The same
 * request makes the same bytes.
 */
public final class DemoSubject {

    /** Version of the layout of {@code truth.json}. */
    static final int TRUTH_FORMAT_VERSION = 1;

    private static final JsonMapper MAPPER = JsonMapper.builder().build();

    /** How large the demo is made. */
    public enum Size {
        /** About 340 MB: pixels of 0.45 to 0.49 mm, pitch 0.6 to 0.65 mm. */
        FULL,
        /** About 23 MB: cropped to the construct, pixels of 0.65 mm, pitch 0.6 mm. */
        SMALL
    }

    /**
     * What was made.
     *
     * @param folder the subject folder
     * @param exams what is true at each exam, in order of date
     * @param truthJson the document of {@code truth.json}
     */
    public record Made(Path folder, List<ExamLine> exams, String truthJson) {

        public Made {
            exams = List.copyOf(exams);
        }
    }

    /**
     * The truth of one exam in short.
     *
     * @param label column label
     * @param folder its folder inside the subject folder
     * @param date day of the scan
     * @param cranialContact share of the cranial face where bone touches, 0 to 1
     * @param caudalNarrowestMm narrowest gap of the caudal face
     * @param caudalWidestMm widest gap of the caudal face
     * @param widestZoneMm widest zone around any screw
     * @param sunkMm how far the body has sunk into the caudal vertebra
     * @param broken ids of broken parts
     */
    public record ExamLine(
            String label,
            String folder,
            LocalDate date,
            double cranialContact,
            double caudalNarrowestMm,
            double caudalWidestMm,
            double widestZoneMm,
            double sunkMm,
            List<String> broken) {

        public ExamLine {
            broken = List.copyOf(broken);
        }
    }

    private DemoSubject() {}

    /**
     * Writes the subject folder; {@code subject.json} is written last, so that an unfinished folder is no subject.
     *
     * @param folder a folder that is empty or does not exist
     * @throws DirectoryNotEmptyException if something is in the folder
     * @throws IOException if a file cannot be written
     * @throws java.util.concurrent.CancellationException if cancelled
     */
    public static Made write(Path folder, Size size, Progress progress) throws IOException {
        Files.createDirectories(folder);
        requireEmpty(folder);
        DemoSeries series = new DemoSeries(size == Size.FULL ? DemoSeries.Size.FULL : DemoSeries.Size.SMALL);
        List<DemoSeries.Exam> exams = series.exams();
        Files.writeString(folder.resolve("construct.json"), ConstructJson.write(series.construct()));
        DemoTruth truth = series.truth();
        String truthJson = text(truthTree(truth));
        Files.writeString(folder.resolve("truth.json"), truthJson);
        Optional<DemoSeries.Exam> films = series.filmExam();
        int visits = exams.size() + (films.isPresent() ? 1 : 0);
        for (int n = 0; n < exams.size(); n++) {
            double from = (double) n / visits;
            double to = (n + 1.0) / visits;
            series.write(n, folder.resolve(exams.get(n).folder()), progress.part(from, to));
        }
        if (films.isPresent()) {
            series.writeFilms(folder.resolve(films.get().folder()), progress.part((visits - 1.0) / visits, 1));
        }
        Files.writeString(folder.resolve("subject.json"), text(subjectTree(series, exams)));
        List<ExamLine> lines = new ArrayList<>();
        for (int n = 0; n < exams.size(); n++) {
            lines.add(line(exams.get(n), truth.exams().get(n)));
        }
        return new Made(folder, lines, truthJson);
    }

    private static void requireEmpty(Path folder) throws IOException {
        try (Stream<Path> content = Files.list(folder)) {
            if (content.findAny().isPresent()) {
                throw new DirectoryNotEmptyException(folder.toString());
            }
        }
    }

    private static ObjectNode truthTree(DemoTruth truth) {
        ObjectNode tree = MAPPER.createObjectNode();
        tree.put("caution", Caution.TEXT);
        tree.put("software", Software.running().toString());
        tree.put("formatVersion", TRUTH_FORMAT_VERSION);
        tree.setAll(TruthJson.tree(truth));
        return tree;
    }

    private static ObjectNode subjectTree(DemoSeries series, List<DemoSeries.Exam> exams) {
        ObjectNode tree = MAPPER.createObjectNode();
        tree.put("code", DemoSeries.SUBJECT_CODE);
        tree.put("surgeryDate", series.surgeryDate().toString());
        tree.put("construct", "construct.json");
        ArrayNode list = tree.putArray("exams");
        List<DemoSeries.Exam> visits = new ArrayList<>(exams);
        series.filmExam().ifPresent(visits::add);
        visits.sort(Comparator.comparing(DemoSeries.Exam::date));
        for (DemoSeries.Exam exam : visits) {
            list.addObject()
                    .put("label", exam.label())
                    .put("folder", exam.folder())
                    .put("date", exam.date().toString())
                    .put("posture", exam.posture());
        }
        return tree;
    }

    private static ExamLine line(DemoSeries.Exam exam, DemoTruth.ExamTruth truth) {
        DemoTruth.InterfaceTruth cranial = truth.interfaces().get(0);
        DemoTruth.InterfaceTruth caudal = truth.interfaces().get(1);
        return new ExamLine(
                exam.label(),
                exam.folder(),
                exam.date(),
                cranial.contactShare(),
                caudal.gaps().narrowestMm(),
                caudal.widestGapMm(),
                truth.screws().stream()
                        .mapToDouble(DemoTruth.ScrewTruth::widestZoneMm)
                        .max()
                        .orElse(0),
                truth.migration().get(1).intoBoneMm(),
                truth.breaks().stream().map(DemoTruth.BreakTruth::component).toList());
    }

    private static String text(JsonNode tree) {
        DefaultIndenter lines = new DefaultIndenter("  ", "\n");
        try {
            return MAPPER.writer(new DefaultPrettyPrinter().withObjectIndenter(lines))
                            .writeValueAsString(tree)
                    + "\n";
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a tree in memory could not be written", e);
        }
    }
}
