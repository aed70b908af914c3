package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.stream.Stream;
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
        subjectOperatedOn("2024-03-10");
        ContactReport report = SubjectCourse.measure(folder, MeasurementSettings.withDefaults(), Progress.NONE)
                .report();
        List<String> codes = report.findings().stream().map(Finding::code).toList();
        assertEquals(List.of("SURGERY_DATE_DIFFERS"), codes);
        assertTrue(report.findings().get(0).text().contains("2024-03-10"));
        // By hand: operated on 2024-03-11 by the construct, scanned on 2024-03-14.
        assertEquals(3, report.exams().get(0).daysSinceSurgery().orElseThrow());
    }

    @Test
    void theDemoIsMeasuredByTheSettingsInItsFolder() throws Exception {
        subjectOperatedOn("2024-03-11");
        Files.writeString(folder.resolve(ReviewSubject.SETTINGS_DOCUMENT), "{\"maxBoneHu\": 340}");
        ContactReport report = SubjectCourse.demo(folder, DemoSubject.Size.SMALL, Progress.NONE)
                .report();
        assertEquals(340, report.settings().maxBoneHu());
        // What is stored belongs to what a review opens.
        ReviewSubject subject = ReviewSubject.open(folder);
        Staleness staleness = Staleness.of(
                StoredCourse.read(folder).orElseThrow(), subject, new ExamImages(subject, 0), Progress.NONE);
        assertTrue(staleness.isNone());
    }

    @Test
    void aCancelledRunWritesNothing() throws Exception {
        subjectOperatedOn("2024-03-11");
        Progress stopped = new Progress() {
            private volatile boolean measuring;

            @Override
            public void report(double fraction, String activity) {
                measuring |= activity.startsWith("measuring");
            }

            @Override
            public boolean isCancelled() {
                return measuring;
            }
        };
        ReviewSubject subject = ReviewSubject.open(folder);
        assertThrows(CancellationException.class, () -> SubjectCourse.measure(subject, stopped));
        assertEquals(
                List.of("construct.json", "subject.json"),
                Stream.of(folder.toFile().list()).sorted().toList());
    }

    private void subjectOperatedOn(String day) throws Exception {
        Files.copy(SampleSubject.constructFile(), folder.resolve("construct.json"));
        Path surgery = SampleSubject.exams().get(0).folder().toAbsolutePath();
        Files.writeString(
                folder.resolve(SubjectFolder.DOCUMENT),
                """
                {"code": "DEMO-01", "surgeryDate": "%s", "construct": "construct.json",
                 "exams": [{"label": "surgery", "folder": "%s"}]}
                """
                        .formatted(day, surgery.toString().replace("\\", "\\\\")));
    }
}
