package org.holdfast.dicom;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Locale;
import java.util.OptionalInt;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;

/**
 * Inflates the data set of a deflated file (PS3.5, section A.5: raw deflate, no zlib header) with limits on size and
 * ratio, so that a small file cannot fill the memory.
 */
final class BoundedInflater {

    /** Largest inflated data set, bytes. */
    static final long LARGEST = 512L << 20;
    /** Largest ratio of inflated to deflated bytes once more than {@link #FREE_OF_RATIO} bytes came out. */
    static final int LARGEST_RATIO = 200;

    static final long FREE_OF_RATIO = 16L << 20;

    private static final int CHUNK = 64 << 10;

    private BoundedInflater() {}

    static byte[] inflate(Path file, ByteSource source, long from) throws IOException, DicomReadException {
        Inflater inflater = new Inflater(true);
        try {
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            byte[] chunk = new byte[CHUNK];
            long at = from;
            while (!inflater.finished()) {
                if (inflater.needsInput() && at < source.size()) {
                    int take = (int) Math.min(CHUNK, source.size() - at);
                    inflater.setInput(source.bytes(at, take));
                    at += take;
                }
                int made = inflater.inflate(chunk);
                if (made == 0 && inflater.needsInput() && at >= source.size()) {
                    throw new DicomReadException(
                            file, at, OptionalInt.empty(), "the rest of the deflated data set", "end of file", null);
                }
                out.write(chunk, 0, made);
                checkLimits(file, from, inflater);
            }
            return out.toByteArray();
        } catch (DataFormatException e) {
            throw new DicomReadException(
                    file, from, OptionalInt.empty(), "a raw deflate stream", "damaged data: " + e.getMessage(), e);
        } finally {
            inflater.end();
        }
    }

    private static void checkLimits(Path file, long from, Inflater inflater) throws DicomReadException {
        long made = inflater.getBytesWritten();
        long limit = Math.min(LARGEST, Runtime.getRuntime().maxMemory() / 4);
        boolean tooDense = made > FREE_OF_RATIO && made / LARGEST_RATIO > inflater.getBytesRead();
        if (made > limit || tooDense) {
            throw new DicomReadException(
                    file,
                    from,
                    OptionalInt.empty(),
                    String.format(
                            Locale.ROOT,
                            "a deflated data set of at most %d MiB and a ratio of at most %d",
                            limit >> 20,
                            LARGEST_RATIO),
                    String.format(
                            Locale.ROOT,
                            "%d bytes that inflate to over %d MiB: refused",
                            inflater.getBytesRead(),
                            made >> 20),
                    null);
        }
    }
}
