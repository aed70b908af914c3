package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.holdfast.cases.SampleSubject;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Several callers at once, cancelling, and exams that cannot be read. */
@Timeout(120)
final class ExamImagesSharingTest {

    @TempDir
    Path folder;

    private final ExecutorService callers = Executors.newCachedThreadPool();
    private ExamImages images;

    /** A reading that stops at its first slice until it is let go. */
    private static final class Held implements Progress {
        private final CountDownLatch reached = new CountDownLatch(1);
        private final CountDownLatch go = new CountDownLatch(1);
        private volatile boolean cancelled;

        @Override
        public void report(double fraction, String activity) {
            if (activity.equals("loading slices")) {
                reached.countDown();
                await(go);
            }
        }

        @Override
        public boolean isCancelled() {
            return cancelled;
        }

        void letGo(boolean cancel) {
            cancelled = cancel;
            go.countDown();
        }
    }

    /** A caller who waits: looks now and then whether it was stopped, but is told nothing. */
    private static final class Waiting implements Progress {
        /** Once on the way to the turn, then while waiting for it. */
        private final CountDownLatch looked = new CountDownLatch(3);

        private volatile boolean cancelled;

        @Override
        public void report(double fraction, String activity) {}

        @Override
        public boolean isCancelled() {
            looked.countDown();
            return cancelled;
        }
    }

    private static void await(CountDownLatch latch) {
        try {
            assertTrue(latch.await(60, TimeUnit.SECONDS), "waited in vain");
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new AssertionError(e);
        }
    }

    @BeforeEach
    void open() throws Exception {
        images = new ExamImages(ReviewSubject.open(SampleSubject.folder()), Long.MAX_VALUE);
    }

    @AfterEach
    void end() {
        callers.shutdownNow();
    }

    private <T> Future<T> call(Callable<T> work) {
        return callers.submit(work);
    }

    private static Throwable failure(Future<?> future) {
        return assertThrows(ExecutionException.class, () -> future.get(60, TimeUnit.SECONDS))
                .getCause();
    }

    @Test
    void twoCallersShareOneReading() throws Exception {
        Held held = new Held();
        Future<HuVolume> first = call(() -> images.volume(0, held));
        await(held.reached);
        Waiting waiting = new Waiting();
        Future<HuVolume> second = call(() -> images.volume(0, waiting));
        await(waiting.looked);
        assertFalse(second.isDone());
        held.letGo(false);
        assertSame(first.get(), second.get());
    }

    @Test
    void headersCanBeAskedForWhileAVolumeIsRead() throws Exception {
        Held held = new Held();
        Future<HuVolume> reading = call(() -> images.volume(0, held));
        await(held.reached);
        assertTrue(images.facts(0, Progress.NONE).isReference());
        assertEquals(SampleSubject.report().exams().get(0).seriesSha256(), images.seriesSha256(0, Progress.NONE));
        assertFalse(reading.isDone());
        held.letGo(false);
        reading.get();
    }

    @Test
    void whoWaitsCanBeStoppedWithoutStoppingTheReading() throws Exception {
        Held held = new Held();
        Future<HuVolume> first = call(() -> images.volume(0, held));
        await(held.reached);
        Waiting waiting = new Waiting();
        Future<HuVolume> second = call(() -> images.volume(0, waiting));
        await(waiting.looked);
        waiting.cancelled = true;
        assertInstanceOf(CancellationException.class, failure(second));
        held.letGo(false);
        assertSame(first.get(), images.loaded(0).orElseThrow());
    }

    @Test
    void whoWaitsReadsWhereTheFirstWasStopped() throws Exception {
        Held held = new Held();
        Future<HuVolume> first = call(() -> images.volume(0, held));
        await(held.reached);
        Waiting waiting = new Waiting();
        Future<HuVolume> second = call(() -> images.volume(0, waiting));
        await(waiting.looked);
        held.letGo(true);
        assertInstanceOf(CancellationException.class, failure(first));
        assertSame(second.get(), images.loaded(0).orElseThrow());
    }

    @Test
    void aCancelledReadingLeavesNothingAndCanBeStartedAgain() throws Exception {
        Held held = new Held();
        Future<HuVolume> first = call(() -> images.volume(0, held));
        await(held.reached);
        held.letGo(true);
        assertInstanceOf(CancellationException.class, failure(first));
        assertTrue(images.loaded(0).isEmpty());
        HuVolume whole = images.volume(0, Progress.NONE);
        HuVolume other = new ExamImages(ReviewSubject.open(SampleSubject.folder()), 0).volume(0, Progress.NONE);
        assertEquals(other.statistics(), whole.statistics());
    }

    @Test
    void closingStopsWhatIsBeingRead() throws Exception {
        Held held = new Held();
        Future<HuVolume> first = call(() -> images.volume(0, held));
        await(held.reached);
        images.close();
        held.letGo(false);
        assertInstanceOf(CancellationException.class, failure(first));
        assertTrue(images.loaded(0).isEmpty());
    }

    @Test
    void anExamThatCannotBeReadIsNamedAndTheOthersWork() throws Exception {
        ExamImages broken = new ExamImages(subjectWithEmptyThirdExam(), Long.MAX_VALUE);
        String third = folder.resolve("third").toString();
        for (Callable<?> asked : java.util.List.<Callable<?>>of(
                () -> broken.facts(1, Progress.NONE),
                () -> broken.volume(1, Progress.NONE),
                () -> broken.seriesSha256(1, Progress.NONE))) {
            UseCaseException refused = assertThrows(UseCaseException.class, asked::call);
            assertTrue(refused.getMessage().startsWith(third), refused.getMessage());
        }
        assertTrue(broken.volume(0, Progress.NONE).voxelBytes() > 0);
    }

    @Test
    void anExamWhoseFilesWereMendedIsReadThen() throws Exception {
        ExamImages broken = new ExamImages(subjectWithEmptyThirdExam(), Long.MAX_VALUE);
        Path third = folder.resolve("third");
        copyExam(2, third);
        assertTrue(broken.facts(1, Progress.NONE).grid().slices() > 1);
        Path slice = third.resolve("slice-0005.dcm");
        byte[] whole = Files.readAllBytes(slice);
        Files.delete(slice);
        UseCaseException refused = assertThrows(UseCaseException.class, () -> broken.volume(1, Progress.NONE));
        assertTrue(refused.getMessage().contains("slice-0005.dcm"), refused.getMessage());
        Files.write(slice, whole);
        assertTrue(broken.volume(1, Progress.NONE).voxelBytes() > 0);
    }

    private ReviewSubject subjectWithEmptyThirdExam() throws Exception {
        Files.copy(SampleSubject.constructFile(), folder.resolve("construct.json"));
        Path surgery = SampleSubject.exams().get(0).folder().toAbsolutePath();
        Files.createDirectory(folder.resolve("third"));
        Files.writeString(
                folder.resolve(SubjectFolder.DOCUMENT),
                """
                {"code": "DEMO-01", "surgeryDate": "2024-03-11", "construct": "construct.json",
                 "exams": [{"label": "6 mo", "folder": "third", "date": "2024-09-11"},
                           {"label": "surgery", "folder": "%s", "date": "2024-03-14"}]}
                """
                        .formatted(surgery.toString().replace("\\", "\\\\")));
        return ReviewSubject.open(folder);
    }

    private static void copyExam(int exam, Path to) throws Exception {
        try (Stream<Path> files = Files.list(SampleSubject.exams().get(exam).folder())) {
            for (Path file : files.toList()) {
                Files.copy(file, to.resolve(file.getFileName()));
            }
        }
    }
}
