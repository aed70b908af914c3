package org.holdfast.intake;

import java.util.Objects;

/**
 * One thing that de-identification did to one attribute, counted over files. Holds no value of a file.
 *
 * @param tag the attribute as the standard writes it, or a pattern for a group of them
 * @param keyword the standard's keyword; empty where the profile's table does not name it
 * @param kind what was done
 */
public record AttributeChange(String tag, String keyword, Kind kind) implements Comparable<AttributeChange> {

    /** What was done. */
    public enum Kind {
        REMOVED("removed"),
        EMPTIED("emptied"),
        REPLACED("replaced by a value that says nothing"),
        UID_REPLACED("UID replaced"),
        SUBJECT_CODE("replaced by the subject's code"),
        DATE_SHIFTED("date shifted"),
        DATE_NOT_READ("date that names no day taken out"),
        CODE_REPLACED("code of a local scheme replaced"),
        VALUE_NOT_VALID("value that its representation does not allow taken out"),
        TEXT_KEPT("text kept");

        private final String words;

        Kind(String words) {
            this.words = words;
        }

        /** The same for a person. */
        public String words() {
            return words;
        }
    }

    public AttributeChange {
        Objects.requireNonNull(tag, "tag");
        Objects.requireNonNull(keyword, "keyword");
        Objects.requireNonNull(kind, "kind");
    }

    @Override
    public int compareTo(AttributeChange other) {
        int byTag = tag.compareTo(other.tag);
        return byTag != 0 ? byTag : kind.compareTo(other.kind);
    }
}
