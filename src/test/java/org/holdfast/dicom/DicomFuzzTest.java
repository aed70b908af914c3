package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Damaged files by the hundred thousand: each becomes a data set that can be looked through, or a refusal that names
 * offset and cause, within two seconds of computing. One damaged case again: {@code -Dholdfast.fuzz.case=NUMBER}; more or
 * fewer: {@code -Dholdfast.fuzz.cases=COUNT}; others: {@code -Dholdfast.fuzz.seed=NUMBER}.
 */
@Tag("fuzz")
class DicomFuzzTest {

    private static final Path NAME = Path.of("fuzz.dcm");
    private static final long SEED = Long.getLong("holdfast.fuzz.seed", 20260115L);
    private static final int CASES = Integer.getInteger("holdfast.fuzz.cases", 210_000);
    private static final int FEWEST_SEEDS = 30;
    private static final long MOST_NANOS = 2_000_000_000L;
    private static final int MOST_MINUTES = 5;
    private static final int FOUND_EVERY = 8;
    /** Every so many cases go through a file, so that pixels are read too. */
    private static final int THROUGH_FILE = 15;

    @TempDir
    Path folder;

    private final AtomicInteger dataSets = new AtomicInteger();
    private final AtomicInteger refusals = new AtomicInteger();
    private final AtomicInteger frames = new AtomicInteger();
    private final AtomicReference<Throwable> failure = new AtomicReference<>();

    @Test
    void everyDamagedFileIsADataSetOrARefusal() throws Exception {
        List<FuzzSeeds.Seed> made = FuzzSeeds.made();
        List<FuzzSeeds.Seed> all = new ArrayList<>(made);
        all.addAll(FuzzSeeds.found());
        assertTrue(made.size() >= FEWEST_SEEDS, "only " + made.size() + " seeds");
        Integer single = Integer.getInteger("holdfast.fuzz.case");
        if (single != null) {
            run(single, made, all);
            rethrow();
            return;
        }
        long start = System.nanoTime();
        AtomicInteger next = new AtomicInteger();
        int threads = Runtime.getRuntime().availableProcessors();
        ExecutorService workers = Executors.newFixedThreadPool(threads);
        for (int t = 0; t < threads; t++) {
            workers.submit(() -> {
                for (int n = next.getAndIncrement(); n < CASES && failure.get() == null; n = next.getAndIncrement()) {
                    run(n, made, all);
                }
            });
        }
        workers.shutdown();
        boolean ended = workers.awaitTermination(MOST_MINUTES, TimeUnit.MINUTES);
        workers.shutdownNow();
        rethrow();
        assertTrue(ended, "not done after " + MOST_MINUTES + " minutes, near case " + next.get() + " of seed " + SEED);
        System.out.println(String.format(
                Locale.ROOT,
                "fuzz: %d cases of %d made and %d found seeds in %.1f s: %d data sets, %d refusals, %d frames read",
                CASES,
                made.size(),
                all.size() - made.size(),
                (System.nanoTime() - start) / 1e9,
                dataSets.get(),
                refusals.get(),
                frames.get()));
        // By hand: neither outcome may die out, else the damage is too strong or too weak to tell anything.
        assertTrue(dataSets.get() > CASES / 10 && refusals.get() > CASES / 10);
    }

    /** Most cases are the same everywhere; every so many takes the files that are found here too. */
    private void run(int number, List<FuzzSeeds.Seed> made, List<FuzzSeeds.Seed> all) {
        SplittableRandom random = new SplittableRandom(SEED + number * 0x9E3779B97F4A7C15L);
        String which = "case " + number + " of seed " + SEED + " (-Dholdfast.fuzz.case=" + number + ")";
        long before = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
        try {
            byte[] bytes = new FuzzMutation(number % FOUND_EVERY == 0 ? all : made, random).next();
            before = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
            look(bytes, number);
        } catch (IOException | RuntimeException | Error e) {
            failure.compareAndSet(null, new AssertionError(which + ": " + e, e));
        }
        long taken = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - before;
        if (taken > MOST_NANOS) {
            failure.compareAndSet(null, new AssertionError(which + ": took " + taken / 1_000_000 + " ms"));
        }
    }

    private void look(byte[] bytes, int number) throws IOException {
        boolean throughFile = number % THROUGH_FILE == 0;
        Path file = throughFile ? Files.write(folder.resolve(Integer.toString(number)), bytes) : NAME;
        try {
            DicomFile read = throughFile ? DicomReader.read(file) : DicomReader.read(file, bytes);
            walk(read.meta());
            walk(read.dataSet());
            dataSets.incrementAndGet();
            pixels(read, throughFile);
        } catch (DicomReadException e) {
            refusals.incrementAndGet();
            requireOffsetAndCause(e, file, e.offset() >= 0);
        }
        if (throughFile) {
            Files.delete(file);
        }
    }

    private void pixels(DicomFile read, boolean throughFile) {
        try {
            PixelSource source = PixelSource.of(read);
            if (source.whyUnreadable().isEmpty()
                    && throughFile
                    && source.layout().frameValues() < 1 << 20) {
                short[] words = new short[(int) source.layout().frameValues()];
                int last = source.layout().frames() - 1;
                new PixelReader().read(source, 0, words);
                new PixelReader().read(source, last, words);
                frames.addAndGet(2);
            }
        } catch (DicomReadException e) {
            requireOffsetAndCause(e, read.path(), e.offset() >= 0 || e.tag().isPresent());
        }
    }

    private static void requireOffsetAndCause(DicomReadException e, Path file, boolean hasPlace) {
        boolean says = e.getMessage().startsWith(file.toString())
                && !e.expected().isBlank()
                && e.got() != null
                && !e.reason().isBlank();
        if (!hasPlace || !says) {
            fail("a refusal without place or cause: " + e.getMessage(), e);
        }
    }

    private static void walk(DataSet d) {
        for (int tag : d.tags()) {
            d.vr(tag).orElseThrow();
            d.isBlank(tag);
            d.string(tag);
            d.strings(tag);
            d.integer(tag);
            d.integers(tag);
            d.decimal(tag);
            d.decimals(tag);
            d.bytes(tag);
            d.items(tag).forEach(DicomFuzzTest::walk);
        }
        d.describe();
        d.toBuilder().build();
    }

    private void rethrow() {
        if (failure.get() instanceof Error e) {
            throw e;
        }
    }
}
