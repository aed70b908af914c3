package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.holdfast.app.TakeInPlan.Way;
import org.holdfast.app.TakeInQuestion.About;
import org.holdfast.cases.SampleSubject;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomFile;
import org.holdfast.dicom.DicomReader;
import org.holdfast.dicom.DicomWriter;
import org.holdfast.dicom.PixelCopy;
import org.holdfast.dicom.Tag;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is written when a patient's scan is taken in: an exam of few slices under an invented name. */
final class TakeInCopiesTest {

    private static final String SENTINEL = "QQSENTINEL";
    // Source: sample-images/demo-subject/subject.json
    private static final LocalDate SURGERY = LocalDate.of(2024, 3, 11);
    private static final LocalDate GIVEN = LocalDate.of(2024, 5, 20);
    private static final int SLICES = 6;

    @TempDir
    private Path home;

    private final String usualHome = System.getProperty("user.home");

    @BeforeEach
    void moveTheHome() {
        System.setProperty("user.home", home.toString());
    }

    @AfterEach
    void giveTheHomeBack() {
        System.setProperty("user.home", usualHome);
    }

    @Test
    void copiesCarryNoNameAndTheDayOfTheDocument() throws Exception {
        Path folder = home.resolve("S-1");
        takeIn(write("dated", true), folder, Way.COPY);
        SubjectFolder.Exam exam = SubjectFolder.read(folder).exams().get(0);
        List<Path> files = files(folder);
        assertEquals(SLICES + 1, files.size());
        for (Path file : files) {
            String bytes = new String(Files.readAllBytes(file), StandardCharsets.ISO_8859_1);
            assertFalse(bytes.contains(SENTINEL), file::toString);
            if (file.toString().endsWith(".dcm")) {
                assertEquals(
                        exam.date().orElseThrow().format(DateTimeFormatter.BASIC_ISO_DATE),
                        DicomReader.read(file)
                                .dataSet()
                                .string(Tag.ACQUISITION_DATE)
                                .orElseThrow());
            }
        }
    }

    @Test
    void copiesOpenForReviewAndAreFoundByInspection() throws Exception {
        Path folder = Files.createDirectories(home.resolve("S-2"));
        Files.copy(SampleSubject.constructFile(), folder.resolve("construct.json"));
        assertTrue(takeIn(write("dated", true), folder, Way.COPY).hasConstruct());
        ReviewSubject opened = ReviewSubject.open(folder);
        assertEquals(1, opened.exams().size());
        try (IntakeSession again =
                IntakeSession.read(List.of(opened.exams().get(0).folder()), Progress.NONE)) {
            assertEquals(1, again.content().series());
            assertEquals(
                    opened.exams().get(0).seriesUid(),
                    Optional.of(
                            again.content().patients().get(0).series().get(0).seriesUid()));
        }
        InspectionReport inspected =
                Inspection.inspect(List.of(folder.resolve("exams")), Inspection.Detail.SERIES, Progress.NONE);
        assertEquals(1, inspected.series().size());
        assertEquals(1, inspected.exams().size());
    }

    @Test
    void aDayThatWasGivenKeepsItsIntervalToTheOperation() throws Exception {
        try (IntakeSession session = IntakeSession.read(List.of(write("undated", false)), Progress.NONE)) {
            IntakePatient patient = session.content().patients().get(0);
            TakeInPlan plan = plan(session, home.resolve("S-3"), Way.COPY);
            assertEquals(
                    List.of(About.DATE),
                    TakeInQuestions.of(patient, plan).stream()
                            .map(TakeInQuestion::about)
                            .toList());
            assertThrows(IllegalArgumentException.class, () -> session.takeIn(patient, plan, Progress.NONE));
            assertFalse(Files.exists(home.resolve("S-3")));
            String exam = patient.exams().get(0).id();
            session.takeIn(patient, plan.withDate(exam, Optional.of(GIVEN)), Progress.NONE);
        }
        SubjectFolder subject = SubjectFolder.read(home.resolve("S-3"));
        // By hand: 11 March to 20 May 2024 is 20 + 30 + 20 days
        assertEquals(
                70,
                ExamLabel.daysSince(
                        subject.surgeryDate(), subject.exams().get(0).date().orElseThrow()));
    }

    @Test
    void theDocumentKeepsWhatItHad() throws Exception {
        Path folder = home.resolve("S-4");
        takeIn(write("dated", true), folder, Way.REFER);
        Path document = folder.resolve(SubjectFolder.DOCUMENT);
        Files.copy(SampleSubject.constructFile(), folder.resolve("construct.json"));
        ObjectMapper json = new ObjectMapper();
        ObjectNode own = (ObjectNode) json.readTree(document.toFile());
        own.put("construct", "construct.json");
        json.writeValue(document.toFile(), own);
        takeIn(SampleSubject.exams().get(2).folder(), folder, Way.REFER);
        JsonNode after = json.readTree(document.toFile());
        assertEquals("construct.json", after.get("construct").asText());
        assertEquals(own.get("exams").get(0), after.get("exams").get(0));
        assertEquals(2, after.get("exams").size());
        for (SubjectFolder.Exam exam : SubjectFolder.read(folder).exams()) {
            assertTrue(Files.isDirectory(exam.folder()), exam.folder()::toString);
        }
    }

    @Test
    void filesThatCannotBeCopiedLeaveASubjectAsItWas() throws Exception {
        Path folder = home.resolve("S-5");
        takeIn(SampleSubject.exams().get(2).folder(), folder, Way.COPY);
        byte[] before = Files.readAllBytes(folder.resolve(SubjectFolder.DOCUMENT));
        List<Path> files = files(folder);
        Path later = write("dated", true);
        try (IntakeSession session = IntakeSession.read(List.of(later), Progress.NONE)) {
            for (Path file : files(later)) {
                Files.writeString(file, "no image any more");
            }
            TakeInPlan plan = plan(session, folder, Way.COPY);
            IntakePatient patient = session.content().patients().get(0);
            assertThrows(UseCaseException.class, () -> session.takeIn(patient, plan, Progress.NONE));
        }
        assertArrayEquals(before, Files.readAllBytes(folder.resolve(SubjectFolder.DOCUMENT)));
        assertEquals(files, files(folder));
    }

    private TakenIn takeIn(Path exam, Path folder, Way way) throws Exception {
        try (IntakeSession session = IntakeSession.read(List.of(exam), Progress.NONE)) {
            return session.takeIn(session.content().patients().get(0), plan(session, folder, way), Progress.NONE);
        }
    }

    private static TakeInPlan plan(IntakeSession session, Path folder, Way way) {
        return TakeInPlan.undecided(session.target(folder))
                .withCode(folder.getFileName().toString())
                .withOperation(Optional.of(SURGERY))
                .withWay(way);
    }

    /** Slices of the second exam of the sample under the sentinel's name. */
    private Path write(String name, boolean dated) throws Exception {
        Path folder = Files.createDirectories(home.resolve("from").resolve(name));
        for (Path each : files(SampleSubject.exams().get(1).folder()).stream()
                .limit(SLICES)
                .toList()) {
            DicomFile file = DicomReader.read(each);
            DataSet.Builder header = file.dataSet().toBuilder()
                    .string(Tag.PATIENT_NAME, SENTINEL + "^ANNA")
                    .string(Tag.PATIENT_ID, SENTINEL + "7")
                    .string(Tag.INSTITUTION_NAME, SENTINEL + " HOSPITAL");
            if (!dated) {
                for (int tag : new int[] {Tag.STUDY_DATE, Tag.SERIES_DATE, Tag.ACQUISITION_DATE, Tag.CONTENT_DATE}) {
                    header.string(tag, "");
                }
            }
            DicomWriter.write(folder.resolve(each.getFileName()), header.build(), PixelCopy.of(file));
        }
        return folder;
    }

    private static List<Path> files(Path folder) throws Exception {
        try (Stream<Path> all = Files.walk(folder)) {
            return all.filter(Files::isRegularFile).sorted().toList();
        }
    }
}
