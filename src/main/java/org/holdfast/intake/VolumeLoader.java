package org.holdfast.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalInt;
import java.util.TreeMap;
import java.util.concurrent.CancellationException;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicReference;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.PixelReader;
import org.holdfast.dicom.PixelSource;
import org.holdfast.finding.Finding;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.Rescale;
import org.holdfast.volume.StoredFormat;

/**
 * Loads a stack into an HU volume: each slice's own line to HU, padding and HU under −1024 kept out. Two threads read,
 * each slice goes from the file straight into the array that the volume keeps.
 */
public final class VolumeLoader {

    private static final int THREADS = 2;

    private final Stack stack;
    private final Progress progress;
    private final StoredFormat format;
    private final HuVolume.Builder builder;
    private final AtomicInteger next = new AtomicInteger();
    private final AtomicInteger done = new AtomicInteger();
    private final AtomicReference<Throwable> failure = new AtomicReference<>();
    private final Map<Integer, Integer> shortSlices = new TreeMap<>();

    private VolumeLoader(Stack stack, Progress progress) {
        this.stack = stack;
        this.progress = progress;
        this.format = CommonFormat.of(stack.slices()).orElseThrow();
        Rescale[] lines = stack.slices().stream()
                .map(slice -> slice.huScale().rescale().orElseThrow())
                .toArray(Rescale[]::new);
        this.builder = HuVolume.builder(stack.grid(), format, lines);
        if (stack.slices().stream().anyMatch(s -> s.acquisition().lossy().isPresent())) {
            builder.lossy();
        }
    }

    /**
     * Loads a stack.
     *
     * @throws IllegalArgumentException if the stack has no HU; see {@link Stack#whyNoHu}
     * @throws DicomReadException if a file cannot be read any more
     * @throws CancellationException if the person stopped it, or the thread was interrupted
     */
    public static LoadedVolume load(Stack stack, Progress progress) throws DicomReadException {
        stack.whyNoHu().ifPresent(why -> {
            throw new IllegalArgumentException("the stack has no HU: " + why);
        });
        return new VolumeLoader(stack, progress).load();
    }

    private LoadedVolume load() throws DicomReadException {
        Thread helper = new Thread(this::readSlices, "volume loader");
        helper.setDaemon(true);
        if (stack.slices().size() > 1 && THREADS > 1) {
            helper.start();
        }
        readSlices();
        waitFor(helper);
        rethrow();
        List<Finding> findings = new ArrayList<>(stack.findings());
        synchronized (shortSlices) {
            shortSlices.forEach((k, words) -> findings.add(Finding.warning(
                    "SLICE_CUT_SHORT",
                    String.format(
                            Locale.ROOT,
                            "slice %d (1-based) ends after %d of its rows; the rest carries no values",
                            k + 1,
                            words / stack.grid().columns()),
                    stack.where())));
        }
        return new LoadedVolume(builder.build(), stack.acquisition(), findings);
    }

    private void readSlices() {
        PixelReader reader = new PixelReader();
        try {
            for (int k = next.getAndIncrement(); k < stack.slices().size(); k = next.getAndIncrement()) {
                if (failure.get() != null) {
                    return;
                }
                progress.stopIfCancelled();
                readSlice(reader, k);
                progress.report((double) done.incrementAndGet() / stack.slices().size(), "loading slices");
            }
        } catch (DicomReadException | RuntimeException | OutOfMemoryError e) {
            failure.compareAndSet(null, e);
        }
    }

    private void readSlice(PixelReader reader, int k) throws DicomReadException {
        Slice slice = stack.slices().get(k);
        PixelSource pixels = slice.pixels();
        short[] words = new short
                [Math.multiplyExact(stack.grid().columns(), stack.grid().rows())];
        int read = reader.read(pixels, slice.frameIndex(), words);
        StoredFormat own = CommonFormat.of(slice);
        for (int v = 0; !own.equals(format) && v < read; v++) {
            words[v] = (short) own.valueOf(words[v]);
        }
        if (read < words.length) {
            synchronized (shortSlices) {
                shortSlices.put(k, read);
            }
        }
        builder.slice(k, words, slice.huScale().padding().orElse(null), read);
    }

    private void waitFor(Thread helper) {
        boolean interrupted = false;
        while (helper.isAlive()) {
            try {
                helper.join();
            } catch (InterruptedException e) {
                interrupted = true;
                failure.compareAndSet(null, new CancellationException("interrupted while loading"));
            }
        }
        if (interrupted) {
            Thread.currentThread().interrupt();
        }
    }

    private void rethrow() throws DicomReadException {
        Throwable failed = failure.get();
        if (failed instanceof DicomReadException e) {
            throw e;
        }
        if (failed instanceof RuntimeException e) {
            throw e;
        }
        if (failed instanceof OutOfMemoryError e) {
            throw new DicomReadException(
                    stack.slices().get(0).path(),
                    -1,
                    OptionalInt.empty(),
                    stack.slices().size() + " slices that fit the memory",
                    "out of memory",
                    e);
        }
    }
}
