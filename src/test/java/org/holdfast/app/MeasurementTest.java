package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Stream;
import org.holdfast.cases.SampleSubject;
import org.holdfast.construct.Construct;
import org.holdfast.construct.ConstructJson;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomReader;
import org.holdfast.dicom.DicomWriter;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.TransferSyntax;
import org.holdfast.finding.Finding;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.measure.ExamScan.PoseKind;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.ThresholdContact;
import org.holdfast.measure.Verdict;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The contact course of the sample subject, and what happens to it when exams are missing, moved or others. */
class MeasurementTest {

    /** How near an estimate by threshold must come to the share of the face whose gap it cannot see; the noise,
     * pixels of 0.65 mm and borders between areas of different gap all enter. */
    private static final double NEAR = 0.06;
    /** The caudal interface stays open; its narrowest gaps lie just under what the scan can see. */
    private static final double NEARLY_OPEN = 0.12;

    @TempDir
    Path folder;

    @Test
    void comesNearTheSimulationsTruth() throws Exception {
        SimulationTruth truth = SimulationTruth.read(SampleSubject.folder());
        assertEquals(5, SampleSubject.report().exams().size());
        for (ExamResult exam : SampleSubject.report().exams()) {
            ThresholdContact cranial = contact(exam, 0);
            double limit = cranial.smallestVisibleGapMm().value().orElseThrow();
            double expected =
                    truth.fractionUnder(exam.label(), "cranial-face", limit).orElseThrow();
            assertEquals(expected, cranial.fraction().value().orElseThrow(), NEAR, exam.label());
            assertTrue(contact(exam, 1).fraction().value().orElseThrow() < NEARLY_OPEN, exam.label());
            exam.parts()
                    .forEach(part -> assertEquals(
                            Verdict.Value.ANSWERABLE, part.verdict().value()));
        }
    }

    @Test
    void keepsThresholdAndHostOfTheReferenceExam() {
        List<ExamResult> exams = SampleSubject.report().exams();
        for (ExamResult exam : exams) {
            assertEquals(contact(exams.get(0), 0).boneHu(), contact(exam, 0).boneHu(), 0);
            assertEquals(contact(exams.get(0), 1).hostHu(), contact(exam, 1).hostHu());
        }
        assertEquals(
                List.of(true, false, false, false, false),
                exams.stream().map(ExamResult::isReference).toList());
    }

    @Test
    void orderOfExamsDoesNotMatter() throws Exception {
        List<ExamArgument> shuffled = new ArrayList<>(SampleSubject.exams());
        Collections.shuffle(shuffled, new Random(5));
        assertNotEquals(SampleSubject.exams(), shuffled);
        ContactReport other = SampleSubject.measure(SampleSubject.construct(), shuffled);
        assertEquals(new ReportDocument().write(SampleSubject.report()), new ReportDocument().write(other));
    }

    @Test
    void aLabelChangesNeitherKeyNorNumbers() throws Exception {
        String json = Files.readString(SampleSubject.constructFile());
        String renamed = json.replace("\"Cranial endplate, T12\"", "\"Upper face\"");
        assertNotEquals(json, renamed);
        InterfaceExam before = SampleSubject.report().exams().get(0).parts().get(0);
        InterfaceExam after = surgery(ConstructJson.parse(renamed, "renamed"));
        assertEquals("Upper face", after.face().label());
        assertEquals(before.key(), after.key());
        assertEquals(before.contact(), after.contact());
    }

    @Test
    void keyFollowsConstructAndSeries() throws Exception {
        String json = Files.readString(SampleSubject.constructFile());
        String thicker = json.replace("\"depthMm\" : 3.0", "\"depthMm\" : 2.9");
        assertNotEquals(json, thicker);
        List<ExamResult> exams = SampleSubject.report().exams();
        String key = exams.get(0).parts().get(0).key();
        assertNotEquals(key, surgery(ConstructJson.parse(thicker, "thicker")).key());
        // Five exams, five series, five keys.
        assertEquals(
                5, exams.stream().map(e -> e.parts().get(0).key()).distinct().count());
    }

    @Test
    void referenceExamNeedsNoPose() {
        ExamResult reference = SampleSubject.report().exams().get(0);
        assertEquals(PoseKind.IDENTITY, reference.poseKind());
        assertEquals("reference exam", reference.poseSource());
        ExamResult later = SampleSubject.report().exams().get(3);
        assertEquals(PoseKind.REGISTERED, later.poseKind());
        assertTrue(later.poseSource().startsWith("registered on the construct's metal"), later.poseSource());
        assertFalse(codes(later.findings()).contains("POSE_GIVEN"));
    }

    @Test
    void goesOnWhereRegistrationRefuses() throws Exception {
        Path air = Files.createDirectory(folder.resolve("air"));
        try (Stream<Path> listed = Files.list(SampleSubject.exams().get(1).folder())) {
            for (Path file : listed.sorted().toList()) {
                DataSet slice = DicomReader.read(file).withPixels();
                int pixels = slice.integer(Tag.ROWS).orElseThrow()
                        * slice.integer(Tag.COLUMNS).orElseThrow();
                DataSet empty = slice.toBuilder()
                        .words(Tag.PIXEL_DATA, new short[pixels])
                        .build();
                DicomWriter.write(air.resolve(file.getFileName()), empty, TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
            }
        }
        ContactReport report = new Measurement(
                        SampleSubject.construct(),
                        MeasurementSettings.withDefaults(),
                        PoseFile.NONE,
                        Measurement.Scope.ALL,
                        Progress.NONE)
                .measure(List.of(SampleSubject.exams().get(0), ExamArgument.parse(air + "=3 mo")));
        ExamResult refused = report.exams().get(1);
        assertEquals(PoseKind.REFUSED, refused.poseKind());
        assertTrue(codes(refused.findings()).contains("POSE_REFUSED"));
        for (InterfaceExam part : refused.parts()) {
            assertEquals(Verdict.Value.NOT_ANSWERABLE, part.verdict().value());
            assertTrue(part.contact().isEmpty());
        }
        assertTrue(
                refused.components().stream().allMatch(part -> part.verdict().value() == Verdict.Value.NOT_ANSWERABLE));
        assertTrue(new ReportDocument().write(report).contains("\"poseWhy\" : \"registration refused: "));
        new CourseFiles(report, SimulationTruth.NONE).write(folder);
        assertEquals(report, StoredCourse.read(folder).orElseThrow());
    }

    @Test
    void saysThatAnotherExamStandsInForTheReference() throws Exception {
        List<ExamArgument> without = SampleSubject.exams().subList(3, 4);
        ContactReport given =
                measurement(PoseFile.read(SampleSubject.truthFile())).measure(without);
        assertEquals(List.of("NO_REFERENCE_EXAM"), codes(given.findings()));
        // The pose given for the exam is used also where it stands in, and said.
        assertEquals("truth of the simulation", given.exams().get(0).poseSource());
        assertTrue(codes(given.exams().get(0).findings()).contains("POSE_GIVEN"));

        ContactReport none = measurement(PoseFile.NONE).measure(without);
        assertTrue(codes(none.exams().get(0).findings()).contains("POSE_ASSUMED"));
        assertTrue(none.exams().get(0).poseSource().startsWith("assumed"));
    }

    @Test
    void takesAPoseOfTheReferenceExamButSaysSo() throws Exception {
        RigidTransform shift = RigidTransform.translation(new org.holdfast.geometry.PatientVector(0, 0, 0.5));
        PoseFile poses = new PoseFile("by hand", Map.of("surgery", shift));
        ExamResult exam = measurement(poses)
                .measure(SampleSubject.exams().subList(0, 1))
                .exams()
                .get(0);
        assertEquals("by hand", exam.poseSource());
        assertEquals(PoseKind.NUDGED, exam.poseKind());
    }

    @Test
    void saysThatASeriesIsNamedTwice() throws Exception {
        ExamArgument surgery = SampleSubject.exams().get(0);
        ContactReport report = SampleSubject.measure(SampleSubject.construct(), List.of(surgery, surgery));
        assertEquals(2, report.exams().size());
        assertEquals(List.of("SAME_EXAM_TWICE"), codes(report.findings()));
    }

    @Test
    void asksWhetherAnotherPatientNumberIsAnotherPatient() throws Exception {
        Path other = renumbered(1, 0);
        ContactReport report = SampleSubject.measure(
                SampleSubject.construct(), List.of(SampleSubject.exams().get(0), ExamArgument.parse(other + "=3 mo")));
        assertTrue(codes(report.exams().get(1).findings()).contains("OTHER_PATIENT"));
        assertFalse(codes(report.exams().get(0).findings()).contains("OTHER_PATIENT"));
    }

    @Test
    void tellsWhatIsWrongWithTheWholeSeries() throws Exception {
        ContactReport report = SampleSubject.measure(
                SampleSubject.construct(), List.of(ExamArgument.parse(renumbered(0, 80) + "=surgery")));
        assertTrue(
                codes(report.exams().get(0).findings()).contains("SEVERAL_PATIENTS"),
                report.exams().get(0).findings().toString());
    }

    /** A copy of an exam whose files, from one on, carry another patient number. */
    private Path renumbered(int exam, int from) throws Exception {
        Path copy = Files.createDirectory(folder.resolve("renumbered"));
        List<Path> files;
        try (Stream<Path> listed = Files.list(SampleSubject.exams().get(exam).folder())) {
            files = listed.sorted().toList();
        }
        for (int n = 0; n < files.size(); n++) {
            DataSet slice = DicomReader.read(files.get(n)).withPixels();
            DataSet kept = n < from
                    ? slice
                    : slice.toBuilder().string(Tag.PATIENT_ID, "ANOTHER").build();
            DicomWriter.write(copy.resolve(files.get(n).getFileName()), kept, TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
        }
        return copy;
    }

    @Test
    void goesOnWithoutExamsThatCannotBeRead() throws Exception {
        Path noDicom = Files.createDirectory(folder.resolve("no dicom"));
        Files.writeString(noDicom.resolve("letter.txt"), "no image");
        List<ExamArgument> exams = new ArrayList<>();
        exams.add(ExamArgument.parse(noDicom.toString()));
        exams.add(ExamArgument.parse(folder.resolve("nowhere").toString()));
        exams.add(SampleSubject.exams().get(0));
        ContactReport report = SampleSubject.measure(SampleSubject.construct(), exams);
        assertEquals(1, report.exams().size());
        assertEquals(
                SampleSubject.report().exams().get(0).parts(),
                report.exams().get(0).parts());
        assertEquals(List.of("EXAM_NOT_READ", "EXAM_NOT_READ"), codes(report.findings()));
        assertTrue(
                report.findings().get(0).text().contains("letter.txt"),
                report.findings().toString());
        assertTrue(report.findings().get(1).text().contains("no such file or folder"));
    }

    @Test
    void refusesWhereNoExamCanBeRead() throws Exception {
        List<ExamArgument> exams = List.of(ExamArgument.parse(folder.toString()));
        UseCaseException refusal =
                assertThrows(UseCaseException.class, () -> SampleSubject.measure(SampleSubject.construct(), exams));
        assertTrue(refusal.getMessage().startsWith("No exam could be read."), refusal.getMessage());
        assertTrue(refusal.getMessage().contains("no DICOM image was found"), refusal.getMessage());
    }

    @Test
    void refusesConstructWithoutInterface() throws Exception {
        Construct all = SampleSubject.construct();
        Construct bare = new Construct(
                all.id(),
                all.version(),
                all.operationDate(),
                all.referenceSeriesUid(),
                all.frameOfReferenceUid(),
                all.axes(),
                all.bones(),
                all.components(),
                all.joins(),
                List.of());
        UseCaseException refusal = assertThrows(UseCaseException.class, () -> new Measurement(
                        bare,
                        MeasurementSettings.withDefaults(),
                        PoseFile.NONE,
                        Measurement.Scope.CONTACT,
                        Progress.NONE)
                .measure(SampleSubject.exams()));
        assertTrue(refusal.getMessage().contains("interfaces: expected at least one"), refusal.getMessage());
    }

    @Test
    void saysThatTheSubjectsDateDiffersFromTheFiles() throws Exception {
        ExamArgument exam = SampleSubject.exams().get(0);
        ExamArgument other = new ExamArgument(
                exam.folder(), exam.seriesUid(), exam.label(), Optional.of(java.time.LocalDate.of(2024, 3, 15)));
        ExamResult result = SampleSubject.measure(SampleSubject.construct(), List.of(other))
                .exams()
                .get(0);
        // By hand: operation 2024-03-11, files 2024-03-14.
        assertEquals(3, result.daysSinceSurgery().getAsInt());
        assertTrue(codes(result.findings()).contains("DATE_DIFFERS"));
    }

    private static Measurement measurement(PoseFile poses) {
        return new Measurement(
                SampleSubject.construct(),
                MeasurementSettings.withDefaults(),
                poses,
                Measurement.Scope.CONTACT,
                Progress.NONE);
    }

    private static InterfaceExam surgery(Construct construct) throws UseCaseException {
        return SampleSubject.measure(construct, SampleSubject.exams().subList(0, 1))
                .exams()
                .get(0)
                .parts()
                .get(0);
    }

    private static ThresholdContact contact(ExamResult exam, int face) {
        return exam.parts().get(face).contact().orElseThrow();
    }

    private static List<String> codes(List<Finding> findings) {
        return findings.stream().map(Finding::code).toList();
    }
}
