package org.holdfast.app;

import java.util.Optional;
import java.util.Set;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.Radiograph;

/** Where a review has its images from. Thread-safe; exams are named by their index in the order of time. */
public interface ExamVolumes extends AutoCloseable {

    /**
     * What the files of an exam say; read once, then kept.
     *
     * @throws UseCaseException if they cannot be read, or they are no volume
     * @throws java.util.concurrent.CancellationException if cancelled
     */
    ExamFacts facts(int exam, Progress progress) throws UseCaseException;

    /**
     * What the files of an exam of radiographs say; empty if it is a volume, of which {@link #facts} tells.
     *
     * @throws UseCaseException if they cannot be read
     * @throws java.util.concurrent.CancellationException if cancelled
     */
    default Optional<FilmExam> films(int exam, Progress progress) throws UseCaseException {
        return Optional.empty();
    }

    /**
     * What the files say of radiographs that were taken at the exam of a volume; empty if there are none.
     *
     * @throws UseCaseException if they cannot be read
     * @throws java.util.concurrent.CancellationException if cancelled
     */
    default Optional<FilmExam> filmsBeside(int exam, Progress progress) throws UseCaseException {
        return Optional.empty();
    }

    /**
     * A radiograph of an exam, of those beside a volume too; read if it is not there.
     *
     * @param film its place among the exam's films
     * @throws UseCaseException if its file cannot be read, or the memory does not suffice
     * @throws java.util.concurrent.CancellationException if cancelled
     */
    default Radiograph film(int exam, int film, Progress progress) throws UseCaseException {
        throw new IllegalArgumentException("exam " + exam + " has no radiographs");
    }

    /** Whether radiographs of an exam are there now; does not read. */
    default boolean hasFilmsLoaded(int exam) {
        return false;
    }

    /**
     * The HU of an exam; read if they are not there. Who asks while they are being read waits for the same reading,
     * and may be cancelled without stopping it.
     *
     * @throws UseCaseException if a file cannot be read, or the memory does not suffice
     * @throws java.util.concurrent.CancellationException if cancelled; nothing half-read is kept
     */
    HuVolume volume(int exam, Progress progress) throws UseCaseException;

    /** The HU of an exam if they are there now; does not read, and does not count as a use. */
    Optional<HuVolume> loaded(int exam);

    /** Tells which exams can be seen: their images are not given up, however little memory there is. */
    void onScreen(Set<Integer> exams);

    /**
     * Hash of an exam's files as they are now; computed once, then kept.
     *
     * @throws UseCaseException if they cannot be read
     * @throws java.util.concurrent.CancellationException if cancelled
     */
    String seriesSha256(int exam, Progress progress) throws UseCaseException;

    /** Gives everything up; what is being read stops, and whatever is asked for later, as if cancelled. */
    @Override
    void close();
}
