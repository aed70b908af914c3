package org.holdfast.desktop.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import java.util.Optional;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.layout.VBox;
import org.holdfast.app.ExamImages;
import org.holdfast.app.ReviewSubject;
import org.holdfast.cases.SampleSubject;
import org.holdfast.desktop.WindowTest;
import org.holdfast.desktop.viewmodel.CourseResults;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.desktop.viewmodel.CourseResults.Status;
import org.holdfast.desktop.viewmodel.SameThreadRunner;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;

/** What is said of measuring while it goes on and when it has ended. */
@ExtendWith(WindowTest.class)
final class CourseStatusTest {

    private static CourseStatus status() throws Exception {
        ReviewSubject subject = ReviewSubject.open(SampleSubject.folder());
        CourseResults results = new CourseResults(
                subject, new ExamImages(subject, ExamImages.defaultBudget()), SameThreadRunner.held());
        return WindowTest.fx(() -> new CourseStatus(results));
    }

    private static Known known(Status status) {
        return new Known(Optional.empty(), Map.of(), status);
    }

    private static <T extends Node> T in(CourseStatus status, Class<T> type) {
        VBox box = (VBox) status.getChildren().get(0);
        return box.getChildren().stream()
                .filter(type::isInstance)
                .map(type::cast)
                .findFirst()
                .orElseThrow();
    }

    @Test
    void stopStaysTheSameButtonWhileReportsComeIn() throws Exception {
        CourseStatus status = status();
        WindowTest.fxRun(() -> {
            status.show(known(new Status.Measuring(0.2, "exam 1 of 5")));
            Button stop = in(status, Button.class);
            status.show(known(new Status.Measuring(0.6, "exam 3 of 5")));
            assertSame(stop, in(status, Button.class));
            assertEquals("Measuring: exam 3 of 5", in(status, Label.class).getText());
            assertEquals(0.6, in(status, ProgressBar.class).getProgress());
        });
    }

    @Test
    void saysNothingOnceNumbersAreThere() throws Exception {
        CourseStatus status = status();
        WindowTest.fxRun(() -> {
            status.show(known(new Status.Measuring(0.2, "exam 1 of 5")));
            status.show(known(new Status.Idle()));
            assertTrue(status.getChildren().isEmpty());
        });
    }

    @Test
    void offersToMeasureAfterAStop() throws Exception {
        CourseStatus status = status();
        WindowTest.fxRun(() -> {
            status.show(known(new Status.Measuring(0.2, "exam 1 of 5")));
            status.show(known(new Status.Stopped()));
            assertEquals("Measure", in(status, Button.class).getText());
        });
    }
}
