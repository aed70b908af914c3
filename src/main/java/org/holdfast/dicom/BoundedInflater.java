package org.holdfast.dicom;

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

    /**
     * Largest inflated data set, bytes; an eighth of the heap if that is less. It lies in memory as a whole while its
     * header is read (up to a quarter of the heap, {@link HeaderBudget}) and while its pixels are: two at once, as headers
     * and slices are read on a machine of two cores, then leave a quarter of the heap to the rest.
     */
    static final long LARGEST = 256L << 20;
    /** Largest ratio of inflated to deflated bytes once more than {@link #FREE_OF_RATIO} bytes came out. */
    static final int LARGEST_RATIO = 200;

    static final long FREE_OF_RATIO = 16L << 20;

    private static final int CHUNK = 64 << 10;

    private BoundedInflater() {}

    /** The inflated data set. The first pass only counts, so that an array of the right size is all that is taken. */
    static byte[] inflate(Path file, ByteSource source, long from) throws IOException, DicomReadException {
        byte[] out = new byte[pass(file, source, from, null)];
        int made = pass(file, source, from, out);
        if (made != out.length) {
            throw new DicomReadException(
                    file, from, OptionalInt.empty(), out.length + " inflated bytes", made + ": the file changed", null);
        }
        return out;
    }

    /** Inflates into an array that is just large enough, or nowhere; returns the number of bytes. */
    private static int pass(Path file, ByteSource source, long from, byte[] out)
            throws IOException, DicomReadException {
        Inflater inflater = new Inflater(true);
        try {
            byte[] chunk = new byte[CHUNK];
            long at = from;
            int total = 0;
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
                if (made == 0 && inflater.needsDictionary()) {
                    throw new DataFormatException("a preset dictionary is asked for");
                }
                checkLimits(file, from, inflater);
                if (out != null && made <= out.length - total) {
                    System.arraycopy(chunk, 0, out, total, made);
                }
                total += made;
            }
            return total;
        } catch (DataFormatException e) {
            throw new DicomReadException(
                    file, from, OptionalInt.empty(), "a raw deflate stream", "damaged data: " + e.getMessage(), e);
        } finally {
            inflater.end();
        }
    }

    private static void checkLimits(Path file, long from, Inflater inflater) throws DicomReadException {
        long made = inflater.getBytesWritten();
        long limit = Math.min(LARGEST, Runtime.getRuntime().maxMemory() / 8);
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
