package org.holdfast.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.holdfast.exchange.FaceCsv;
import org.holdfast.finding.FileFailure;
import org.holdfast.measure.InterfaceExam;

/**
 * The face-on maps of a report as files, for each interface and exam that were measured: {@code INTERFACE-EXAM.png} by
 * threshold, {@code INTERFACE-EXAM-fit.png} by fit, {@code INTERFACE-EXAM.csv} with every sample.
 */
public final class MapFiles {

    private final ContactReport report;

    /** @param report what was measured */
    public MapFiles(ContactReport report) {
        this.report = report;
    }

    /** Where to put a file of a name. */
    interface Place {

        Path of(String name) throws IOException;
    }

    /**
     * Writes the maps over what is there.
     *
     * @param folder made if it does not exist
     * @return the files written
     * @throws UseCaseException if a file cannot be written
     */
    public List<Path> write(Path folder) throws UseCaseException {
        List<Path> written = new ArrayList<>();
        try {
            Files.createDirectories(folder);
            write(name -> {
                written.add(folder.resolve(name));
                return folder.resolve(name);
            });
        } catch (IOException e) {
            throw new UseCaseException(folder + ": maps cannot be written: " + FileFailure.words(e), e);
        }
        return written;
    }

    void write(Place place) throws IOException {
        FaceCsv table = new FaceCsv(Software.running().toString(), Caution.TEXT);
        Set<String> names = new HashSet<>();
        for (ExamResult exam : report.exams()) {
            for (InterfaceExam part : exam.parts()) {
                if (part.contact().isEmpty() && part.byFit().value().isEmpty()) {
                    continue;
                }
                String name = free(fileName(part.face().id() + " " + exam.label()), names);
                if (part.contact().isPresent()) {
                    FaceMapFile.write(report, exam, part, place.of(name + ".png"));
                }
                if (part.byFit().value().isPresent()) {
                    FaceMapFile.writeByFit(report, exam, part, place.of(name + "-fit.png"));
                }
                table.write(part, place.of(name + ".csv"));
            }
        }
    }

    /** The name, with a number where it is taken: labels of two exams may differ in a sign only, or not at all. */
    private static String free(String name, Set<String> taken) {
        String found = name;
        for (int n = 2; !taken.add(found); n++) {
            found = name + "-" + n;
        }
        return found;
    }

    /** A file name out of words: lower case letters, digits and hyphens. */
    private static String fileName(String words) {
        return words.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-").replaceAll("^-|-$", "");
    }
}
