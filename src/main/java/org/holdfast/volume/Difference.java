package org.holdfast.volume;

import java.util.Objects;

/**
 * One way in which two scans were made differently, or may have been.
 *
 * @param field what differs, as in a results document, such as {@code kvp}
 * @param referenceValue value of the reference exam, or {@link #UNKNOWN}
 * @param followUpValue value of the later exam, or {@link #UNKNOWN}
 * @param effect what follows from it
 * @param sentence the cause in words for a reader
 */
public record Difference(String field, String referenceValue, String followUpValue, Effect effect, String sentence) {

    /** Stands for a value that the files do not give. */
    public static final String UNKNOWN = "unknown";

    /** What follows from a difference. */
    public enum Effect {
        /** No change map, no joined line and no difference of HU-based numbers between the two exams. */
        NO_HU_COMPARISON,
        /** HU-based numbers may be compared, and the difference is told beside them. */
        CAUTION
    }

    public Difference {
        Objects.requireNonNull(field, "field");
        Objects.requireNonNull(referenceValue, "referenceValue");
        Objects.requireNonNull(followUpValue, "followUpValue");
        Objects.requireNonNull(effect, "effect");
        Objects.requireNonNull(sentence, "sentence");
    }

    /** Whether a side does not say the value, so that the two may as well be equal. */
    public boolean isUnknown() {
        return referenceValue.equals(UNKNOWN) || followUpValue.equals(UNKNOWN);
    }
}
