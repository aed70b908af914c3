package org.holdfast.measure;

import java.util.List;

/**
 * What can be asked of a part in an exam, said before any number, each with its cause.
 *
 * @param value how much can be answered
 * @param causes why not more, and what to bear in mind; may be empty only where it is answerable
 */
public record Verdict(Value value, List<String> causes) {

    /** How much can be answered, from most to least. */
    public enum Value {
        /** A state and its change. */
        ANSWERABLE("answerable"),
        /** Only the change from the first exam. */
        CHANGE_ONLY("change only"),
        /** Only by a reader on the images. */
        READER_ONLY("reader only"),
        /** Not at all in this exam. */
        NOT_ANSWERABLE("not answerable");

        private final String words;

        Value(String words) {
            this.words = words;
        }

        /** The value in words. */
        public String words() {
            return words;
        }
    }

    public Verdict {
        causes = List.copyOf(causes);
        if (causes.isEmpty() && value != Value.ANSWERABLE) {
            throw new IllegalArgumentException(
                    "a verdict that is not answerable in full needs a cause, got " + value.words() + " without");
        }
    }

    /** Nothing stands in the way. */
    public static Verdict answerable() {
        return new Verdict(Value.ANSWERABLE, List.of());
    }

    /** The lesser of two verdicts; the causes of both are kept. */
    public Verdict and(Verdict other) {
        Value lesser = value.ordinal() >= other.value.ordinal() ? value : other.value;
        List<String> both = new java.util.ArrayList<>(causes);
        other.causes.stream().filter(c -> !both.contains(c)).forEach(both::add);
        return new Verdict(lesser, both);
    }

    static Verdict because(Value value, String cause) {
        return new Verdict(value, List.of(cause));
    }
}
