package org.holdfast.desktop.viewmodel;

import java.util.Optional;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.holdfast.app.ExamFacts;
import org.holdfast.app.ReviewExam;
import org.holdfast.volume.HuVolume;

/**
 * The images of one exam as far as they are there. Changes on the thread of the window only.
 *
 * @see ExamColumns
 */
public final class ExamColumn {

    /** What there is of an exam's images. */
    public sealed interface Images {

        /** Not asked for yet, or given up while out of sight. */
        record Absent() implements Images {}

        /**
         * Being read.
         *
         * @param fraction done so far, 0 to 1
         * @param activity what is being done, for a person
         */
        record Loading(double fraction, String activity) implements Images {}

        /**
         * There.
         *
         * @param volume the HU
         */
        record Loaded(HuVolume volume) implements Images {}

        /**
         * Stopped by the person.
         */
        record Stopped() implements Images {}

        /**
         * Not to be had.
         *
         * @param reason what failed, with file and place, for a person
         */
        record Failed(String reason) implements Images {}
    }

    private final ReviewExam exam;
    private final ReadOnlyObjectWrapper<Images> images = new ReadOnlyObjectWrapper<>(new Images.Absent());
    private final ReadOnlyObjectWrapper<Optional<ExamFacts>> facts = new ReadOnlyObjectWrapper<>(Optional.empty());

    ExamColumn(ReviewExam exam) {
        this.exam = exam;
    }

    /** The exam as the subject's folder names it. */
    public ReviewExam exam() {
        return exam;
    }

    /** What there is of its images. */
    public ReadOnlyObjectProperty<Images> imagesProperty() {
        return images.getReadOnlyProperty();
    }

    /** What its files say; empty until they were read. */
    public ReadOnlyObjectProperty<Optional<ExamFacts>> factsProperty() {
        return facts.getReadOnlyProperty();
    }

    /** The volume, if it is there now. */
    public Optional<HuVolume> volume() {
        return images.get() instanceof Images.Loaded loaded ? Optional.of(loaded.volume()) : Optional.empty();
    }

    void become(Images next) {
        images.set(next);
    }

    void know(ExamFacts read) {
        facts.set(Optional.of(read));
    }
}
