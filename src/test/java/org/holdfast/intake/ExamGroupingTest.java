package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.Uid;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Which series are one visit of one patient. */
class ExamGroupingTest {

    @TempDir
    Path folder;

    @Test
    void ctAndRadiographOfOneDayAreOneExam() {
        series("ct", 12, b -> b.string(Tag.STUDY_INSTANCE_UID, "1.2.1"));
        series("film", 1, b -> b.string(Tag.STUDY_INSTANCE_UID, "1.2.2").string(Tag.MODALITY, "DX"));
        FoundExam exam = only();
        assertEquals(Optional.of(LocalDate.of(2026, 1, 15)), exam.date());
        assertEquals("AcquisitionDate", exam.dateSource());
        assertEquals(List.of(ExamRole.MEASURE, ExamRole.CONFIRM), roles(exam));
    }

    @Test
    void anotherDayIsAnotherExamInTheOrderOfDays() {
        series("later", 12, b -> b.string(Tag.STUDY_INSTANCE_UID, "1.2.1").string(Tag.ACQUISITION_DATE, "20260415"));
        series("first", 12, b -> b.string(Tag.STUDY_INSTANCE_UID, "1.2.2"));
        assertEquals(
                List.of(LocalDate.of(2026, 1, 15), LocalDate.of(2026, 4, 15)),
                exams().stream().map(exam -> exam.date().orElseThrow()).toList());
    }

    @Test
    void olderFormOfDatesIsTheSameDay() {
        series("a", 12, b -> b);
        series("b", 12, b -> b.string(Tag.ACQUISITION_DATE, "2026.01.15"));
        assertEquals(LocalDate.of(2026, 1, 15), only().date().orElseThrow());
    }

    @Test
    void oneStudyOverMidnightIsOneExamOfTheFirstDay() {
        series("before", 12, b -> b);
        series("after", 12, b -> b.string(Tag.ACQUISITION_DATE, "20260116"));
        FoundExam exam = only();
        assertEquals(LocalDate.of(2026, 1, 15), exam.date().orElseThrow());
        assertEquals("EXAM_OVER_MIDNIGHT", exam.findings().get(0).code());
    }

    @Test
    void oneStudyOverMonthsIsSeveralExamsAndSaid() {
        series("before", 12, b -> b);
        series("after", 12, b -> b.string(Tag.ACQUISITION_DATE, "20260415"));
        assertEquals(2, exams().size());
        // By hand: 15 January to 15 April 2026 = 16 + 28 + 31 + 15 days.
        assertTrue(report().findings().stream().anyMatch(f -> f.text().contains("90 days apart")));
    }

    @Test
    void withoutADayItIsAskedForAndNothingIsGuessed() {
        series("dated", 12, b -> b);
        series("undated", 12, b -> b.remove(Tag.ACQUISITION_DATE));
        List<FoundExam> exams = exams();
        assertEquals(2, exams.size());
        FoundExam asked = exams.get(1);
        assertEquals(Optional.empty(), asked.date());
        assertEquals("", asked.dateSource());
        assertEquals("EXAM_DATE_MISSING", asked.findings().get(0).code());
        FoundExam answered = asked.onDay(LocalDate.of(2026, 7, 1));
        assertEquals("given by a person", answered.dateSource());
    }

    @Test
    void daysComeFromTheMostTrustedAttributeThatIsThere() {
        series("a", 12, b -> b.remove(Tag.ACQUISITION_DATE)
                .string(Tag.STUDY_DATE, "20040826")
                .string(Tag.SERIES_DATE, "19950101"));
        assertEquals("SeriesDate", only().dateSource());
        assertEquals(LocalDate.of(1995, 1, 1), only().date().orElseThrow());
    }

    @Test
    void patientsAreNeverMerged() {
        series("a", 12, b -> b.string(Tag.PATIENT_ID, "1").string(Tag.PATIENT_NAME, "Doe^Jane"));
        series("b", 12, b -> b.string(Tag.PATIENT_ID, "2").string(Tag.PATIENT_NAME, "Doe^Jane"));
        series("c", 12, b -> b.string(Tag.PATIENT_ID, "2").string(Tag.PATIENT_NAME, "Roe^Ann"));
        series("d", 12, b -> b.remove(Tag.PATIENT_ID).string(Tag.PATIENT_NAME, "DOE  jane"));
        series("e", 12, b -> b.remove(Tag.PATIENT_ID).string(Tag.PATIENT_NAME, "doe jane"));
        // By hand: number 1; number 2 with either name; the name without a number.
        assertEquals(4, exams().size());
        assertEquals(
                List.of(1, 2, 3, 4), exams().stream().map(FoundExam::patient).toList());
    }

    @Test
    void studiesThatNameNobodyAreNobodysInCommon() {
        series("a", 12, b -> b.remove(Tag.PATIENT_ID).string(Tag.STUDY_INSTANCE_UID, "1.2.1"));
        series("b", 12, b -> b.remove(Tag.PATIENT_ID).string(Tag.STUDY_INSTANCE_UID, "1.2.1"));
        series("c", 12, b -> b.remove(Tag.PATIENT_ID).string(Tag.STUDY_INSTANCE_UID, "1.2.2"));
        assertEquals(List.of(1, 2), exams().stream().map(FoundExam::patient).toList());
    }

    @Test
    void segmentationGoesWhereItsStudyIsWhateverItsOwnDay() {
        series("ct", 12, b -> b);
        series("seg", 1, b -> b.string(Tag.MODALITY, "SEG")
                .remove(Tag.ACQUISITION_DATE)
                .string(Tag.CONTENT_DATE, "20290101"));
        FoundExam exam = only();
        assertEquals(LocalDate.of(2026, 1, 15), exam.date().orElseThrow());
        assertEquals(List.of(ExamRole.MEASURE, ExamRole.VIEW), roles(exam));
    }

    @Test
    void twoStudiesOfADayAreSaidAsOneMayBeBeforeTheOperation() {
        series("a", 12, b -> b.string(Tag.STUDY_INSTANCE_UID, "1.2.1"));
        series("b", 12, b -> b.string(Tag.STUDY_INSTANCE_UID, "1.2.2"));
        assertEquals("SEVERAL_STUDIES_ON_A_DAY", only().findings().get(0).code());
    }

    @Test
    void aPersonMayChooseOtherwise() {
        series("a", 12, b -> b);
        series("b", 14, b -> b);
        series("film", 1, b -> b.string(Tag.MODALITY, "DX"));
        FoundExam proposed = only();
        SeriesUse other = proposed.uses().stream()
                .filter(use -> use.isMeasurable() && use.role() != ExamRole.MEASURE)
                .findFirst()
                .orElseThrow();
        FoundExam chosen = proposed.choosing(other, ExamRole.MEASURE);
        assertEquals(other.series(), chosen.measured().orElseThrow().series());
        assertEquals(SeriesUse.ChosenBy.PERSON, chosen.measured().orElseThrow().chosenBy());
        assertEquals(1, roles(chosen).stream().filter(ExamRole.MEASURE::equals).count());
        SeriesUse film = proposed.uses().stream()
                .filter(use -> !use.isMeasurable())
                .findFirst()
                .orElseThrow();
        assertThrows(IllegalArgumentException.class, () -> proposed.choosing(film, ExamRole.MEASURE));
    }

    private void series(String name, int slices, UnaryOperator<DataSet.Builder> change) {
        for (int k = 0; k < slices; k++) {
            DataSet.Builder b = CtFiles.slice(name + k, k, 1000 + k)
                    .string(Tag.SERIES_INSTANCE_UID, Uid.fromName(name))
                    .string(Tag.PATIENT_ID, "SUBJECT");
            CtFiles.write(folder, name + k, change.apply(b).build());
        }
    }

    private IntakeReport report() {
        return Intake.scan(List.of(folder), Progress.NONE);
    }

    private List<FoundExam> exams() {
        return report().exams();
    }

    private FoundExam only() {
        List<FoundExam> exams = exams();
        assertEquals(1, exams.size());
        return exams.get(0);
    }

    private static List<ExamRole> roles(FoundExam exam) {
        return exam.uses().stream().map(SeriesUse::role).toList();
    }
}
