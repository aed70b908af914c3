package org.holdfast.app;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.locks.ReentrantLock;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.intake.SeriesHash;
import org.holdfast.intake.Stack;
import org.holdfast.intake.VolumeLoader;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;

/**
 * The images of a subject's exams from their folders. Volumes are kept within a bound: when it is exceeded, those that are
 * not on the screen are given up, the longest unused first. What headers said is kept, so that a volume comes back without
 * its folder being searched again.
 */
public final class ExamImages implements ExamVolumes {

    private static final double HEADER_SHARE = 0.15;

    private final ReviewSubject subject;
    private final long budgetBytes;
    private final List<Exam> exams = new ArrayList<>();
    private Set<Integer> onScreen = Set.of();
    private long clock;

    /** One exam; {@code reading} keeps two callers from reading it twice, all else is guarded by the images. */
    private static final class Exam {
        private final ReentrantLock reading = new ReentrantLock();
        private OpenedExam opened;
        private ExamFacts facts;
        private HuVolume volume;
        private String sha256;
        private long lastUse;
    }

    /**
     * @param subject whose exams
     * @param budgetBytes voxels are kept within this many bytes, those on the screen excepted; at least 0
     */
    public ExamImages(ReviewSubject subject, long budgetBytes) {
        if (budgetBytes < 0) {
            throw new IllegalArgumentException("budgetBytes must be at least 0, got " + budgetBytes);
        }
        this.subject = subject;
        this.budgetBytes = budgetBytes;
        subject.exams().forEach(exam -> exams.add(new Exam()));
    }

    /** Half of the memory that the program may use: the rest is for cuts, measuring and the window. */
    public static long defaultBudget() {
        return Runtime.getRuntime().maxMemory() / 2;
    }

    @Override
    public ExamFacts facts(int index, Progress progress) throws UseCaseException {
        Exam exam = exams.get(index);
        exam.reading.lock();
        try {
            open(index, exam, progress);
            return exam.facts;
        } finally {
            exam.reading.unlock();
        }
    }

    @Override
    public HuVolume volume(int index, Progress progress) throws UseCaseException {
        Exam exam = exams.get(index);
        exam.reading.lock();
        try {
            Optional<HuVolume> there = use(exam);
            if (there.isPresent()) {
                return there.get();
            }
            open(index, exam, progress.part(0, HEADER_SHARE));
            Stack stack = exam.opened.stack();
            HuVolume volume =
                    VolumeLoader.load(stack, progress.part(HEADER_SHARE, 1)).volume();
            keep(exam, volume);
            return volume;
        } catch (DicomReadException e) {
            throw new UseCaseException(subject.exams().get(index).folder() + ": " + e.getMessage(), e);
        } finally {
            exam.reading.unlock();
        }
    }

    @Override
    public synchronized Optional<HuVolume> loaded(int index) {
        return Optional.ofNullable(exams.get(index).volume);
    }

    @Override
    public synchronized void onScreen(Set<Integer> seen) {
        onScreen = Set.copyOf(seen);
        for (int index : seen) {
            exams.get(index).lastUse = ++clock;
        }
        release();
    }

    @Override
    public String seriesSha256(int index, Progress progress) throws UseCaseException {
        Exam exam = exams.get(index);
        exam.reading.lock();
        try {
            open(index, exam, progress);
            if (exam.sha256 == null) {
                exam.sha256 = SeriesHash.of(exam.opened.stack());
            }
            return exam.sha256;
        } catch (DicomReadException e) {
            throw new UseCaseException(subject.exams().get(index).folder() + ": " + e.getMessage(), e);
        } finally {
            exam.reading.unlock();
        }
    }

    @Override
    public synchronized void close() {
        exams.forEach(exam -> exam.volume = null);
    }

    private void open(int index, Exam exam, Progress progress) throws UseCaseException {
        if (exam.opened != null) {
            return;
        }
        ReviewExam named = subject.exams().get(index);
        ExamArgument argument =
                new ExamArgument(named.folder(), Optional.empty(), Optional.of(named.label()), named.date());
        OpenedExam opened = OpenedExam.open(argument, subject.construct(), progress);
        OpenedExam.Pose pose = opened.pose(subject.construct(), subject.poses());
        exam.facts = new ExamFacts(
                opened.seriesUid(),
                opened.stack().grid(),
                opened.stack().acquisition(),
                opened.days(),
                opened.seriesUid().equals(subject.construct().referenceSeriesUid()),
                pose.referenceToExam(),
                pose.kind(),
                pose.source(),
                opened.findings());
        exam.opened = opened;
    }

    private synchronized Optional<HuVolume> use(Exam exam) {
        exam.lastUse = ++clock;
        return Optional.ofNullable(exam.volume);
    }

    private synchronized void keep(Exam exam, HuVolume volume) {
        exam.volume = volume;
        exam.lastUse = ++clock;
        release();
    }

    /** Gives up what cannot be seen, the longest unused first, until the rest keeps to the budget. */
    private void release() {
        long kept = exams.stream()
                .filter(exam -> exam.volume != null)
                .mapToLong(exam -> exam.volume.voxelBytes())
                .sum();
        List<Exam> unseen = new ArrayList<>();
        for (int index = 0; index < exams.size(); index++) {
            if (!onScreen.contains(index) && exams.get(index).volume != null) {
                unseen.add(exams.get(index));
            }
        }
        unseen.sort(Comparator.comparingLong(exam -> exam.lastUse));
        for (Exam exam : unseen) {
            if (kept <= budgetBytes) {
                return;
            }
            kept -= exam.volume.voxelBytes();
            exam.volume = null;
        }
    }
}
