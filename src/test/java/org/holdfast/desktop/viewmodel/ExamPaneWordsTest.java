package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.holdfast.desktop.state.ExamPane;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.desktop.state.WholeExamLook;
import org.holdfast.geometry.PatientPoint;
import org.junit.jupiter.api.Test;

class ExamPaneWordsTest {

    private static String position(ExamPane pane, double x, double y, double z) {
        ExamPlanes planes = new ExamPlanes(SampleExam.withHole().grid());
        WholeExamLook look = WholeExamLook.fitted(new PatientPoint(x, y, z), new HuWindow(40, 400));
        return ExamPaneWords.position(pane, planes, look);
    }

    @Test
    void countsSlicesFromOne() {
        // By hand: slices at 300, 302, 304, 312, 314
        assertEquals("slice 1 of 5", position(ExamPane.ORIGINAL, 0, 25, 299));
        assertEquals("slice 2 of 5", position(ExamPane.ORIGINAL, 0, 25, 302.9));
        assertEquals("slice 5 of 5", position(ExamPane.ORIGINAL, 0, 25, 400));
    }

    @Test
    void namesAMissingStretch() {
        assertEquals("slice 3 of 5, slices missing after it", position(ExamPane.ORIGINAL, 0, 25, 304));
    }

    @Test
    void tellsDistancesByTheirSide() {
        assertEquals("H 304.2\u2009mm", position(ExamPane.AXIAL, 0, 25, 304.21));
        assertEquals("F 12.5\u2009mm", position(ExamPane.AXIAL, 0, 25, -12.5));
        assertEquals("A 118.0\u2009mm", position(ExamPane.CORONAL, 0, -118, 0));
        assertEquals("R 0.1\u2009mm", position(ExamPane.SAGITTAL, -0.08, 25, 0));
        assertEquals("L 0.0\u2009mm", position(ExamPane.SAGITTAL, -0.04, 25, 0));
    }

    @Test
    void writesTheWindowWithATrueMinus() {
        assertEquals("C 650 W 2700", ExamPaneWords.window(new HuWindow(650.3, 2699.8)));
        assertEquals("C \u2212600 W 1500", ExamPaneWords.window(new HuWindow(-600, 1500)));
    }
}
