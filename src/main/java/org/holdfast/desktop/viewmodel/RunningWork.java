package org.holdfast.desktop.viewmodel;

import java.util.concurrent.Executor;
import java.util.concurrent.atomic.AtomicReference;
import javafx.beans.property.ReadOnlyDoubleProperty;
import javafx.beans.property.ReadOnlyDoubleWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import org.holdfast.progress.Progress;

/**
 * How far a piece of work is. The worker reports as often as it likes; the window's thread is asked at most once at a time
 * and sees the latest report.
 */
public final class RunningWork implements BackgroundRunner.Running, Progress {

    private final Executor windowThread;
    private final ReadOnlyDoubleWrapper fraction = new ReadOnlyDoubleWrapper();
    private final ReadOnlyStringWrapper activity = new ReadOnlyStringWrapper("");
    private final AtomicReference<Report> latest = new AtomicReference<>();
    private volatile boolean cancelled;
    private volatile boolean done;

    private record Report(double fraction, String activity) {}

    /** @param windowThread runs tasks on the thread of the window */
    public RunningWork(Executor windowThread) {
        this.windowThread = windowThread;
    }

    @Override
    public void report(double part, String what) {
        if (latest.getAndSet(new Report(part, what)) == null) {
            windowThread.execute(() -> {
                Report report = latest.getAndSet(null);
                activity.set(report.activity());
                fraction.set(report.fraction());
            });
        }
    }

    @Override
    public boolean isCancelled() {
        return cancelled;
    }

    @Override
    public void cancel() {
        cancelled = true;
    }

    @Override
    public boolean isDone() {
        return done;
    }

    /** Result or failure is being handed over. */
    public void finish() {
        done = true;
    }

    @Override
    public ReadOnlyDoubleProperty fractionProperty() {
        return fraction.getReadOnlyProperty();
    }

    @Override
    public ReadOnlyStringProperty activityProperty() {
        return activity.getReadOnlyProperty();
    }
}
