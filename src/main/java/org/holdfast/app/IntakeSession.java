package org.holdfast.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.intake.ImageHeader;
import org.holdfast.intake.Intake;
import org.holdfast.intake.IntakeReport;
import org.holdfast.intake.RadiographLoader;
import org.holdfast.intake.SeriesUse;
import org.holdfast.intake.Stack;
import org.holdfast.intake.VolumeLoader;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.Radiograph;

/**
 * Use case: exams are taken into a subject's folder. Files, folders and zips are read once; what they hold is told in plain
 * records, pictures are made of it, and what a person decided about it is carried out. What was unpacked for it is removed
 * when it is closed. May be used from several threads.
 */
public final class IntakeSession implements AutoCloseable {

    private final IntakeContent content;
    private final Map<String, SeriesUse> uses;
    private volatile boolean closed;

    private IntakeSession(IntakeContent content, Map<String, SeriesUse> uses) {
        this.content = content;
        this.uses = uses;
    }

    /**
     * Reads the headers of all files. What cannot be read is listed with the reason and stops nothing.
     *
     * @throws java.util.concurrent.CancellationException if the person stopped it
     */
    public static IntakeSession read(List<Path> paths, Progress progress) {
        IntakeReport report = Intake.scan(paths, progress.part(0, 0.9));
        IntakeReading reading = IntakeReading.of(paths, report, progress.part(0.9, 1));
        return new IntakeSession(reading.content(), reading.uses());
    }

    /** What was found. */
    public IntakeContent content() {
        return content;
    }

    /**
     * A small picture of a series.
     *
     * @param seriesId which
     * @param mostWidth pixels a row at most
     * @param mostHeight rows at most
     * @throws UseCaseException if none can be made; says why
     */
    public GreyPicture picture(String seriesId, int mostWidth, int mostHeight, Progress progress)
            throws UseCaseException {
        untilClosed(progress).stopIfCancelled();
        return SmallPicture.of(use(seriesId), mostWidth, mostHeight);
    }

    /**
     * The HU of a series, to look at it as a whole.
     *
     * @throws UseCaseException if it has none, or a file cannot be read
     * @throws java.util.concurrent.CancellationException if the person stopped it
     */
    public HuVolume volume(String seriesId, Progress progress) throws UseCaseException {
        Stack stack =
                use(seriesId).stack().orElseThrow(() -> new UseCaseException("These images are no stack of slices."));
        if (stack.whyNoHu().isPresent()) {
            throw new UseCaseException(
                    "These slices have no HU: " + stack.whyNoHu().get());
        }
        try {
            return VolumeLoader.load(stack, untilClosed(progress)).volume();
        } catch (DicomReadException e) {
            throw new UseCaseException(e.getMessage(), e);
        }
    }

    /**
     * The first picture of a series that is no stack, in full: a radiograph, a localizer, a capture.
     *
     * @throws UseCaseException if it cannot be shown, or its file cannot be read
     * @throws java.util.concurrent.CancellationException if the person stopped it
     */
    public Radiograph film(String seriesId, Progress progress) throws UseCaseException {
        ImageHeader first = use(seriesId).series().files().get(0);
        Optional<String> why = RadiographLoader.whyNoPicture(first);
        if (why.isPresent()) {
            throw new UseCaseException("This picture cannot be shown: " + why.get());
        }
        try {
            return RadiographLoader.load(first, untilClosed(progress)).film();
        } catch (DicomReadException e) {
            throw new UseCaseException(e.getMessage(), e);
        }
    }

    /** A subject's folder as it is now: what is in it, and what of this session it has already. */
    public TakeInTarget target(Path folder) {
        Path document = folder.resolve(SubjectFolder.DOCUMENT);
        if (!Files.exists(document)) {
            return Files.exists(folder) && !Files.isDirectory(folder)
                    ? TakeInTarget.unusable(folder, "where the subject's folder would be lies a file")
                    : new TakeInTarget(folder, Optional.empty(), Optional.empty(), unpacked());
        }
        try {
            return existing(SubjectFolder.read(folder));
        } catch (UseCaseException e) {
            return TakeInTarget.unusable(folder, e.getMessage());
        }
    }

    /**
     * Takes exams in. The subject's document is written last: until then nothing of it is in the folder, whatever happens.
     *
     * @throws UseCaseException if a file cannot be read, or the subject is not as it was
     * @throws IOException if a file cannot be written
     * @throws java.util.concurrent.CancellationException if the person stopped it; nothing is left behind
     * @throws IllegalArgumentException if the plan leaves questions open
     */
    public TakenIn takeIn(IntakePatient patient, TakeInPlan plan, Progress progress)
            throws UseCaseException, IOException {
        TakeInPlan now = plan.withTarget(target(plan.target().folder()));
        List<TakeInQuestion> open = TakeInQuestions.of(patient, now);
        if (!open.isEmpty()) {
            throw new IllegalArgumentException(
                    "a question is open: " + open.get(0).text());
        }
        return new TakeIn(patient, now, uses).run(untilClosed(progress));
    }

    @Override
    public void close() {
        closed = true;
    }

    private TakeInTarget existing(SubjectFolder subject) throws UseCaseException {
        LocalDate surgery = subject.surgeryDate();
        if (subject.shiftMark().isPresent()) {
            SubjectPseudonyms secret = SubjectPseudonyms.of(subject.code());
            if (!secret.mark().equals(subject.shiftMark().get())) {
                throw new UseCaseException(
                        "the dates of this subject were shifted by another secret key than the one in "
                                + Deidentification.usualKey() + ": intervals would be wrong");
            }
            surgery = secret.unshifted(surgery);
        }
        Set<String> labels =
                subject.exams().stream().map(SubjectFolder.Exam::label).collect(Collectors.toSet());
        boolean shifted = subject.shiftMark().isPresent();
        return new TakeInTarget(
                subject.folder(),
                Optional.of(new TakeInTarget.Subject(subject.code(), surgery, labels, seriesThere(subject), shifted)),
                Optional.empty(),
                shifted
                        ? Optional.of(
                                "this subject's dates are shifted, those of files left in place are not: copy them")
                        : unpacked());
    }

    /** Why files cannot be referred to that lie in an archive. */
    private Optional<String> unpacked() {
        boolean some = uses.values().stream()
                .flatMap(use -> use.series().files().stream())
                .anyMatch(file -> !file.name().equals(file.path().toString()));
        return some ? Optional.of("files out of a zip cannot stay where they are: copy them") : Optional.empty();
    }

    /** The series of this session that a subject has, under their own UIDs or under those they got. */
    private Set<String> seriesThere(SubjectFolder subject) throws UseCaseException {
        Set<String> there = new HashSet<>(KnownSeries.of(subject));
        Set<String> ids = new HashSet<>();
        Optional<SubjectPseudonyms> secret = SubjectPseudonyms.existing(subject.code());
        for (Map.Entry<String, SeriesUse> use : uses.entrySet()) {
            String uid = use.getValue().series().seriesInstanceUid();
            boolean isThere = !uid.isEmpty()
                    && (there.contains(uid)
                            || secret.isPresent() && there.contains(secret.get().uid(uid)));
            if (isThere) {
                ids.add(use.getKey());
            }
        }
        return ids;
    }

    private SeriesUse use(String seriesId) {
        SeriesUse use = uses.get(seriesId);
        if (use == null) {
            throw new IllegalArgumentException("seriesId: no series " + seriesId);
        }
        return use;
    }

    private Progress untilClosed(Progress progress) {
        return progress.orCancelledIf(() -> closed);
    }
}
