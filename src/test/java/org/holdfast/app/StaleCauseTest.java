package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.holdfast.cases.SampleSubject;
import org.holdfast.construct.Construct;
import org.holdfast.construct.ConstructJson;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.SettingsJson;
import org.holdfast.measure.StaleKey;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Which cause is named when a stored number no longer belongs to its inputs. */
final class StaleCauseTest {

    private static final String FACE = "cranial-face";

    private final Map<Integer, String> hashes = new HashMap<>();
    private ReviewSubject subject;

    /** Files of which only hashes are known; an exam without one cannot be read. */
    private static final class OnlyHashes implements ExamVolumes {
        private final Map<Integer, String> hashes;

        OnlyHashes(Map<Integer, String> hashes) {
            this.hashes = hashes;
        }

        @Override
        public ExamFacts facts(int exam, Progress progress) {
            throw new AssertionError("hashing needs no facts");
        }

        @Override
        public HuVolume volume(int exam, Progress progress) {
            throw new AssertionError("hashing needs no voxels");
        }

        @Override
        public Optional<HuVolume> loaded(int exam) {
            return Optional.empty();
        }

        @Override
        public void onScreen(Set<Integer> exams) {}

        @Override
        public String seriesSha256(int exam, Progress progress) throws UseCaseException {
            if (!hashes.containsKey(exam)) {
                throw new UseCaseException("the drive is gone");
            }
            return hashes.get(exam);
        }

        @Override
        public void close() {}
    }

    @BeforeEach
    void asMeasured() throws Exception {
        subject = ReviewSubject.open(SampleSubject.folder());
        List<ExamResult> exams = SampleSubject.report().exams();
        for (int n = 0; n < exams.size(); n++) {
            hashes.put(n, exams.get(n).seriesSha256());
        }
    }

    private String why(ContactReport stored, String exam) {
        return Staleness.of(stored, subject, new OnlyHashes(hashes), Progress.NONE)
                .why(exam, FACE)
                .orElse("");
    }

    private String why(String exam) {
        return why(SampleSubject.report(), exam);
    }

    private static ReviewSubject with(ReviewSubject s, Construct construct, PoseFile poses) {
        return new ReviewSubject(s.folder(), construct, s.settings(), poses, s.truth(), s.exams(), s.findings());
    }

    /** The report with other keys of the first interface, one an exam. */
    private static ContactReport withKeys(List<String> keys) {
        ContactReport report = SampleSubject.report();
        List<ExamResult> exams = new ArrayList<>();
        for (int n = 0; n < keys.size(); n++) {
            ExamResult exam = report.exams().get(n);
            InterfaceExam part = exam.parts().get(0);
            exams.add(new ExamResult(
                    exam.label(),
                    exam.seriesUid(),
                    exam.seriesSha256(),
                    exam.daysSinceSurgery(),
                    exam.isReference(),
                    exam.comparability(),
                    exam.poseKind(),
                    exam.poseSource(),
                    exam.referenceToExam(),
                    exam.pointSpread(),
                    List.of(InterfaceExam.ofThreshold(
                            part.face(), part.examLabel(), part.verdict(), part.contact(), keys.get(n))),
                    exam.findings()));
        }
        return new ContactReport(report.construct(), report.settings(), exams, report.findings());
    }

    @Test
    void nothingIsStaleOfTheSameInputs() {
        assertTrue(Staleness.of(SampleSubject.report(), subject, new OnlyHashes(hashes), Progress.NONE)
                .isNone());
    }

    @Test
    void namesEachChangedSettingThenAndNow() throws Exception {
        MeasurementSettings fixed = SettingsJson.parse("{\"boneThreshold\": \"FIXED\", \"fixedBoneHu\": 300}", "test");
        subject = subject.with(fixed);
        assertEquals(
                "measured with other settings: boneThreshold HOST_RELATIVE, now FIXED; fixedBoneHu 250.0, now 300.0",
                why("6 mo"));
    }

    @Test
    void tellsANewVersionOfTheConstructFromOneThatWasChangedUnderItsOldName() throws Exception {
        String json = Files.readString(SampleSubject.constructFile());
        Construct newer = ConstructJson.parse(json.replaceFirst("\"version\" : 1", "\"version\" : 2"), "newer");
        assertEquals(2, newer.version());
        subject = with(subject, newer, subject.poses());
        assertEquals("measured on construct version 1, now version 2", why("6 mo"));
        Construct both = ConstructJson.parse(
                json.replaceFirst("\"version\" : 1", "\"version\" : 2")
                        .replace("\"depthMm\" : 3.0", "\"depthMm\" : 2.9"),
                "both");
        subject = with(subject, both, subject.poses());
        assertEquals("measured on construct version 1, now version 2 with another geometry", why("6 mo"));
        Construct changed = ConstructJson.parse(json.replace("\"depthMm\" : 3.0", "\"depthMm\" : 2.9"), "changed");
        subject = with(subject, changed, subject.poses());
        assertEquals("measured on construct version 1, whose geometry has changed since", why("6 mo"));
    }

    @Test
    void aNewLabelMakesNothingStale() throws Exception {
        String json = Files.readString(SampleSubject.constructFile());
        String renamed = json.replace("\"Cranial endplate, T12\"", "\"Upper face\"");
        assertNotEquals(json, renamed);
        subject = with(subject, ConstructJson.parse(renamed, "renamed"), subject.poses());
        assertEquals("", why("6 mo"));
    }

    @Test
    void filesOfTheReferenceExamCountForEveryExam() {
        hashes.put(0, "0".repeat(64));
        assertEquals("the files of the exam have changed since it was measured", why("surgery"));
        assertEquals("the files of the reference exam have changed since it was measured", why("6 mo"));
        hashes.remove(0);
        assertEquals(
                "measured, but the files of the reference exam can no longer be read: the drive is gone", why("6 mo"));
    }

    @Test
    void otherExamsThanTheReferenceStandForThemselves() {
        hashes.put(1, "0".repeat(64));
        assertEquals("the files of the exam have changed since it was measured", why("3 mo"));
        assertEquals("", why("surgery"));
        assertEquals("", why("6 mo"));
    }

    @Test
    void anotherPoseMakesItsExamStale() {
        Map<String, RigidTransform> poses = new HashMap<>(subject.poses().byExam());
        poses.put("6 mo", RigidTransform.translation(new PatientVector(0, 0, 0.5)));
        subject = with(subject, subject.construct(), new PoseFile("by hand", poses));
        assertEquals("measured with another pose of the exam than is given now", why("6 mo"));
        assertEquals("", why("3 mo"));
    }

    @Test
    void aPartMayHaveAnotherReferenceThanTheReport() {
        // Where the reference exam could not be measured, the next one fixed threshold and edges.
        ContactReport report = SampleSubject.report();
        List<String> sha256 =
                report.exams().stream().map(ExamResult::seriesSha256).toList();
        List<String> keys = new ArrayList<>();
        for (int n = 0; n < sha256.size(); n++) {
            String first = sha256.get(Math.min(n, 1));
            keys.add(StaleKey.of(report.settings(), report.construct(), List.of(first, sha256.get(n))));
        }
        ContactReport stored = withKeys(keys);
        assertEquals("", why(stored, "6 mo"));
        hashes.put(0, "0".repeat(64));
        assertEquals("", why(stored, "6 mo"));
        hashes.put(1, "0".repeat(64));
        assertEquals("the files of the reference exam have changed since it was measured", why(stored, "6 mo"));
    }

    @Test
    void aKeyThatTheMethodNoLongerMakesIsOfAnOlderMethod() {
        ContactReport stored = withKeys(List.of("f".repeat(64)));
        assertEquals("measured by an older version of the method", why(stored, "surgery"));
    }

    @Test
    void anExamThatTheSubjectNoLongerHasIsNamed() {
        List<ReviewExam> fewer = subject.exams().subList(0, 3);
        subject = new ReviewSubject(
                subject.folder(),
                subject.construct(),
                subject.settings(),
                subject.poses(),
                subject.truth(),
                fewer,
                subject.findings());
        String last = SampleSubject.report().exams().get(4).label();
        assertEquals("measured, but the exam is no longer in the subject's document", why(last));
        assertEquals("", why("surgery"));
    }
}
