package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.function.Consumer;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.util.Subscription;
import org.holdfast.app.ContactReport;
import org.holdfast.app.ExamResult;
import org.holdfast.app.ExamVolumes;
import org.holdfast.app.ReviewSubject;
import org.holdfast.app.Staleness;
import org.holdfast.app.StoredCourse;
import org.holdfast.app.SubjectCourse;
import org.holdfast.app.UseCaseException;
import org.holdfast.desktop.viewmodel.BackgroundRunner.Running;
import org.holdfast.desktop.viewmodel.BackgroundRunner.Work;
import org.holdfast.measure.ComponentExam;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.progress.Progress;

/**
 * What was measured of a subject: read back if it was measured before, else measured now, and whether it still belongs
 * to its inputs. Used on the thread of the window only.
 */
public final class CourseResults {

    /** How it stands with the numbers. */
    public sealed interface Status {

        /** Nothing is going on. */
        record Idle() implements Status {}

        /**
         * Earlier results are read back.
         */
        record Reading() implements Status {}

        /**
         * Being measured; {@code activity} says what.
         *
         * @param fraction done so far, 0 to 1
         * @param activity what is being done, for a person
         */
        record Measuring(double fraction, String activity) implements Status {}

        /** The person stopped it. */
        record Stopped() implements Status {}

        /**
         * It failed.
         *
         * @param reason what failed, with file and place, for a person
         */
        record Failed(String reason) implements Status {}
    }

    /**
     * All that is known at a moment. Immutable.
     *
     * @param report what was measured; empty while nothing is
     * @param stale why a number no longer belongs to its inputs, by exam label and id of the part
     * @param status what is going on
     * @param movedSince why all numbers of an exam no longer belong to its pose, by exam label
     */
    public record Known(
            Optional<ContactReport> report, Map<Place, String> stale, Status status, Map<String, String> movedSince) {

        public Known {
            stale = Map.copyOf(stale);
            movedSince = Map.copyOf(movedSince);
        }

        /** What is known while no pose was changed since it was measured. */
        public Known(Optional<ContactReport> report, Map<Place, String> stale, Status status) {
            this(report, stale, status, Map.of());
        }

        /** What was measured of an interface in an exam; empty if nothing was. */
        public Optional<InterfaceExam> of(String examLabel, String interfaceId) {
            return report.flatMap(r -> r.of(examLabel, interfaceId));
        }

        /** What was measured of a component in an exam; empty if nothing was. */
        public Optional<ComponentExam> component(String examLabel, String componentId) {
            return report.flatMap(r -> r.exam(examLabel)).flatMap(exam -> exam.components().stream()
                    .filter(measured -> measured.component().id().equals(componentId))
                    .findFirst());
        }

        /** What was measured in an exam as a whole; empty if nothing was. */
        public Optional<ExamResult> exam(String examLabel) {
            return report.flatMap(r -> r.exam(examLabel));
        }

        /** Why the numbers of a part no longer belong to their inputs; empty if they do. */
        public Optional<String> staleness(String examLabel, String partId) {
            return Optional.ofNullable(stale.get(new Place(examLabel, partId)))
                    .or(() -> Optional.ofNullable(movedSince.get(examLabel)));
        }

        /** Whether it is being measured now. */
        public boolean isMeasuring() {
            return status instanceof Status.Measuring || status instanceof Status.Reading;
        }

        private Known with(Status other) {
            return new Known(report, stale, other, movedSince);
        }
    }

    /**
     * One part in one exam.
     *
     * @param examLabel the exam
     * @param partId the interface or component
     */
    public record Place(String examLabel, String partId) {}

    private final ReviewSubject subject;
    private final ExamVolumes volumes;
    private final BackgroundRunner runner;
    private final ReadOnlyObjectWrapper<Known> known =
            new ReadOnlyObjectWrapper<>(new Known(Optional.empty(), Map.of(), new Status.Idle()));
    private Running running;
    /** Counts what was begun: what comes in late from earlier work changes nothing. */
    private int begun;

    private Subscription listening = Subscription.EMPTY;

    /**
     * @param subject whose results
     * @param volumes what the images are now, to tell whether results still belong to them
     * @param runner does what takes long
     */
    public CourseResults(ReviewSubject subject, ExamVolumes volumes, BackgroundRunner runner) {
        this.subject = subject;
        this.volumes = volumes;
        this.runner = runner;
    }

    /** All that is known. */
    public ReadOnlyObjectProperty<Known> knownProperty() {
        return known.getReadOnlyProperty();
    }

    /** Tells which poses differ from those that were measured with, by exam label, with the cause in words. */
    void movedSince(Map<String, String> causes) {
        Known now = known.get();
        if (!now.movedSince().equals(causes)) {
            become(new Known(now.report(), now.stale(), now.status(), causes));
        }
    }

    /** Reads earlier results back; where there are none, measures. Damaged ones are said to be so and left as they are. */
    public void start() {
        become(known.get().with(new Status.Reading()));
        begin(
                "reading earlier results",
                progress -> StoredCourse.read(subject.folder().folder()),
                this::read,
                failure -> failed("Earlier results cannot be read: ", failure));
    }

    /** Measures all exams anew. */
    public void measureAgain() {
        leave();
        become(known.get().with(new Status.Measuring(0, "starting")));
        begin(
                "measuring",
                progress -> SubjectCourse.measure(subject.folder().folder(), subject.settings(), progress)
                        .report(),
                this::measured,
                failure -> failed("", failure));
        if (!running.isDone()) {
            Running now = running;
            listening = now.fractionProperty()
                    .subscribe(() -> showProgress(now))
                    .and(now.activityProperty().subscribe(() -> showProgress(now)));
        }
    }

    private void showProgress(Running now) {
        if (known.get().status() instanceof Status.Measuring) {
            become(known.get()
                    .with(new Status.Measuring(
                            now.fractionProperty().get(), now.activityProperty().get())));
        }
    }

    private <T> void begin(String what, Work<T> work, Consumer<T> onResult, Consumer<Throwable> onFailure) {
        int mine = ++begun;
        running = runner.run(
                what,
                work,
                result -> {
                    if (mine == begun) {
                        onResult.accept(result);
                    }
                },
                failure -> {
                    if (mine == begun) {
                        onFailure.accept(failure);
                    }
                });
    }

    /** Stops what is going on; earlier numbers stay, and what comes too late is not taken. */
    public void stop() {
        leave();
        if (known.get().isMeasuring()) {
            become(known.get().with(new Status.Stopped()));
        }
    }

    private void leave() {
        begun++;
        listening.unsubscribe();
        listening = Subscription.EMPTY;
        if (running != null) {
            running.cancel();
        }
    }

    private void read(Optional<ContactReport> stored) {
        if (stored.isEmpty()) {
            measureAgain();
            return;
        }
        become(new Known(stored, Map.of(), new Status.Idle()));
        begin(
                "comparing results with their inputs",
                progress -> staleIn(stored.get(), progress),
                stale -> become(new Known(stored, stale, new Status.Idle())),
                failure -> {
                    // Where an exam cannot be read its column says so; the numbers are shown as they were measured.
                });
    }

    private Map<Place, String> staleIn(ContactReport stored, Progress progress) throws UseCaseException {
        Staleness staleness = Staleness.of(stored, subject, volumes, progress);
        Map<Place, String> found = new HashMap<>();
        for (ExamResult exam : stored.exams()) {
            List<String> ids = new ArrayList<>();
            exam.parts().forEach(part -> ids.add(part.face().id()));
            exam.components().forEach(part -> ids.add(part.component().id()));
            for (String id : ids) {
                staleness.why(exam.label(), id).ifPresent(why -> found.put(new Place(exam.label(), id), why));
            }
        }
        return found;
    }

    private void measured(ContactReport report) {
        listening.unsubscribe();
        become(new Known(Optional.of(report), Map.of(), new Status.Idle()));
    }

    private void failed(String what, Throwable failure) {
        listening.unsubscribe();
        become(known.get()
                .with(
                        failure instanceof CancellationException
                                ? new Status.Stopped()
                                : new Status.Failed(what + FailureText.of(failure))));
    }

    private void become(Known next) {
        known.set(next);
    }
}
