package org.holdfast.desktop.viewmodel;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.holdfast.app.ExamFacts;
import org.holdfast.app.FilmExam;
import org.holdfast.app.ReviewExam;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.Radiograph;

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
         * There: an exam of radiographs.
         *
         * @param films the first of its films, as many as a column shows
         */
        record Films(List<Radiograph> films) implements Images {
            public Films {
                films = List.copyOf(films);
            }
        }

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

    private final ReadOnlyObjectWrapper<Optional<FilmExam>> filmExam = new ReadOnlyObjectWrapper<>(Optional.empty());

    private Optional<FilmExam> filmsBeside = Optional.empty();

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

    /** What the files of an exam of radiographs say; empty until they were read, and for a volume. */
    public ReadOnlyObjectProperty<Optional<FilmExam>> filmExamProperty() {
        return filmExam.getReadOnlyProperty();
    }

    /** Radiographs that were taken at the exam of a volume; empty until its files were read. */
    public Optional<FilmExam> filmsBeside() {
        return filmsBeside;
    }

    /** A radiograph of those that a column shows, if it is there now. */
    public Optional<Radiograph> film(int index) {
        return images.get() instanceof Images.Films there
                        && index < there.films().size()
                ? Optional.of(there.films().get(index))
                : Optional.empty();
    }

    /** Days since surgery by its files, or by the subject's document until they were read. */
    public OptionalInt daysSinceSurgery() {
        return facts.get()
                .map(ExamFacts::daysSinceSurgery)
                .or(() -> filmExam.get().map(FilmExam::daysSinceSurgery))
                .orElse(exam.daysSinceSurgery());
    }

    void knowBeside(Optional<FilmExam> read) {
        filmsBeside = read;
    }

    void know(FilmExam read) {
        filmExam.set(Optional.of(read));
    }

    void become(Images next) {
        images.set(next);
    }

    void know(ExamFacts read) {
        facts.set(Optional.of(read));
    }
}
