package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotSame;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import java.util.Set;
import java.util.concurrent.CancellationException;
import java.util.stream.IntStream;
import org.holdfast.cases.SampleSubject;
import org.holdfast.measure.ExamScan;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.junit.jupiter.api.Test;

/** Which volumes are kept, and that one that was given up comes back as it was. */
final class ExamImagesMemoryTest {

    private static ExamImages images(long budgetBytes) throws UseCaseException {
        return new ExamImages(ReviewSubject.open(SampleSubject.folder()), budgetBytes);
    }

    /** Bytes of the exams' voxels, from their headers. */
    private static long bytes(ExamImages images, int... exams) throws UseCaseException {
        long bytes = 0;
        for (int exam : exams) {
            var grid = images.facts(exam, Progress.NONE).grid();
            bytes += 2L * grid.columns() * grid.rows() * grid.slices();
        }
        return bytes;
    }

    private static List<Integer> loaded(ExamImages images) {
        return IntStream.range(0, 5)
                .filter(exam -> images.loaded(exam).isPresent())
                .boxed()
                .toList();
    }

    @Test
    void givesUpTheLongestUnusedFirst() throws Exception {
        // Room for any three that this needs at a time, not for four.
        ExamImages images = images(Math.max(bytes(images(0), 0, 1, 2), bytes(images(0), 0, 2, 3)));
        images.volume(0, Progress.NONE);
        images.volume(1, Progress.NONE);
        images.volume(0, Progress.NONE);
        images.volume(2, Progress.NONE);
        // By hand: the fourth exceeds the budget; the others were last used in the order 1, 0, 2: exam 1 goes.
        images.volume(3, Progress.NONE);
        assertEquals(List.of(0, 2, 3), loaded(images));
    }

    @Test
    void keepsWhatIsOnTheScreenHoweverLittleMemoryThereIs() throws Exception {
        ExamImages images = images(0);
        images.onScreen(Set.of(0, 1));
        images.volume(0, Progress.NONE);
        images.volume(1, Progress.NONE);
        images.volume(2, Progress.NONE);
        assertEquals(List.of(0, 1), loaded(images));
        images.onScreen(Set.of(1));
        assertEquals(List.of(1), loaded(images));
    }

    @Test
    void aVolumeThatWasGivenUpComesBackEqual() throws Exception {
        ExamImages images = images(0);
        images.onScreen(Set.of(0));
        HuVolume first = images.volume(0, Progress.NONE);
        images.onScreen(Set.of());
        assertEquals(List.of(), loaded(images));
        HuVolume again = images.volume(0, Progress.NONE);
        assertNotSame(first, again);
        assertEquals(first.grid(), again.grid());
        assertEquals(first.statistics(), again.statistics());
        int middle = first.grid().slices() / 2;
        assertArrayEquals(slice(first, middle), slice(again, middle));
    }

    private static double[] slice(HuVolume volume, int k) {
        int columns = volume.grid().columns();
        return IntStream.range(0, columns * volume.grid().rows())
                .mapToDouble(n -> volume.hu(n % columns, n / columns, k))
                .toArray();
    }

    @Test
    void headersAndHashOfAnExamThatWasGivenUpStay() throws Exception {
        ExamImages images = images(0);
        images.volume(0, Progress.NONE);
        ExamFacts facts = images.facts(0, Progress.NONE);
        String sha256 = images.seriesSha256(0, Progress.NONE);
        assertEquals(List.of(), loaded(images));
        assertSame(facts, images.facts(0, Progress.NONE));
        assertSame(sha256, images.seriesSha256(0, Progress.NONE));
        assertEquals(SampleSubject.report().exams().get(0).seriesSha256(), sha256);
    }

    @Test
    void factsAreThoseOfTheMeasurement() throws Exception {
        ExamImages images = images(0);
        for (int n = 0; n < 5; n++) {
            ExamResult measured = SampleSubject.report().exams().get(n);
            ExamFacts facts = images.facts(n, Progress.NONE);
            assertEquals(measured.seriesUid(), facts.seriesUid());
            assertEquals(measured.daysSinceSurgery(), facts.daysSinceSurgery());
            assertEquals(measured.isReference(), facts.isReference());
            // A registered pose is the measurement's; the files alone tell where the reference exam lies.
            if (measured.isReference()) {
                assertEquals(measured.referenceToExam(), facts.referenceToExam());
                assertEquals(measured.poseKind(), facts.poseKind());
                assertEquals(measured.poseSource(), facts.poseSource());
            } else {
                assertEquals(ExamScan.PoseKind.REGISTERED, measured.poseKind());
            }
        }
    }

    @Test
    void afterClosingNothingIsRead() throws Exception {
        ExamImages images = images(Long.MAX_VALUE);
        images.volume(0, Progress.NONE);
        images.close();
        assertEquals(List.of(), loaded(images));
        assertThrows(CancellationException.class, () -> images.volume(0, Progress.NONE));
        assertThrows(CancellationException.class, () -> images.facts(1, Progress.NONE));
    }

    @Test
    void refusesANegativeBudget() {
        assertThrows(IllegalArgumentException.class, () -> images(-1));
    }
}
