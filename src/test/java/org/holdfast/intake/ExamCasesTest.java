package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.holdfast.cases.CaseFiles;
import org.holdfast.finding.Finding;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Exams and roles of real folders. */
class ExamCasesTest {

    @TempDir
    Path copy;

    @Test
    void threeReconstructionsAScoutAndACaptureAreOneExam() {
        FoundExam exam = only("A_series/philips_mixed_folder");
        // Source: MANIFEST.tsv: 5 mm, 1 mm, 1 mm with a sharp kernel, a lateral scout, a screen capture
        assertEquals(
                List.of(
                        "MEASURE Bone kernel",
                        "VIEW Capture",
                        "VIEW Overview",
                        "VIEW Standard kernel",
                        "VIEW Thick slices"),
                exam.uses().stream()
                        .map(u -> u.role() + " " + u.name())
                        .sorted()
                        .toList());
        assertEquals("2015-02-06", exam.date().orElseThrow().toString());
    }

    @Test
    void aScoutIsViewed() {
        FoundExam exam = only("B_ct_single/GH342.dcm");
        assertEquals(
                "VIEW Overview",
                exam.uses().get(0).role() + " " + exam.uses().get(0).name());
    }

    @Test
    void imagesAtOnePositionAreViewed() {
        FoundExam exam = only("A_series/same_position_x4");
        assertEquals("Images at one place", exam.uses().get(0).name());
        assertTrue(
                exam.uses().get(0).reasons().get(0).text().startsWith("several images at one position"),
                exam.uses().get(0).reasons().toString());
    }

    @Test
    void threePlanesOfMrAreThreeStacksToView() {
        FoundExam exam = only("A_series/three_plane_localizer");
        assertEquals(3, exam.uses().size());
        exam.uses().forEach(use -> assertEquals("VIEW MR slices", use.role() + " " + use.name()));
    }

    @Test
    void aSeriesWithoutDatesIsAskedAbout() {
        FoundExam exam = only("A_series/ge_tilt_varspacing");
        // Source: dcmdump of its files: every date is empty
        assertEquals(Optional.empty(), exam.date());
        assertEquals("EXAM_DATE_MISSING", exam.findings().get(0).code());
        assertEquals("Thick slices", exam.measured().orElseThrow().name());
    }

    @Test
    void aSegmentationYearsLaterBelongsToItsScan() {
        IntakeReport report = Intake.scan(
                List.of(CaseFiles.path("A_series/dcmqi_ct3"), CaseFiles.path("F_sr_seg/liver.dcm")), Progress.NONE);
        // Source: dcmdump: ContentDate 20160318 of the segmentation, StudyInstanceUID that of the CT of 20030417
        assertEquals(1, report.exams().size());
        assertEquals("2003-04-17", report.exams().get(0).date().orElseThrow().toString());
    }

    @Test
    void aMediumIsItsFilesSeveralPatientsAndDays() {
        IntakeReport report = Intake.scan(List.of(CaseFiles.path("G_parser/dicomdir")), Progress.NONE);
        // Source: dcmdump of the files, PatientID and dates: 98890234 on 2001-01-01 and 2003-05-05, 77654033 on
        // 1995-09-03
        // and 2001-01-01, 12345678 on 2020-09-13
        assertEquals(
                List.of("[2001-01-01, 2003-05-05]", "[1995-09-03, 2001-01-01]", "[2020-09-13]").stream()
                        .sorted()
                        .toList(),
                report.exams().stream()
                        .collect(Collectors.groupingBy(
                                FoundExam::patient,
                                TreeMap::new,
                                Collectors.mapping(e -> e.date().orElseThrow().toString(), Collectors.toList())))
                        .values()
                        .stream()
                        .map(Object::toString)
                        .sorted()
                        .toList());
        // Source: pydicom's test data: three forms of one directory, and that of TINY_ALPHA
        assertTrue(report.findings().stream()
                .anyMatch(f -> f.code().equals("DIRECTORY_IGNORED") && f.where().endsWith(" and 3 others")));
    }

    @ParameterizedTest
    @ValueSource(strings = {"DICOMDIR", "DICOMDIR-implicit"})
    void aDirectoryIsComparedWithWhatIsThere(String name) throws Exception {
        IntakeReport report = mediumWith(name);
        String missing = text(report, "DIRECTORY_FILES_MISSING");
        assertTrue(missing.endsWith("the first is 77654033/CR1/6154"), missing);
        // Source: pydicom's test data: TINY_ALPHA with its 50 files is of another directory; with the file written here
        // 51.
        String unnamed = text(report, "DIRECTORY_FILES_NOT_NAMED");
        assertTrue(unnamed.startsWith("51 files") && unnamed.endsWith("the first is EXTRA"), unnamed);
    }

    @Test
    void aDamagedDirectoryIsSaidAndTheFilesAreTaken() throws Exception {
        IntakeReport report = mediumWith("DICOMDIR-nooffset");
        assertTrue(text(report, "DIRECTORY_DAMAGED").contains("(0004,1220)"));
        Files.delete(copy.resolve("DICOMDIR"));
        assertEquals(
                Intake.scan(List.of(copy), Progress.NONE).series().size(),
                report.series().size());
    }

    /** A copy of the medium with one of its directories, without one file and with another that none names. */
    private IntakeReport mediumWith(String name) throws Exception {
        Path medium = CaseFiles.path("G_parser/dicomdir");
        try (Stream<Path> all = Files.walk(medium)) {
            for (Path from : all.sorted().toList()) {
                boolean otherDirectory = from.getFileName().toString().startsWith("DICOMDIR");
                boolean left = from.getFileName().toString().equals("6154");
                if (!otherDirectory && !left && !from.equals(medium)) {
                    Files.copy(from, copy.resolve(medium.relativize(from).toString()));
                }
            }
        }
        Files.copy(medium.resolve(name), copy.resolve("DICOMDIR"));
        CtFiles.write(copy, "extra", CtFiles.slice("extra", 0, 0).build());
        return Intake.scan(List.of(copy.resolve("DICOMDIR")), Progress.NONE);
    }

    private static String text(IntakeReport report, String code) {
        return report.findings().stream()
                .filter(f -> f.code().equals(code))
                .map(Finding::text)
                .findFirst()
                .orElseThrow(() -> new AssertionError(report.findings().toString()));
    }

    private static FoundExam only(String path) {
        List<FoundExam> exams =
                Intake.scan(List.of(CaseFiles.path(path)), Progress.NONE).exams();
        assertEquals(1, exams.size());
        return exams.get(0);
    }
}
