package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.holdfast.app.ReviewSubject;
import org.holdfast.cases.MemoryExams;
import org.holdfast.cases.SampleSubject;
import org.holdfast.desktop.viewmodel.CourseResults.Status;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Stopping at moments when work is done already, or was not measuring yet; a subject of which nothing was measured. */
class CourseStopTest {

    @TempDir
    Path folder;

    private final LateRunner late = new LateRunner();

    @BeforeEach
    void bringTheDocuments() throws Exception {
        for (String document : List.of("subject.json", "construct.json", "truth.json")) {
            Files.copy(SampleSubject.folder().resolve(document), folder.resolve(document));
        }
    }

    private CourseResults started(BackgroundRunner runner) throws Exception {
        CourseResults results = new CourseResults(ReviewSubject.open(folder), new MemoryExams(), runner);
        results.start();
        assertInstanceOf(Status.Reading.class, results.knownProperty().get().status());
        return results;
    }

    @Test
    void measuresWhereNothingIsStored() throws Exception {
        started(late);
        late.handOver();
        assertEquals(2, late.begun());
    }

    @Test
    void measuresNothingOfASubjectThatWasClosedMeanwhile() throws Exception {
        CourseResults results = started(late);
        results.stop();
        late.handOver();
        assertEquals(1, late.begun());
        assertInstanceOf(Status.Stopped.class, results.knownProperty().get().status());
    }

    @Test
    void isStoppedNotFailedWhenStoppedWhileReading() throws Exception {
        SameThreadRunner held = SameThreadRunner.held();
        CourseResults results = started(held);
        results.stop();
        held.next();
        assertInstanceOf(Status.Stopped.class, results.knownProperty().get().status());
    }
}
