package org.holdfast.desktop;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;

import javafx.application.Platform;
import javafx.beans.property.SimpleIntegerProperty;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;

/** That a failure on the window's thread does fail the test, as all window tests rely on. */
@ExtendWith(WindowTest.class)
final class UncaughtFailuresTest {

    @Test
    void whatATaskThrowsFailsTheTest() throws Exception {
        UncaughtFailures failures = new UncaughtFailures();
        IllegalStateException thrown = new IllegalStateException("on purpose");
        Thread.UncaughtExceptionHandler before =
                WindowTest.fx(() -> Thread.currentThread().getUncaughtExceptionHandler());
        WindowTest.fxRun(() -> Thread.currentThread().setUncaughtExceptionHandler(failures));
        Platform.runLater(() -> {
            throw thrown;
        });
        WindowTest.fxRun(() -> Thread.currentThread().setUncaughtExceptionHandler(before));
        AssertionError error = assertThrows(AssertionError.class, failures::rethrow);
        assertSame(thrown, error.getCause());
        assertDoesNotThrow(failures::rethrow);
    }

    @Test
    void whatAListenerThrowsFailsTheTest() throws Exception {
        UncaughtFailures failures = new UncaughtFailures();
        Thread.UncaughtExceptionHandler before =
                WindowTest.fx(() -> Thread.currentThread().getUncaughtExceptionHandler());
        WindowTest.fxRun(() -> {
            Thread.currentThread().setUncaughtExceptionHandler(failures);
            SimpleIntegerProperty property = new SimpleIntegerProperty();
            property.addListener((observed, old, now) -> {
                throw new IllegalStateException("on purpose");
            });
            property.set(1);
            Thread.currentThread().setUncaughtExceptionHandler(before);
        });
        assertEquals(1, failures.take().size());
    }

    @Test
    void theWindowsThreadHasTheHandlerThatFailsTests() throws Exception {
        assertEquals(
                UncaughtFailures.class,
                WindowTest.fx(() -> Thread.currentThread().getUncaughtExceptionHandler())
                        .getClass());
    }
}
