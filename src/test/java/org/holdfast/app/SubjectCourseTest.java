package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.holdfast.cases.SampleSubject;
import org.holdfast.finding.Finding;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

final class SubjectCourseTest {

    @TempDir
    Path folder;

    @Test
    void saysThatSubjectAndConstructDisagreeOnTheDayOfTheOperation() throws Exception {
        Files.copy(SampleSubject.constructFile(), folder.resolve("construct.json"));
        Path surgery = SampleSubject.exams().get(0).folder().toAbsolutePath();
        Files.writeString(
                folder.resolve(SubjectFolder.DOCUMENT),
                """
                {"code": "DEMO-01", "surgeryDate": "2024-03-10", "construct": "construct.json",
                 "exams": [{"label": "surgery", "folder": "%s"}]}
                """
                        .formatted(surgery.toString().replace("\\", "\\\\")));
        ContactReport report = SubjectCourse.measure(folder, MeasurementSettings.withDefaults(), Progress.NONE)
                .report();
        List<String> codes = report.findings().stream().map(Finding::code).toList();
        assertEquals(List.of("SURGERY_DATE_DIFFERS"), codes);
        assertTrue(report.findings().get(0).text().contains("2024-03-10"));
        // By hand: operated on 2024-03-11 by the construct, scanned on 2024-03-14.
        assertEquals(3, report.exams().get(0).daysSinceSurgery().orElseThrow());
    }
}
