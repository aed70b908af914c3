package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.holdfast.cases.MemoryExams;
import org.holdfast.construct.PartKind;
import org.holdfast.desktop.state.CutLook;
import org.holdfast.desktop.state.CutRow;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.desktop.state.ImageMark;
import org.holdfast.desktop.state.ImageMark.LengthMark;
import org.holdfast.desktop.state.MarkPlace;
import org.holdfast.desktop.state.ReviewState;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.volume.Slab;
import org.junit.jupiter.api.Test;

class ReviewViewModelTest {

    /** Rounding of sums and products of places up to some hundred mm. */
    private static final double ROUNDING = 1e-9;

    private static final HuWindow METAL = new HuWindow(1500, 6000);

    private final MemoryExams exams = new MemoryExams().posed(RigidTransform.translation(new PatientVector(10, 0, 0)));
    private final ReviewViewModel review = new ReviewViewModel(SampleKnown.subject(), exams, SameThreadRunner.atOnce());

    private ReviewState state() {
        return review.stateProperty().get();
    }

    private PatientPoint crossing(int exam) {
        return state().lookOf(exam).crossing();
    }

    private static void assertPlace(PatientPoint expected, PatientPoint found) {
        assertEquals(0, expected.distanceTo(found), ROUNDING, "expected " + expected + ", got " + found);
    }

    private ImageMark mark(String part, int exam, PatientPoint from) {
        MarkPlace place = new MarkPlace(
                part, exam, from, CutRow.ACROSS.axes(SampleKnown.part(part).frame()), Optional.empty());
        return new LengthMark("mark", place, from, from.plus(new PatientVector(5, 0, 0)));
    }

    /** That an act can be taken back and done again. */
    private void assertUndone(Runnable act) {
        ReviewState before = state();
        act.run();
        ReviewState after = state();
        assertFalse(before.equals(after), "the act did nothing");
        review.undo();
        assertEquals(before, state());
        assertTrue(review.saidProperty().get().startsWith("Undone: "), review.saidProperty()::get);
        review.redo();
        assertEquals(after, state());
        assertTrue(review.saidProperty().get().startsWith("Redone: "), review.saidProperty()::get);
    }

    @Test
    void beginsWithTheFirstFaceOnTheLastExam() {
        assertEquals(PartKind.INTERFACE, review.part().kind());
        assertEquals("cranial-face", review.part().id());
        assertEquals("24 mo", review.exam().label());
        assertTrue(state().linked());
        assertPlace(review.part().frame().middle(), crossing(0));
    }

    @Test
    void anotherPartIsCrossedInItsMiddleThroughTheSameWindow() {
        review.window(4, METAL, "window");
        review.pick("screw-l2-left", 1);
        assertEquals("screw-l2-left", review.part().id());
        assertEquals("3 mo", review.exam().label());
        assertPlace(review.part().frame().middle(), crossing(1));
        assertEquals(METAL, state().lookOf(1).window());
    }

    @Test
    void anotherExamKeepsTheCrossing() {
        PatientPoint place = new PatientPoint(1, 2, 3);
        review.cross(4, place, "drag");
        review.pickExam(-1);
        assertEquals("12 mo", review.exam().label());
        assertEquals(place, crossing(3));
    }

    @Test
    void staysAtTheEndsOfRowsAndColumns() {
        review.pickExam(1);
        assertEquals(4, state().exam());
        review.pickEnd(false);
        review.pickExam(-1);
        assertEquals(0, state().exam());
        review.pickPart(-100);
        assertEquals(review.parts().get(0), review.part());
        review.pickPart(100);
        assertEquals(review.parts().get(review.parts().size() - 1), review.part());
    }

    @Test
    void stepsHalfAMillimetreWhileNoExamIsRead() {
        PatientPoint before = crossing(4);
        review.step(CutRow.ACROSS, 4, 3);
        PatientVector normal = CutRow.ACROSS.axes(review.part().frame()).normal();
        // By hand: 3 · 0.5 mm
        assertPlace(before.along(normal, 1.5), crossing(4));
    }

    @Test
    void stepsByTheExamsVoxelOnceItIsRead() {
        review.columns().show(Set.of(4), 4);
        for (CutRow row : CutRow.values()) {
            PatientPoint before = crossing(4);
            PatientVector normal = row.axes(review.part().frame()).normal();
            double extent = MemoryExams.grid().voxelExtentMm(normal);
            // By hand: voxels of 0.5 × 0.5 × 2 mm are nowhere thinner than 0.5 mm nor thicker than 2.13 mm, their
            // diagonal
            assertTrue(extent >= 0.5 - ROUNDING && extent <= 2.13, () -> row + ": " + extent);
            review.step(row, 4, -2);
            assertPlace(before.along(normal, -2 * extent), crossing(4));
            assertEquals(extent, review.stepMm(row, 4), ROUNDING);
        }
    }

    @Test
    void steppingOnAndBackComesBack() {
        PatientPoint before = crossing(2);
        review.step(CutRow.ALONG, 2, 5);
        review.step(CutRow.ALONG, 2, -5);
        assertPlace(before, crossing(2));
    }

    @Test
    void linkedExamsMoveTogetherAndFreeOnesAlone() {
        PatientPoint place = new PatientPoint(1, 2, 3);
        review.cross(4, place, "one");
        assertEquals(place, crossing(0));
        review.link(false);
        PatientPoint other = new PatientPoint(4, 5, 6);
        review.cross(1, other, "two");
        assertEquals(other, crossing(1));
        assertEquals(place, crossing(4));
        review.link(true);
        assertEquals(place, crossing(1), "the chosen exam's look");
    }

    @Test
    void everyKindOfActIsTakenBackAndDoneAgain() {
        assertUndone(() -> review.pick("rod-left", 2));
        assertUndone(() -> review.step(CutRow.ALONG, 2, 1));
        assertUndone(() -> review.cross(2, new PatientPoint(1, 2, 3), "drag"));
        assertUndone(() -> review.window(2, METAL, "wheel"));
        assertUndone(() -> review.look(2, state().lookOf(2).framed(3, new PatientVector(1, 0, 0)), "zoom", "zoom"));
        assertUndone(() -> review.fit(2));
        assertUndone(() -> review.link(false));
        assertUndone(
                () -> review.window(1, METAL.equals(state().look().window()) ? new HuWindow(400, 1800) : METAL, 1));
        assertUndone(() -> review.slab(Optional.of(new Slab(5, Slab.Projection.MEAN))));
        ImageMark mark = mark("rod-left", 2, new PatientPoint(1, 2, 3));
        assertUndone(() -> review.addMark(mark));
        assertUndone(() -> review.changeMark(mark.moved(1, new PatientPoint(9, 2, 3)), "drag"));
        assertUndone(() -> review.removeMark(mark));
        assertEquals(List.of(), state().marks());
    }

    @Test
    void aGestureIsTakenBackAsOne() {
        ReviewState before = state();
        for (int n = 1; n <= 10; n++) {
            review.cross(4, new PatientPoint(n, 0, 0), "one drag");
        }
        review.undo();
        assertEquals(before, state());
        review.undo();
        assertEquals("Nothing to undo", review.saidProperty().get());
        review.redo();
        assertEquals(new PatientPoint(10, 0, 0), crossing(4));
        review.redo();
        assertEquals("Nothing to redo", review.saidProperty().get());
    }

    @Test
    void fittingComesBackToTheMiddleAndKeepsTheWindow() {
        review.window(4, METAL, "window");
        review.look(4, state().lookOf(4).framed(5, new PatientVector(3, 0, 0)), "zoom", "zoom");
        review.cross(4, new PatientPoint(1, 2, 3), "drag");
        review.fit(4);
        assertEquals(CutLook.fitted(review.part().frame().middle(), METAL), state().lookOf(4));
    }

    @Test
    void goesToTheCutOfAMarkInItsExamsPose() {
        review.columns().show(Set.of(2), 2);
        review.goTo(mark("screw-l2-left", 2, new PatientPoint(30, 20, 10)));
        assertEquals("screw-l2-left", review.part().id());
        assertEquals(2, state().exam());
        // By hand: the construct lies 10 mm further to the left in this exam
        assertPlace(new PatientPoint(20, 20, 10), crossing(2));
    }

    @Test
    void knowsPosesAndTheReferenceExamOnceTheyAreRead() {
        assertEquals(RigidTransform.IDENTITY, review.poseOf(2));
        assertEquals(Optional.empty(), review.referenceFacts());
        review.columns().show(Set.of(0, 2), 2);
        assertEquals(10, review.poseOf(2).translationMm().x(), ROUNDING);
        assertEquals("2.25.1", review.referenceFacts().orElseThrow().seriesUid());
    }

    @Test
    void drawsTheSamePlaceOfTheImplantOnEveryExam() {
        review.columns().show(Set.of(0, 2), 2);
        CutGeometry first = review.geometry(CutRow.ALONG, 0, 200, 200);
        CutGeometry later = review.geometry(CutRow.ALONG, 2, 200, 200);
        // By hand: the construct lies 10 mm further to the left in the later exam
        assertPlace(
                first.plane().origin().plus(new PatientVector(10, 0, 0)),
                later.plane().origin());
    }

    @Test
    void givesEverythingUpWhenClosed() {
        review.close();
        assertTrue(exams.isClosed());
        assertTrue(review.isSettled());
    }
}
