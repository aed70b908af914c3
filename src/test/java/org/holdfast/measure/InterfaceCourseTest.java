package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import java.util.List;
import java.util.Optional;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.Acquisition.Known;
import org.junit.jupiter.api.Test;

/** Which exam of a course fixes threshold and edges, and what the keys of its results rest on. */
class InterfaceCourseTest {

    private final LayeredFace layered = new LayeredFace(new ProfileModel(2100, 30, 700, 0.8, 260, 0.42));
    private final MeasurementSettings settings = MeasurementSettings.withDefaults();
    private final InterfaceCourse course = new InterfaceCourse(layered.construct, layered.face(), settings);

    private ExamScan exam(String label, String sha256, Acquisition acquisition) {
        ExamScan made = layered.exam(layered.exam((x, y) -> x < 0 ? 0 : 2.5).volume(), acquisition);
        return new ExamScan(
                label,
                made.seriesUid(),
                sha256,
                made.volume(),
                made.acquisition(),
                made.pointSpread(),
                made.referenceToExam(),
                made.poseKind());
    }

    @Test
    void firstExamIsTheReference() {
        InterfaceExam first = course.measure(exam("surgery", "aa", Acquisition.unknown()));
        InterfaceExam second = course.measure(exam("6 mo", "bb", Acquisition.unknown()));
        assertEquals(Optional.of("surgery"), course.referenceLabel());
        assertEquals(StaleKey.of(settings, layered.construct, List.of("aa", "aa")), first.key());
        assertEquals(StaleKey.of(settings, layered.construct, List.of("aa", "bb")), second.key());
    }

    @Test
    void anExamThatMayNotBeMeasuredIsNoReference() {
        InterfaceExam refused =
                course.measure(exam("surgery", "aa", Acquisitions.of(Optional.empty(), Known.YES, Known.NO)));
        assertEquals(Optional.empty(), refused.contact());
        assertEquals(Optional.empty(), course.referenceLabel());
        InterfaceExam measured = course.measure(exam("6 mo", "bb", Acquisition.unknown()));
        assertEquals(Optional.of("6 mo"), course.referenceLabel());
        // The key names the series from which threshold and edges really come.
        assertEquals(StaleKey.of(settings, layered.construct, List.of("bb", "bb")), measured.key());
        assertNotEquals(refused.key(), measured.key());
    }
}
