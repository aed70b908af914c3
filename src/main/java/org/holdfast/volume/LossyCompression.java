package org.holdfast.volume;

import java.util.Locale;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.OptionalInt;

/**
 * That and how an image lost detail by compression before it came here, or in the file itself (PS3.3, section C.7.6.1.1.5).
 * Immutable.
 *
 * @param method how it was compressed, in words; empty if not said
 * @param ratio original size to compressed size; empty if not said
 * @param largestError most by which a stored value may be off, where the codec bounds it
 */
public record LossyCompression(String method, OptionalDouble ratio, OptionalInt largestError) {

    public LossyCompression {
        Objects.requireNonNull(method, "method");
        Objects.requireNonNull(ratio, "ratio");
        Objects.requireNonNull(largestError, "largestError");
    }

    /** Method, ratio and largest error in words, such as "JPEG 2000, 10 : 1"; as far as they are known. */
    public String words() {
        StringBuilder out = new StringBuilder(method);
        if (ratio.isPresent()) {
            out.append(out.isEmpty() ? "" : ", ").append(String.format(Locale.ROOT, "%.3g : 1", ratio.getAsDouble()));
        }
        if (largestError.isPresent()) {
            out.append(out.isEmpty() ? "" : ", ").append("off by at most ").append(largestError.getAsInt());
        }
        return out.isEmpty() ? "method and ratio not said" : out.toString();
    }
}
