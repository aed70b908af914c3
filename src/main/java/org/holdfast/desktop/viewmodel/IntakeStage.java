package org.holdfast.desktop.viewmodel;

import java.util.List;
import java.util.Objects;
import org.holdfast.app.IntakeContent;
import org.holdfast.app.IntakePatient;
import org.holdfast.app.TakenIn;

/** How far the intake is. All are immutable. */
public sealed interface IntakeStage {

    /** Nothing was pointed at yet. */
    record Empty() implements IntakeStage {}

    /**
     * Files are being read.
     *
     * @param place what is read, in words
     * @param fraction done so far, 0 to 1
     * @param activity what is being done
     * @param isStopping whether the person asked to stop, which takes a moment
     */
    record Reading(String place, double fraction, String activity, boolean isStopping) implements IntakeStage {}

    /**
     * They could not be read.
     *
     * @param place what was to be read, in words
     * @param reason why
     */
    record Failed(String place, String reason) implements IntakeStage {}

    /**
     * They are read, and hold something.
     *
     * @param place what was read, in words
     * @param content what they hold
     * @param patient whose exams are shown
     */
    record Shown(String place, IntakeContent content, IntakePatient patient) implements IntakeStage {

        public Shown {
            Objects.requireNonNull(content, "content");
            Objects.requireNonNull(patient, "patient");
        }
    }

    /**
     * They are read, and hold no image.
     *
     * @param place what was read, in words
     * @param content what they hold
     */
    record NothingFound(String place, IntakeContent content) implements IntakeStage {}

    /**
     * Exams are taken in.
     *
     * @param result what came of it
     */
    record Done(TakenIn result) implements IntakeStage {}

    /** The series in the order of the page; none unless they are shown. */
    default List<String> seriesIds() {
        return this instanceof Shown shown
                ? shown.patient().series().stream().map(series -> series.id()).toList()
                : List.of();
    }
}
