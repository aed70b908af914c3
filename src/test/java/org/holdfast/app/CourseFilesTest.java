package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.OptionalInt;
import java.util.stream.Stream;
import org.holdfast.cases.SampleSubject;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Files of a course where exams are undated or share a label; the demo's own files are checked with its command. */
class CourseFilesTest {

    @TempDir
    Path folder;

    private static ExamResult named(ExamResult exam, String label, OptionalInt days) {
        return new ExamResult(
                label,
                exam.seriesUid(),
                exam.seriesSha256(),
                days,
                exam.isReference(),
                exam.comparability(),
                exam.poseKind(),
                exam.poseSource(),
                exam.referenceToExam(),
                exam.pointSpread(),
                exam.parts(),
                exam.findings());
    }

    private List<String> write(ExamResult... exams) throws Exception {
        ContactReport all = SampleSubject.report();
        ContactReport report = new ContactReport(all.construct(), all.settings(), List.of(exams), all.findings());
        return new CourseFiles(report, SimulationTruth.NONE)
                .write(folder).stream()
                        .map(file -> folder.relativize(file).toString().replace('\\', '/'))
                        .toList();
    }

    private static ExamResult exam(int n) {
        return SampleSubject.report().exams().get(n);
    }

    @Test
    void mapsOfLikeLabelsDoNotOverwriteEachOther() throws Exception {
        List<String> files = write(
                named(exam(0), "-0 mo", OptionalInt.of(-3)),
                named(exam(1), "0 mo", OptionalInt.of(14)),
                named(exam(2), "0 mo", OptionalInt.of(15)));
        assertEquals(
                List.of(
                        "course.csv",
                        "course.png",
                        "course.svg",
                        "results/maps/cranial-face-0-mo.png",
                        "results/maps/cranial-face-0-mo-fit.png",
                        "results/maps/cranial-face-0-mo.csv",
                        "results/maps/caudal-face-0-mo.png",
                        "results/maps/caudal-face-0-mo-fit.png",
                        "results/maps/caudal-face-0-mo.csv",
                        "results/maps/cranial-face-0-mo-2.png",
                        "results/maps/cranial-face-0-mo-2-fit.png",
                        "results/maps/cranial-face-0-mo-2.csv",
                        "results/maps/caudal-face-0-mo-2.png",
                        "results/maps/caudal-face-0-mo-2-fit.png",
                        "results/maps/caudal-face-0-mo-2.csv",
                        "results/maps/cranial-face-0-mo-3.png",
                        "results/maps/cranial-face-0-mo-3-fit.png",
                        "results/maps/cranial-face-0-mo-3.csv",
                        "results/maps/caudal-face-0-mo-3.png",
                        "results/maps/caudal-face-0-mo-3-fit.png",
                        "results/maps/caudal-face-0-mo-3.csv",
                        "results/measure.json",
                        "results/samples.json"),
                files);
        for (String file : files) {
            assertTrue(Files.size(folder.resolve(file)) > 0, file);
        }
    }

    @Test
    void undatedExamsAreLeftOutOfTheChartAndNamedThere() throws Exception {
        write(exam(0), named(exam(1), "undated", OptionalInt.empty()));
        assertTrue(Files.readString(folder.resolve("course.svg")).contains("undated and left out: undated"));
        assertEquals(5, Files.readAllLines(folder.resolve("course.csv")).size());
    }

    @Test
    void withoutADatedExamThereIsNoChart() throws Exception {
        write(exam(0));
        assertTrue(Files.exists(folder.resolve("course.png")));
        List<String> files = write(named(exam(0), "undated", OptionalInt.empty()));
        assertFalse(files.contains("course.png"));
        assertFalse(Files.exists(folder.resolve("course.png")), "one of an earlier run would mislead");
        assertTrue(files.contains("course.csv"));
    }

    @Test
    void aRunThatCannotBeWrittenLeavesTheEarlierOneAsItWas() throws Exception {
        write(exam(0));
        byte[] csv = Files.readAllBytes(folder.resolve("course.csv"));
        byte[] contact = Files.readAllBytes(folder.resolve("results/measure.json"));
        // A report whose last exam lacks an interface cannot be drawn: the table was written by then, the chart is not.
        ExamResult whole = exam(1);
        ExamResult halved = new ExamResult(
                whole.label(),
                whole.seriesUid(),
                whole.seriesSha256(),
                whole.daysSinceSurgery(),
                whole.isReference(),
                whole.comparability(),
                whole.poseKind(),
                whole.poseSource(),
                whole.referenceToExam(),
                whole.pointSpread(),
                whole.parts().subList(0, 1),
                whole.findings());
        assertThrows(IndexOutOfBoundsException.class, () -> write(exam(0), halved));
        assertArrayEquals(csv, Files.readAllBytes(folder.resolve("course.csv")));
        assertArrayEquals(contact, Files.readAllBytes(folder.resolve("results/measure.json")));
        assertEquals(
                List.of("course.csv", "course.png", "course.svg", "results"),
                Stream.of(folder.toFile().list()).sorted().toList());
    }

    @Test
    void saysWhereResultsCannotBeWritten() throws Exception {
        Files.writeString(folder.resolve("results"), "a file where the folder should be");
        UseCaseException refused = assertThrows(UseCaseException.class, () -> write(exam(0)));
        assertTrue(refused.getMessage().startsWith(folder + ": results cannot be written: "), refused.getMessage());
    }
}
