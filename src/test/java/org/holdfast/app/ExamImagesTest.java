package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertNotSame;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.holdfast.cases.SampleSubject;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/** Exams of the sample subject, 5 MB each. */
class ExamImagesTest {

    private static final long PLENTY = 1L << 30;

    private final ReviewSubject subject = subject();
    private ExamImages images = new ExamImages(subject, PLENTY);

    private static ReviewSubject subject() {
        try {
            return ReviewSubject.open(SampleSubject.folder());
        } catch (UseCaseException e) {
            throw new AssertionError(e);
        }
    }

    @AfterEach
    void close() {
        images.close();
    }

    private HuVolume read(int exam) throws UseCaseException {
        return images.volume(exam, Progress.NONE);
    }

    private List<Integer> kept() {
        List<Integer> kept = new ArrayList<>();
        for (int exam = 0; exam < subject.exams().size(); exam++) {
            if (images.loaded(exam).isPresent()) {
                kept.add(exam);
            }
        }
        return kept;
    }

    /** Room for two exams of about this one's size. */
    private void roomForTwo() throws UseCaseException {
        long one = read(0).voxelBytes();
        images.close();
        images = new ExamImages(subject, 2 * one + one / 2);
    }

    @Test
    void keepsAVolumeAndReadsItOnce() throws Exception {
        assertTrue(images.loaded(1).isEmpty());
        HuVolume first = read(1);
        assertSame(first, read(1));
        assertSame(first, images.loaded(1).orElseThrow());
    }

    @Test
    void saysWhatTheFilesSay() throws Exception {
        ExamFacts facts = images.facts(1, Progress.NONE);
        assertSame(facts, images.facts(1, Progress.NONE));
        assertTrue(images.loaded(1).isEmpty(), "no pixel was asked for");
        // By hand: 11 March to 12 June 2024: 20 + 30 + 31 + 12 days
        assertEquals(OptionalInt.of(93), facts.daysSinceSurgery());
        assertFalse(facts.isReference());
        assertTrue(images.facts(0, Progress.NONE).isReference());
        assertEquals(read(1).grid(), facts.grid());
    }

    @Test
    void givesTheLongestUnusedUpFirst() throws Exception {
        roomForTwo();
        read(0);
        read(1);
        read(0);
        images.loaded(1);
        read(2);
        assertEquals(List.of(0, 2), kept(), "only looking whether it is there is no use");
    }

    @Test
    void keepsWhatIsOnTheScreenOverTheBudget() throws Exception {
        roomForTwo();
        images.onScreen(Set.of(0, 1, 2));
        for (int exam = 0; exam < 4; exam++) {
            read(exam);
        }
        assertEquals(List.of(0, 1, 2), kept());
        images.onScreen(Set.of(2));
        assertEquals(2, kept().size());
        assertTrue(images.loaded(2).isPresent());
    }

    @Test
    void withoutAnyRoomOnlyTheScreenIsKept() throws Exception {
        images = new ExamImages(subject, 0);
        images.onScreen(Set.of(3));
        HuVolume out = read(1);
        assertEquals(List.of(), kept());
        assertTrue(out.voxelBytes() > 0, "who asked has it");
        read(3);
        assertEquals(List.of(3), kept());
    }

    @Test
    void comesBackEqual() throws Exception {
        images = new ExamImages(subject, 0);
        HuVolume before = read(1);
        HuVolume again = read(1);
        assertNotSame(before, again);
        assertEquals(before.grid(), again.grid());
        int differing = 0;
        for (int k = 0; k < before.grid().slices(); k++) {
            for (int j = 0; j < before.grid().rows(); j++) {
                for (int i = 0; i < before.grid().columns(); i++) {
                    differing += before.hu(i, j, k) == again.hu(i, j, k) ? 0 : 1;
                }
            }
        }
        assertEquals(0, differing);
    }

    @Test
    void keepsNothingOfAReadingThatWasStopped() throws Exception {
        AtomicInteger reports = new AtomicInteger();
        Progress stopping = new Progress() {
            @Override
            public void report(double fraction, String activity) {
                reports.incrementAndGet();
            }

            @Override
            public boolean isCancelled() {
                return reports.get() > 40;
            }
        };
        assertThrows(CancellationException.class, () -> images.volume(1, stopping));
        assertTrue(reports.get() > 40, "stopped before it began");
        assertTrue(images.loaded(1).isEmpty());
        assertEquals(images.facts(1, Progress.NONE).grid(), read(1).grid());
    }

    @Test
    void twoWhoAskShareOneReading() throws Exception {
        CyclicBarrier together = new CyclicBarrier(2);
        AtomicInteger starts = new AtomicInteger();
        Callable<HuVolume> ask = () -> {
            AtomicInteger mine = new AtomicInteger();
            together.await(10, TimeUnit.SECONDS);
            return images.volume(1, new Progress() {
                @Override
                public void report(double fraction, String activity) {
                    if (mine.getAndIncrement() == 0) {
                        starts.incrementAndGet();
                    }
                }

                @Override
                public boolean isCancelled() {
                    return false;
                }
            });
        };
        ExecutorService threads = Executors.newFixedThreadPool(2);
        try {
            Future<HuVolume> one = threads.submit(ask);
            Future<HuVolume> other = threads.submit(ask);
            assertSame(one.get(60, TimeUnit.SECONDS), other.get(60, TimeUnit.SECONDS));
        } finally {
            threads.shutdownNow();
        }
        assertEquals(1, starts.get(), "readings that said how far they are");
    }

    @Test
    void namesAnUnreadableFolderWhileOthersWork() throws Exception {
        List<ReviewExam> exams = new ArrayList<>(subject.exams());
        ReviewExam was = exams.get(1);
        Path gone = SampleSubject.folder().resolve("no-such-exam");
        exams.set(
                1,
                new ReviewExam(
                        1, was.label(), gone, was.daysSinceSurgery(), was.date(), was.posture(), was.seriesUid()));
        images = new ExamImages(
                new ReviewSubject(
                        subject.folder(),
                        subject.construct(),
                        subject.settings(),
                        subject.poses(),
                        subject.truth(),
                        exams,
                        subject.findings()),
                PLENTY);
        String message = assertThrows(UseCaseException.class, () -> read(1)).getMessage();
        assertTrue(message.startsWith(gone + ": "), message);
        assertThrows(UseCaseException.class, () -> images.facts(1, Progress.NONE));
        assertThrows(UseCaseException.class, () -> images.seriesSha256(1, Progress.NONE));
        assertEquals(images.facts(0, Progress.NONE).grid(), read(0).grid());
    }

    @Test
    void hashesEachExamsFiles() throws Exception {
        ContactReport measured = SampleSubject.report();
        assertEquals(measured.exams().get(2).seriesSha256(), images.seriesSha256(2, Progress.NONE));
        assertNotEquals(images.seriesSha256(1, Progress.NONE), images.seriesSha256(2, Progress.NONE));
    }

    @Test
    void refusesANegativeBudget() {
        assertThrows(IllegalArgumentException.class, () -> new ExamImages(subject, -1));
        assertTrue(ExamImages.defaultBudget() > 0);
    }
}
