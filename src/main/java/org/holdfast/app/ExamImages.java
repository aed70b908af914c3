package org.holdfast.app;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.intake.LoadedRadiograph;
import org.holdfast.intake.LoadedVolume;
import org.holdfast.intake.RadiographFile;
import org.holdfast.intake.RadiographLoader;
import org.holdfast.intake.SeriesHash;
import org.holdfast.intake.VolumeLoader;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.Radiograph;

/**
 * The images of a subject's exams from their folders. Volumes and radiographs are kept within a bound: when it is exceeded, those that are
 * not on the screen are given up, the longest unused first. What headers said is kept, so that a volume comes back without
 * its folder being searched again; after a failure the folder is searched anew, since it may have been mended.
 */
public final class ExamImages implements ExamVolumes {

    private static final double HEADER_SHARE = 0.15;
    /** Films of one exam that are kept at once. */
    private static final int MOST_FILMS = 4;

    private final ReviewSubject subject;
    private final long budgetBytes;
    private final List<Exam> exams = new ArrayList<>();
    private Set<Integer> onScreen = Set.of();
    private long clock;
    private volatile boolean closed;

    /**
     * One exam. Each turn keeps two callers from doing the same work twice, and only that: headers can be asked for while
     * a volume is read, a volume while files are hashed. Volume and use are guarded by the images.
     */
    private static final class Exam {
        private final ReviewExam named;
        private final Turn scanning = new Turn();
        private final Turn reading = new Turn();
        private final Turn hashing = new Turn();
        private volatile Scanned scanned;
        private volatile String sha256;
        private HuVolume volume;
        private final Map<Integer, Radiograph> films = new LinkedHashMap<>(16, 0.75f, true);
        private long lastUse;

        Exam(ReviewExam named) {
            this.named = named;
        }

        private long bytes() {
            return (volume == null ? 0 : volume.voxelBytes())
                    + films.values().stream().mapToLong(Radiograph::pixelBytes).sum();
        }

        private void giveUp() {
            volume = null;
            films.clear();
        }
    }

    /** What the headers of an exam said: of a volume or of radiographs. */
    private sealed interface Scanned {}

    private record ScannedVolume(OpenedExam opened, ExamFacts facts) implements Scanned {}

    private record ScannedFilms(OpenedFilms opened, FilmExam exam) implements Scanned {}

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
        subject.exams().forEach(exam -> exams.add(new Exam(exam)));
    }

    /** Half of the memory that the program may use: the rest is for cuts, measuring and the window. */
    public static long defaultBudget() {
        return Runtime.getRuntime().maxMemory() / 2;
    }

    @Override
    public ExamFacts facts(int index, Progress progress) throws UseCaseException {
        return volumeOf(exams.get(index), untilClosed(progress)).facts();
    }

    @Override
    public Optional<FilmExam> films(int index, Progress progress) throws UseCaseException {
        return scanned(exams.get(index), untilClosed(progress)) instanceof ScannedFilms films
                ? Optional.of(films.exam())
                : Optional.empty();
    }

    @Override
    public Optional<FilmExam> filmsBeside(int index, Progress progress) throws UseCaseException {
        return scanned(exams.get(index), untilClosed(progress)) instanceof ScannedVolume volume
                        && !volume.opened().filmsBeside().isEmpty()
                ? Optional.of(OpenedFilms.exam(
                        volume.opened().filmsBeside(), volume.opened().days(), List.of()))
                : Optional.empty();
    }

    @Override
    public Radiograph film(int index, int film, Progress progress) throws UseCaseException {
        Exam exam = exams.get(index);
        Progress own = untilClosed(progress);
        exam.reading.take(own);
        try {
            Optional<Radiograph> there = useFilm(exam, film);
            return there.isPresent() ? there.get() : readFilm(exam, film, own);
        } finally {
            exam.reading.give();
        }
    }

    @Override
    public synchronized boolean hasFilmsLoaded(int index) {
        return !exams.get(index).films.isEmpty();
    }

    @Override
    public HuVolume volume(int index, Progress progress) throws UseCaseException {
        Exam exam = exams.get(index);
        Progress own = untilClosed(progress);
        exam.reading.take(own);
        try {
            Optional<HuVolume> there = use(exam);
            return there.isPresent() ? there.get() : read(exam, own);
        } finally {
            exam.reading.give();
        }
    }

    @Override
    public synchronized Optional<HuVolume> loaded(int index) {
        return Optional.ofNullable(exams.get(index).volume);
    }

    @Override
    public synchronized void onScreen(Set<Integer> seen) {
        seen.forEach(index -> exams.get(index).lastUse = ++clock);
        onScreen = Set.copyOf(seen);
        release();
    }

    @Override
    public String seriesSha256(int index, Progress progress) throws UseCaseException {
        Exam exam = exams.get(index);
        Progress own = untilClosed(progress);
        exam.hashing.take(own);
        try {
            if (exam.sha256 == null) {
                OpenedExam opened = volumeOf(exam, own.part(0, HEADER_SHARE)).opened();
                exam.sha256 = SeriesHash.of(opened.stack(), own.part(HEADER_SHARE, 1));
            }
            return exam.sha256;
        } catch (DicomReadException e) {
            throw failed(exam, e);
        } finally {
            exam.hashing.give();
        }
    }

    @Override
    public void close() {
        closed = true;
        synchronized (this) {
            exams.forEach(Exam::giveUp);
        }
    }

    private HuVolume read(Exam exam, Progress progress) throws UseCaseException {
        ScannedVolume scanned = volumeOf(exam, progress.part(0, HEADER_SHARE));
        try {
            LoadedVolume loaded = VolumeLoader.load(scanned.opened().stack(), progress.part(HEADER_SHARE, 1));
            exam.scanned = new ScannedVolume(scanned.opened(), scanned.facts().withFindings(loaded.findings()));
            keep(exam, loaded.volume());
            return loaded.volume();
        } catch (DicomReadException e) {
            throw failed(exam, e);
        }
    }

    private Radiograph readFilm(Exam exam, int film, Progress progress) throws UseCaseException {
        Scanned scanned = scanned(exam, progress.part(0, HEADER_SHARE));
        List<RadiographFile> all = scanned instanceof ScannedFilms films
                ? films.opened().films()
                : ((ScannedVolume) scanned).opened().filmsBeside();
        if (film >= all.size()) {
            throw new IllegalArgumentException(
                    exam.named.folder() + ": the exam has " + all.size() + " radiographs, asked for number " + film);
        }
        RadiographFile file = all.get(film);
        try {
            LoadedRadiograph loaded = RadiographLoader.load(file, progress.part(HEADER_SHARE, 1));
            keepFilm(exam, film, loaded.film());
            return loaded.film();
        } catch (DicomReadException e) {
            throw failed(exam, e);
        }
    }

    private ScannedVolume volumeOf(Exam exam, Progress progress) throws UseCaseException {
        if (scanned(exam, progress) instanceof ScannedVolume volume) {
            return volume;
        }
        throw new UseCaseException(exam.named.folder() + ": the exam is of radiographs, which make no volume");
    }

    private Scanned scanned(Exam exam, Progress progress) throws UseCaseException {
        Scanned known = exam.scanned;
        if (known != null) {
            progress.stopIfCancelled();
            return known;
        }
        exam.scanning.take(progress);
        try {
            if (exam.scanned == null) {
                exam.scanned = scan(exam.named, progress);
            }
            return exam.scanned;
        } finally {
            exam.scanning.give();
        }
    }

    private Scanned scan(ReviewExam named, Progress progress) throws UseCaseException {
        Opened any = Opened.open(named.argument(), subject.construct(), progress);
        if (any instanceof OpenedFilms films) {
            return new ScannedFilms(films, films.exam());
        }
        OpenedExam opened = (OpenedExam) any;
        OpenedExam.Pose pose = opened.pose(subject.construct(), subject.poses());
        ExamFacts facts = new ExamFacts(
                opened.seriesUid(),
                opened.stack().grid(),
                opened.stack().acquisition(),
                opened.days(),
                opened.seriesUid().equals(subject.construct().referenceSeriesUid()),
                pose.referenceToExam(),
                pose.kind(),
                pose.source(),
                opened.findings());
        return new ScannedVolume(opened, facts.withFindings(pose.findings()));
    }

    /** Files that could not be read may be others by now: nothing that was known of them is kept. */
    private static UseCaseException failed(Exam exam, DicomReadException e) {
        exam.scanned = null;
        exam.sha256 = null;
        return new UseCaseException(exam.named.folder() + ": " + e.getMessage(), e);
    }

    private Progress untilClosed(Progress progress) {
        return progress.orCancelledIf(() -> closed);
    }

    private synchronized Optional<HuVolume> use(Exam exam) {
        exam.lastUse = ++clock;
        return Optional.ofNullable(exam.volume);
    }

    private synchronized void keep(Exam exam, HuVolume volume) {
        if (closed) {
            return;
        }
        exam.volume = volume;
        exam.lastUse = ++clock;
        release();
    }

    private synchronized Optional<Radiograph> useFilm(Exam exam, int film) {
        exam.lastUse = ++clock;
        return Optional.ofNullable(exam.films.get(film));
    }

    /** Of an exam with many films the longest unused is given up: only a few can be seen at once. */
    private synchronized void keepFilm(Exam exam, int film, Radiograph loaded) {
        if (closed) {
            return;
        }
        exam.films.put(film, loaded);
        if (exam.films.size() > MOST_FILMS) {
            exam.films.remove(exam.films.keySet().iterator().next());
        }
        exam.lastUse = ++clock;
        release();
    }

    /** Gives up what cannot be seen, the longest unused first, until the rest keeps to the budget. */
    private void release() {
        long kept = exams.stream().mapToLong(Exam::bytes).sum();
        List<Exam> unseen = exams.stream()
                .filter(exam -> exam.bytes() > 0 && !onScreen.contains(exam.named.index()))
                .sorted(Comparator.comparingLong(exam -> exam.lastUse))
                .toList();
        for (Exam exam : unseen) {
            if (kept <= budgetBytes) {
                return;
            }
            kept -= exam.bytes();
            exam.giveUp();
        }
    }
}
