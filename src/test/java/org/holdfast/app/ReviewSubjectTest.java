package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.OptionalInt;
import org.holdfast.cases.SampleSubject;
import org.holdfast.measure.MeasurementSettings;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ReviewSubjectTest {

    @TempDir
    Path folder;

    @BeforeEach
    void bringTheConstruct() throws Exception {
        Files.copy(SampleSubject.constructFile(), folder.resolve("construct.json"));
    }

    private void subject(String surgery, String... exams) throws Exception {
        Files.writeString(
                folder.resolve("subject.json"),
                "{\"code\": \"S-1\", \"surgeryDate\": \"" + surgery + "\", \"construct\": \"construct.json\","
                        + " \"exams\": [" + String.join(", ", exams) + "]}");
    }

    private static String exam(String label, String date) {
        return "{\"label\": \"" + label + "\", \"folder\": \"ct-" + label + "\""
                + (date.isEmpty() ? "" : ", \"date\": \"" + date + "\"") + "}";
    }

    private void assertRefused(String start, String words) {
        String message = assertThrows(UseCaseException.class, () -> ReviewSubject.open(folder))
                .getMessage();
        assertTrue(message.startsWith(start), message);
        assertTrue(message.contains(words), message);
    }

    @Test
    void putsExamsInOrderOfTimeAndUndatedOnesLast() throws Exception {
        subject(
                "2024-03-11",
                exam("b", ""),
                exam("12 mo", "2025-03-11"),
                exam("a", ""),
                exam("before", "2024-03-01"),
                exam("surgery", "2024-03-14"));
        List<ReviewExam> exams = ReviewSubject.open(folder).exams();
        assertEquals(
                List.of("before", "surgery", "12 mo", "b", "a"),
                exams.stream().map(ReviewExam::label).toList());
        assertEquals(
                List.of(0, 1, 2, 3, 4), exams.stream().map(ReviewExam::index).toList());
        // By hand: 1 March is 10 days before 11 March, 14 March 3 days after; a year without 29 February is 365 days
        assertEquals(
                List.of(
                        OptionalInt.of(-10),
                        OptionalInt.of(3),
                        OptionalInt.of(365),
                        OptionalInt.empty(),
                        OptionalInt.empty()),
                exams.stream().map(ReviewExam::daysSinceSurgery).toList());
        assertEquals(folder.resolve("ct-surgery"), exams.get(1).folder());
    }

    @Test
    void readsNoPixel() throws Exception {
        subject("2024-03-11", exam("surgery", "2024-03-14"));
        assertFalse(Files.exists(folder.resolve("ct-surgery")));
        assertEquals(1, ReviewSubject.open(folder).exams().size());
    }

    @Test
    void takesThresholdsFromTheFolder() throws Exception {
        subject("2024-03-11", exam("surgery", "2024-03-14"));
        assertEquals(
                MeasurementSettings.withDefaults(), ReviewSubject.open(folder).settings());
        Files.writeString(folder.resolve("settings.json"), "{\"sampleSpacingMm\": 0.75}");
        assertEquals(0.75, ReviewSubject.open(folder).settings().sampleSpacingMm());
    }

    @Test
    void countsDaysFromTheConstructsOperationAndSaysSo() throws Exception {
        subject("2024-03-01", exam("surgery", "2024-03-14"));
        ReviewSubject subject = ReviewSubject.open(folder);
        // By hand: the construct says 11 March
        assertEquals(OptionalInt.of(3), subject.exams().get(0).daysSinceSurgery());
        assertEquals(
                List.of("SURGERY_DATE_DIFFERS"),
                subject.findings().stream().map(finding -> finding.code()).toList());
        assertTrue(subject.findings().get(0).text().contains("2024-03-01"));
        assertTrue(subject.findings().get(0).text().contains("2024-03-11"));
    }

    @Test
    void refusesTwoExamsOfOneLabel() throws Exception {
        subject("2024-03-11", exam("3 mo", "2024-06-10"), exam("3 mo", "2024-06-20"));
        assertRefused(folder.resolve("subject.json") + ": exams[1].label: ", "exams[0]");
    }

    @Test
    void namesTheDamagedDocument() throws Exception {
        assertRefused(folder.resolve("subject.json").toString(), "cannot be read");

        subject("2024-03-11", exam("surgery", "2024-03-14"));
        Files.writeString(folder.resolve("settings.json"), "{\"sampleSpacingMm\": \"wide\"}");
        assertRefused(folder.resolve("settings.json").toString(), "sampleSpacingMm");
        Files.delete(folder.resolve("settings.json"));

        Files.writeString(folder.resolve("truth.json"), "{\"poses\": 3}");
        assertRefused(folder.resolve("truth.json").toString(), "exams: expected an array");
        Files.delete(folder.resolve("truth.json"));

        Files.writeString(folder.resolve("construct.json"), "{");
        assertRefused(folder.resolve("construct.json").toString(), "expected a JSON document");
        Files.delete(folder.resolve("construct.json"));
        assertRefused(folder.resolve("construct.json").toString(), "");
    }
}
