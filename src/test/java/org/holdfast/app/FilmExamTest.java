package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import org.holdfast.cases.SampleFilms;
import org.holdfast.cases.SampleSubject;
import org.holdfast.finding.Finding;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.progress.Progress;
import org.holdfast.volume.PixelScale;
import org.holdfast.volume.Radiograph;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Exams of radiographs among others. */
class FilmExamTest {

    @TempDir
    private Path folder;

    private static List<String> codes(List<Finding> findings) {
        return findings.stream().map(Finding::code).toList();
    }

    @Test
    void isListedAndTheOthersAreMeasured() throws Exception {
        ContactReport report = SubjectCourse.measure(
                        SampleFilms.subject(folder.resolve("subject")),
                        MeasurementSettings.withDefaults(),
                        Progress.NONE)
                .report();
        assertEquals(
                List.of("surgery"),
                report.exams().stream().map(ExamResult::label).toList());
        assertTrue(report.exams().get(0).parts().get(0).contact().isPresent());
        assertEquals(
                SampleSubject.report().exams().get(0).parts().get(0).key(),
                report.exams().get(0).parts().get(0).key());
        assertEquals(List.of("RADIOGRAPH_NOT_MEASURED"), codes(report.findings()));
        assertTrue(report.isFilm("13 mo"));
        FilmResult film = report.films().get(0);
        assertEquals(2, film.seriesUids().size());
        // By hand: 11 March 2024 to 1 April 2025: 365 + 21 days
        assertEquals(OptionalInt.of(386), film.daysSinceSurgery());
    }

    @Test
    void hasTheShapeOfAnExamInTheDocumentAndIsReadBack() throws Exception {
        Path subject = SampleFilms.subject(folder.resolve("subject"));
        ContactReport report = SubjectCourse.measure(subject, MeasurementSettings.withDefaults(), Progress.NONE)
                .report();
        JsonNode film = new ObjectMapper()
                .readTree(subject.resolve("results/measure.json").toFile())
                .get("exams")
                .get(1);
        assertEquals("radiograph", film.get("kind").asText());
        assertEquals(
                "reader only",
                film.get("parts").get(0).get("verdict").get("value").asText());
        assertTrue(film.get("parts").get(0).get("contact").get("byThreshold").isNull());
        assertEquals(
                "a radiograph has no HU",
                film.get("parts").get(0).get("contact").get("byThresholdWhy").asText());
        assertEquals(report.films(), StoredCourse.read(subject).orElseThrow().films());
        String table = Files.readString(subject.resolve("course.csv"));
        // By hand: two faces in each of two exams
        assertEquals(
                2, table.lines().filter(line -> line.startsWith("13 mo,386,")).count(), table);
        assertEquals(
                2, table.lines().filter(line -> line.contains("reader only")).count(), table);
    }

    @Test
    void aloneItIsNotMeasuredAndSaysWhy() throws Exception {
        Path films = SampleFilms.write(folder.resolve("films"), "AP");
        Measurement measurement = new Measurement(
                SampleSubject.construct(),
                MeasurementSettings.withDefaults(),
                PoseFile.NONE,
                Measurement.Scope.CONTACT,
                Progress.NONE);
        ExamArgument exam = new ExamArgument(films, Optional.empty(), Optional.of("13 mo"), Optional.empty());
        UseCaseException refused = assertThrows(UseCaseException.class, () -> measurement.measure(List.of(exam)));
        assertTrue(refused.getMessage().startsWith("No exam can be measured. 13 mo is listed as reader only"));
    }

    @Test
    void imagesComeFromTheSameDoor() throws Exception {
        ReviewSubject subject = ReviewSubject.open(SampleFilms.subject(folder.resolve("subject")));
        try (ExamImages images = new ExamImages(subject, 1L << 30)) {
            assertEquals(Optional.empty(), images.films(0, Progress.NONE));
            FilmExam exam = images.films(1, Progress.NONE).orElseThrow();
            assertEquals(
                    List.of("AP", "LL"),
                    exam.films().stream()
                            .map(film -> film.facts().orientation().viewPosition())
                            .toList());
            assertEquals(
                    PixelScale.Kind.MAGNIFIED,
                    exam.films().get(0).facts().scale().kind());
            assertFalse(images.hasFilmsLoaded(1));
            Radiograph film = images.film(1, 1, Progress.NONE);
            assertSame(film, images.film(1, 1, Progress.NONE));
            assertEquals(590, film.stored(59, 3));
            assertTrue(images.hasFilmsLoaded(1));
            assertThrows(UseCaseException.class, () -> images.volume(1, Progress.NONE));
            assertThrows(IllegalArgumentException.class, () -> images.film(0, 0, Progress.NONE));
        }
    }

    @Test
    void filmsOutOfSightAreGivenUpLikeVolumes() throws Exception {
        ReviewSubject subject = ReviewSubject.open(SampleFilms.subject(folder.resolve("subject")));
        try (ExamImages images = new ExamImages(subject, 0)) {
            images.onScreen(Set.of(1));
            Radiograph film = images.film(1, 0, Progress.NONE);
            assertTrue(images.hasFilmsLoaded(1));
            images.onScreen(Set.of(0));
            assertFalse(images.hasFilmsLoaded(1));
            assertEquals(film.facts(), images.film(1, 0, Progress.NONE).facts());
        }
    }

    @Test
    void filmsBesideAStackAreSaid() throws Exception {
        Path mixed = folder.resolve("mixed");
        SampleFilms.write(mixed, "AP");
        Path slices = SampleSubject.exams().get(0).folder();
        try (var files = Files.walk(slices)) {
            for (Path file : files.filter(Files::isRegularFile).toList()) {
                Files.copy(file, mixed.resolve(file.getFileName()));
            }
        }
        ContactReport report = SampleSubject.measure(
                SampleSubject.construct(),
                List.of(new ExamArgument(mixed, Optional.empty(), Optional.empty(), Optional.empty())));
        assertTrue(codes(report.exams().get(0).findings()).contains("RADIOGRAPHS_BESIDE"));
        assertEquals(List.of(), report.films());
    }

    @Test
    void filmsBesideAStackCanBeSeen() throws Exception {
        Path subject = folder.resolve("subject");
        Path mixed = subject.resolve("ct");
        SampleFilms.write(mixed, "AP");
        for (Path file : filesOf(SampleSubject.exams().get(0).folder())) {
            Files.copy(file, mixed.resolve(file.getFileName()));
        }
        Files.copy(SampleSubject.folder().resolve("construct.json"), subject.resolve("construct.json"));
        Files.writeString(
                subject.resolve("subject.json"),
                "{\"code\": \"S-1\", \"surgeryDate\": \"2024-03-11\", \"construct\": \"construct.json\","
                        + " \"exams\": [{\"label\": \"surgery\", \"folder\": \"ct\"}]}");
        try (ExamImages images = new ExamImages(ReviewSubject.open(subject), Long.MAX_VALUE)) {
            assertEquals(Optional.empty(), images.films(0, Progress.NONE));
            FilmExam beside = images.filmsBeside(0, Progress.NONE).orElseThrow();
            assertEquals(1, beside.films().size());
            assertEquals(
                    beside.films().get(0).facts(),
                    images.film(0, 0, Progress.NONE).facts());
            assertThrows(IllegalArgumentException.class, () -> images.film(0, 1, Progress.NONE));
        }
    }

    private static List<Path> filesOf(Path folder) throws Exception {
        try (var files = Files.walk(folder)) {
            return files.filter(Files::isRegularFile).toList();
        }
    }
}
