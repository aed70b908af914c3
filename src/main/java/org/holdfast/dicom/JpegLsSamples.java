package org.holdfast.dicom;

import java.util.Arrays;

/**
 * Decodes single samples and keeps the statistics that their codes depend on (ISO/IEC 14495-1, sections A.4 to A.6 and
 * A.7.2). Not thread-safe.
 */
final class JpegLsSamples {

    /** Contexts of gradients; two more are those of samples that end a run. */
    private static final int CONTEXTS = 365;

    private static final int LOWEST_CORRECTION = -128;
    private static final int HIGHEST_CORRECTION = 127;

    private final JpegLsBits bits;
    private final int maximum;
    private final int near;
    private final int step;
    private final int range;
    private final int errorBits;
    private final int limit;
    private final int reset;

    /** A, sums of the errors' sizes. */
    private final int[] sizes = new int[CONTEXTS + 2];

    /** B, sums of the errors; of the last two contexts Nn, the count of errors below zero. */
    private final int[] sums = new int[CONTEXTS + 2];

    /** C, corrections of the prediction. */
    private final int[] corrections = new int[CONTEXTS];

    /** N, counts. */
    private final int[] counts = new int[CONTEXTS + 2];

    JpegLsSamples(JpegLsCoding coding, JpegLsBits bits) {
        this.bits = bits;
        maximum = coding.maximum();
        near = coding.near();
        step = 2 * near + 1;
        range = coding.range();
        errorBits = coding.errorBits();
        limit = coding.limit();
        reset = coding.reset();
        Arrays.fill(sizes, Math.max(2, (range + 32) / 64));
        Arrays.fill(counts, 1);
    }

    /**
     * Decodes a sample by its neighbours.
     *
     * @param context of its gradients, −364 to 364
     * @param predicted by its neighbours
     */
    int regular(int context, int predicted) throws CorruptFrameException {
        int sign = context >> 31;
        int q = (context ^ sign) - sign;
        int corrected = clamp(predicted + ((corrections[q] ^ sign) - sign));
        int k = golombBits(counts[q], sizes[q]);
        int mapped = bits.golomb(k, limit - errorBits - 1, errorBits);
        int error = mapped >>> 1 ^ -(mapped & 1);
        if (k == 0 && near == 0 && 2 * sums[q] <= -counts[q]) {
            error = ~error;
        }
        requireSize(Math.abs(error));
        count(q, error);
        return reconstructed(corrected, (error ^ sign) - sign);
    }

    /** Decodes the sample that ends a run; {@code runBits} is the order of the run's last piece. */
    int endOfRun(int left, int above, int runBits) throws CorruptFrameException {
        if (Math.abs(left - above) <= near) {
            return reconstructed(left, errorAtEndOfRun(1, runBits));
        }
        return endOfPixelRun(left, above, runBits);
    }

    /** Decodes a sample of a pixel that ends a run of whole pixels. */
    int endOfPixelRun(int left, int above, int runBits) throws CorruptFrameException {
        int error = errorAtEndOfRun(0, runBits);
        return reconstructed(above, left > above ? -error : error);
    }

    /** @param type 1 if the sample above is like the run, else 0 */
    private int errorAtEndOfRun(int type, int runBits) throws CorruptFrameException {
        int q = CONTEXTS + type;
        int k = golombBits(counts[q], sizes[q] + type * (counts[q] >> 1));
        int mapped = bits.golomb(k, limit - runBits - 1 - errorBits - 1, errorBits);
        int odd = mapped + type & 1;
        int size = mapped + type + odd >> 1;
        requireSize(size);
        boolean mostlyNegative = k != 0 || 2 * sums[q] >= counts[q];
        int error = mostlyNegative == (odd == 1) ? -size : size;
        if (error < 0) {
            sums[q]++;
        }
        sizes[q] += mapped + 1 - type >> 1;
        if (counts[q] == reset) {
            sizes[q] >>= 1;
            sums[q] >>= 1;
            counts[q] >>= 1;
        }
        counts[q]++;
        return error;
    }

    /** Updates a context's statistics (section A.6). */
    private void count(int q, int error) {
        int sum = sums[q] + error * step;
        int size = sizes[q] + Math.abs(error);
        int count = counts[q];
        if (count == reset) {
            size >>= 1;
            sum >>= 1;
            count >>= 1;
        }
        count++;
        if (sum <= -count) {
            sum = Math.max(sum + count, 1 - count);
            corrections[q] = Math.max(corrections[q] - 1, LOWEST_CORRECTION);
        } else if (sum > 0) {
            sum = Math.min(sum - count, 0);
            corrections[q] = Math.min(corrections[q] + 1, HIGHEST_CORRECTION);
        }
        sums[q] = sum;
        sizes[q] = size;
        counts[q] = count;
    }

    private int reconstructed(int predicted, int error) {
        int value = predicted + error * step;
        if (value < -near) {
            value += range * step;
        } else if (value > maximum + near) {
            value -= range * step;
        }
        return clamp(value);
    }

    private int clamp(int value) {
        return Math.max(0, Math.min(maximum, value));
    }

    /** Smallest k with count · 2^k ≥ size (section A.5.1). */
    private static int golombBits(int count, int size) {
        int k = Integer.numberOfLeadingZeros(count) - Integer.numberOfLeadingZeros(size);
        if (k < 0) {
            return 0;
        }
        return count << k < size ? k + 1 : k;
    }

    /** Errors are written as remainders, so none is larger than half the range (section A.4.5). */
    private void requireSize(int size) throws CorruptFrameException {
        if (size < 0 || size > range / 2) {
            throw new CorruptFrameException(
                    bits.offset(), "a prediction error of at most " + range / 2, Integer.toUnsignedString(size));
        }
    }
}
