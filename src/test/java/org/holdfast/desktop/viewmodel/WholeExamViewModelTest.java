package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.holdfast.desktop.render.CutRequest;
import org.holdfast.desktop.render.PixelSize;
import org.holdfast.desktop.state.ExamPane;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.Cut;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.Reslicer;
import org.holdfast.volume.VoxelCoord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class WholeExamViewModelTest {

    /** Rounding of sums and products of places up to some hundred mm. */
    private static final double ROUNDING = 1e-9;

    private static final PixelSize SIZE = new PixelSize(200, 120);
    private static final HuWindow WINDOW = new HuWindow(650, 2700);
    private static final PatientPoint START = new PatientPoint(-6, 25, 309);

    private final WholeExamViewModel exam = new WholeExamViewModel("12 mo", START, WINDOW);

    private void load(HuVolume volume) {
        exam.setLoad(new ExamLoad.Loaded(volume));
    }

    private CutGeometry geometry(ExamPane pane) {
        return exam.geometry(pane, SIZE).orElseThrow();
    }

    private static void assertPlace(PatientPoint expected, PatientPoint found) {
        assertEquals(0, expected.distanceTo(found), ROUNDING, "expected " + expected + ", got " + found);
    }

    @Test
    void asksForNothingUntilItIsLoaded() {
        assertEquals(Optional.empty(), exam.request(ExamPane.AXIAL, SIZE));
        exam.step(ExamPane.AXIAL, 3);
        exam.moveCrossing(ExamPane.AXIAL, SIZE, 3, 3);
        assertEquals(START, exam.look().crossing());

        load(SampleExam.straight());
        assertEquals(Optional.empty(), exam.request(ExamPane.AXIAL, PixelSize.NONE));
        assertTrue(exam.request(ExamPane.AXIAL, SIZE).isPresent());

        exam.setLoad(new ExamLoad.Failed("exam-4: no such folder"));
        assertEquals(Optional.empty(), exam.request(ExamPane.AXIAL, SIZE));
    }

    @Test
    void movesAPlaceBesideTheExamToItsNearestPoint() {
        WholeExamViewModel beside = new WholeExamViewModel("12 mo", new PatientPoint(-50, 25, 900), WINDOW);
        beside.setLoad(new ExamLoad.Loaded(SampleExam.straight()));

        // By hand: x from −10, z up to 300 + 11 · 2
        assertPlace(new PatientPoint(-10, 25, 322), beside.look().crossing());
        assertEquals(Optional.empty(), beside.undo());
    }

    @Test
    void beginsWhereATiltedStackHasAnImage() {
        // By hand: the box round the tilted stack holds (−6, 21, 320), but its last slices begin at y = 25
        WholeExamViewModel beside = new WholeExamViewModel("12 mo", new PatientPoint(-6, 21, 320), WINDOW);
        HuVolume volume = SampleExam.tilted();
        assertTrue(Double.isNaN(volume.sample(beside.look().crossing())));
        beside.setLoad(new ExamLoad.Loaded(volume));

        assertTrue(!Double.isNaN(volume.sample(beside.look().crossing())));
        // By hand: slice 10 begins at (−10, 25, 320): the column stays, the row is its first
        assertPlace(new PatientPoint(-6, 25, 320), beside.look().crossing());
    }

    @Test
    void stepsOneSliceAndOneVoxel() {
        load(SampleExam.straight());
        exam.step(ExamPane.ORIGINAL, 1);
        // By hand: 309 lies between slices 4 and 5, nearer to 5 by the rule of rounding up; one on is 6, at 312
        assertPlace(new PatientPoint(-6, 25, 312), exam.look().crossing());

        exam.step(ExamPane.AXIAL, -2);
        // By hand: forward is away from the viewer, to the head; two steps of 2 mm back
        assertPlace(new PatientPoint(-6, 25, 308), exam.look().crossing());

        exam.step(ExamPane.CORONAL, 2);
        // By hand: forward is to posterior, rows are 0.75 mm apart
        assertPlace(new PatientPoint(-6, 26.5, 308), exam.look().crossing());

        exam.step(ExamPane.SAGITTAL, 3);
        // By hand: forward is to the patient's right, columns are 0.5 mm apart
        assertPlace(new PatientPoint(-7.5, 26.5, 308), exam.look().crossing());
    }

    @ParameterizedTest
    @EnumSource
    void stopsAtTheLastStep(ExamPane pane) {
        load(SampleExam.straight());
        exam.step(pane, 1000);
        PatientPoint last = exam.look().crossing();
        exam.step(pane, 1);

        assertPlace(last, exam.look().crossing());
        assertPlace(last, exam.planes().orElseThrow().clamped(last));
    }

    @Test
    void followsATiltedStackSliceBySlice() {
        load(SampleExam.tilted());
        exam.step(ExamPane.ORIGINAL, -100);
        CutGeometry first = geometry(ExamPane.ORIGINAL);
        exam.step(ExamPane.ORIGINAL, 7);
        CutGeometry later = geometry(ExamPane.ORIGINAL);

        // By hand: seven steps of (0, 0.5, 2) mm; the crossing keeps its place on the picture
        assertPlace(first.centre().plus(new PatientVector(0, 3.5, 14)), later.centre());
        assertEquals(first.crossingX(), later.crossingX(), ROUNDING);
        assertEquals(first.crossingY(), later.crossingY(), ROUNDING);
    }

    @Test
    void showsOriginalSlicesAsTheyAreStored() {
        HuVolume volume = SampleExam.tilted();
        load(volume);
        exam.step(ExamPane.ORIGINAL, -100);
        exam.step(ExamPane.ORIGINAL, 5);
        CutRequest request = exam.request(ExamPane.ORIGINAL, SIZE).orElseThrow();
        Cut cut = Reslicer.cut(volume, request.plane(), Optional.empty());

        for (int y = 0; y < SIZE.height(); y++) {
            for (int x = 0; x < SIZE.width(); x++) {
                VoxelCoord at = volume.grid().patientToVoxel(request.plane().pixelToPatient(x, y));
                assertEquals(5, at.k(), ROUNDING);
                boolean inside = at.i() >= 0 && at.i() <= 19 && at.j() >= 0 && at.j() <= 15;
                assertEquals(!inside, Float.isNaN(cut.hu(x, y)), x + ", " + y);
                if (inside) {
                    // Phantom: 10·i + 20·j + 30·k; weights kept to 2^−20 and floats
                    assertEquals(10 * at.i() + 20 * at.j() + 150, cut.hu(x, y), 1e-3);
                }
            }
        }
    }

    @Test
    void fitsTheWholeExam() {
        load(SampleExam.straight());

        // By hand: 20 · 0.5 = 10 mm by 16 · 0.75 = 12 mm on 200 × 120: 12/120 = 0.1 mm a pixel
        assertEquals(0.1, geometry(ExamPane.ORIGINAL).mmPerPixel(), ROUNDING);
        assertEquals(0.1, geometry(ExamPane.AXIAL).mmPerPixel(), ROUNDING);
        // By hand: 12 · 2 = 24 mm high on 120 pixels
        assertEquals(0.2, geometry(ExamPane.CORONAL).mmPerPixel(), ROUNDING);
        assertEquals(0.2, geometry(ExamPane.SAGITTAL).mmPerPixel(), ROUNDING);
    }

    @ParameterizedTest
    @EnumSource
    void movesTheCrossingUnderThePointer(ExamPane pane) {
        load(SampleExam.straight());
        exam.moveCrossing(pane, SIZE, 110.5, 55.25);

        assertEquals(110.5, geometry(pane).crossingX(), 1e-6);
        assertEquals(55.25, geometry(pane).crossingY(), 1e-6);
    }

    @ParameterizedTest
    @EnumSource
    void keepsThePlaceUnderThePointerWhileZooming(ExamPane pane) {
        load(SampleExam.straight());
        PatientPoint before = geometry(pane).placeAt(60, 90);
        exam.zoom(pane, SIZE, 2.5, 60, 90);

        assertPlace(before, geometry(pane).placeAt(60, 90));
        assertEquals(2.5, exam.look().frame(pane).zoom(), ROUNDING);
        for (ExamPane other : ExamPane.values()) {
            assertEquals(other == pane ? 2.5 : 1, exam.look().frame(other).zoom(), ROUNDING);
        }
        exam.fit(pane);
        assertEquals(1, exam.look().frame(pane).zoom());
    }

    @Test
    void movesThePictureWithThePointerWhilePanning() {
        load(SampleExam.straight());
        PatientPoint under = geometry(ExamPane.CORONAL).placeAt(100, 60);
        exam.pan(ExamPane.CORONAL, SIZE, 15, -8);

        // By hand: what lay under (100, 60) now lies under (115, 52)
        assertPlace(under, geometry(ExamPane.CORONAL).placeAt(115, 52));
    }

    @Test
    void takesGesturesBackOneByOne() {
        load(SampleExam.straight());
        exam.setWindow(new HuWindow(600, 2000));
        exam.setWindow(new HuWindow(500, 1500));
        exam.endGesture();
        exam.step(ExamPane.AXIAL, 1);
        exam.step(ExamPane.AXIAL, 1);

        assertEquals(Optional.of("step"), exam.undo());
        assertPlace(START, exam.look().crossing());
        assertEquals(new HuWindow(500, 1500), exam.look().window());
        assertEquals(Optional.of("window"), exam.undo());
        assertEquals(WINDOW, exam.look().window());
        assertEquals(Optional.of("window"), exam.redo());
        assertEquals(new HuWindow(500, 1500), exam.look().window());
    }
}
