package org.holdfast.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Locale;
import org.holdfast.app.ContactReport;
import org.holdfast.app.ExamArgument;
import org.holdfast.app.SimulationTruth;
import org.holdfast.cases.SampleSubject;
import org.holdfast.measure.ThresholdContact;
import org.junit.jupiter.api.Test;

class ReportWordsTest {

    private static final int WIDEST = 130;

    private static List<String> withTruth() throws Exception {
        return ReportWords.lines(SampleSubject.report(), SimulationTruth.read(SampleSubject.folder()));
    }

    @Test
    void tableFitsATerminal() throws Exception {
        // A paragraph is one entry that holds its own line breaks.
        for (String line : String.join("\n", withTruth()).split("\\R")) {
            assertTrue(line.length() <= WIDEST, line);
        }
    }

    @Test
    void everyExamAndInterfaceHasARow() throws Exception {
        List<String> rows = withTruth().stream()
                .filter(line -> line.contains(" endplate, ") && line.contains("/"))
                .toList();
        // By hand: two interfaces in five exams, in the table by fit and in that by threshold.
        assertEquals(20, rows.size());
        rows = rows.subList(10, 20);
        ThresholdContact first =
                SampleSubject.report().exams().get(0).parts().get(0).contact().orElseThrow();
        String contact = String.format(
                Locale.ROOT, "  %.1f  ", 100 * first.fraction().value().orElseThrow());
        assertTrue(rows.get(0).contains(contact), rows.get(0));
        // By hand: of the face's places one sixth touches after surgery, 16.7 %.
        assertTrue(rows.get(0).contains("  16.7  "), rows.get(0));
    }

    @Test
    void aPatientHasNoTruthColumns() {
        List<String> lines = ReportWords.lines(SampleSubject.report(), SimulationTruth.NONE);
        assertFalse(String.join("\n", lines).contains("truth:"));
    }

    @Test
    void saysWhatLimitsTheNumbers() throws Exception {
        String words = String.join(" ", withTruth());
        assertTrue(words.contains("- Kernel: SIM BONE 60 on the reference exam, SIM SOFT 40 on this one"), words);
        assertTrue(words.contains("Apparent contact: mineral next to the implant"));
    }

    @Test
    void whatIsNotStatedIsADashAndItsReasonANote() throws Exception {
        ContactReport moved = SampleSubject.measure(
                SampleSubject.construct(), List.of(ExamArgument.parse(SampleSubject.folder() + "/exam-2-3-mo=other")));
        List<String> lines = ReportWords.lines(moved, SimulationTruth.NONE);
        String row = lines.stream()
                .filter(line -> line.startsWith("other"))
                .findFirst()
                .orElseThrow();
        assertTrue(row.contains("  -  "), row);
        assertTrue(lines.contains("other:"));
        assertTrue(String.join(" ", lines).contains("None of the exams is the series on which"));
    }
}
