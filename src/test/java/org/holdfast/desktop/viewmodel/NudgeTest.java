package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdfast.app.PoseNudge;
import org.holdfast.app.ReviewSubject;
import org.holdfast.cases.MemoryExams;
import org.holdfast.cases.SampleSubject;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class NudgeTest {

    /** Rounding of sums and products of places up to some hundred mm. */
    private static final double ROUNDING = 1e-9;

    private static final int EXAM = 2;

    @TempDir
    Path folder;

    private ReviewViewModel review;

    @BeforeEach
    void open() throws Exception {
        for (String document : List.of("subject.json", "construct.json")) {
            copyIfMissing(document);
        }
        MemoryExams exams = new MemoryExams().posed(RigidTransform.translation(new PatientVector(10, 0, 0)));
        review = new ReviewViewModel(ReviewSubject.open(folder), exams, SameThreadRunner.atOnce());
        review.columns().show(java.util.Set.of(0, 1, EXAM, 3, 4), EXAM);
    }

    private void copyIfMissing(String document) throws IOException {
        Path to = folder.resolve(document);
        if (!Files.exists(to)) {
            Files.copy(SampleSubject.folder().resolve(document), to);
        }
    }

    private PatientVector moved(int exam) {
        return review.poseOf(exam).apply(PatientPoint.ORIGIN).minus(PatientPoint.ORIGIN);
    }

    private static void assertVector(PatientVector expected, PatientVector found) {
        assertEquals(0, expected.minus(found).norm(), ROUNDING, "expected " + expected + ", got " + found);
    }

    @Test
    void movesTheConstructOnTopOfThePoseThatIsThere() {
        assertTrue(review.mayNudge(EXAM));
        PatientVector before = moved(EXAM);
        review.nudge(EXAM, NudgeStep.LEFT, 3, "gesture");
        // By hand: three steps of 0.1 mm along the construct's left
        PatientVector left = review.subject().construct().axes().left();
        assertVector(before.plus(left.times(0.3)), moved(EXAM));
        assertEquals("nudged", review.pose(EXAM).words());
        assertFalse(review.pose(EXAM).isSure());
    }

    @Test
    void turnsAboutTheCrossing() {
        PatientPoint crossing = review.stateProperty().get().lookOf(EXAM).crossing();
        PatientPoint before = review.poseOf(EXAM).apply(crossing);
        review.nudge(EXAM, NudgeStep.TILT_FORWARD, 10, "gesture");
        assertEquals(0, before.distanceTo(review.poseOf(EXAM).apply(crossing)), ROUNDING);
        // By hand: ten steps of 0.1°
        assertEquals(1, review.poseOf(EXAM).rotationAngleDeg(), ROUNDING);
        PatientVector head = review.poseOf(EXAM).apply(PatientVector.CRANIAL);
        assertTrue(head.dot(PatientVector.POSTERIOR) < 0, "the head end tilts to the front");
    }

    @Test
    void leavesTheReferenceExamAlone() {
        assertFalse(review.mayNudge(0));
        RigidTransform before = review.poseOf(0);
        review.nudge(0, NudgeStep.LEFT, 1, "gesture");
        assertEquals(before, review.poseOf(0));
    }

    @Test
    void isKeptOnlyWhenAsked() throws Exception {
        review.nudge(EXAM, NudgeStep.CRANIAL, 1, "gesture");
        assertTrue(review.hasUnkeptPoses());
        assertEquals(Map.of(), PoseNudge.read(folder));
        review.keepPoses();
        assertFalse(review.hasUnkeptPoses());
        RigidTransform kept =
                PoseNudge.read(folder).get(review.exams().get(EXAM).label());
        assertVector(moved(EXAM), kept.translationMm());
    }

    @Test
    void isThereAgainWhenTheSubjectIsOpenedAgain() throws Exception {
        review.nudge(EXAM, NudgeStep.CRANIAL, 1, "gesture");
        review.keepPoses();
        PatientVector was = moved(EXAM);
        open();
        assertVector(was, moved(EXAM));
        assertEquals("nudged", review.pose(EXAM).words());
    }

    @Test
    void undoTakesAWholeGestureBackInTheFolderToo() throws Exception {
        PatientVector before = moved(EXAM);
        for (int n = 0; n < 5; n++) {
            review.nudge(EXAM, NudgeStep.CAUDAL, 1, "gesture");
        }
        review.keepPoses();
        review.undo();
        assertVector(before, moved(EXAM));
        assertEquals(Map.of(), PoseNudge.read(folder));
        review.redo();
        assertEquals(1, PoseNudge.read(folder).size());
    }

    @Test
    void resetGoesBackToThePoseThatWasFound() throws Exception {
        PatientVector before = moved(EXAM);
        review.nudge(EXAM, NudgeStep.ANTERIOR, 2, "gesture");
        review.keepPoses();
        review.resetPose(EXAM);
        assertVector(before, moved(EXAM));
        assertEquals(Map.of(), PoseNudge.read(folder));
        assertEquals(
                Optional.empty(),
                Optional.ofNullable(review.stateProperty().get().nudged().get(EXAM)));
    }

    @Test
    void showsTheOutlineWhereTheConstructIsNow() {
        assertEquals(Optional.empty(), review.outlineOf(EXAM));
        review.outline(true);
        review.nudge(EXAM, NudgeStep.LEFT, 5, "gesture");
        RigidTransform there = review.outlineOf(EXAM).orElseThrow().examToReference();
        assertVector(moved(EXAM).times(-1), there.translationMm());
    }
}
