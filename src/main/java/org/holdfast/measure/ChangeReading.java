package org.holdfast.measure;

import java.util.OptionalDouble;
import org.holdfast.construct.PatchSample;

/**
 * Change of mineral at one sample of a face since the reference exam.
 *
 * @param sample the place on the face, in the reference exam
 * @param kind which way it changed
 * @param differenceHu smoothed difference of mean HU beyond the guard, exam minus reference; empty where not comparable
 * @param errorHu standard deviation of that difference without change; empty where not comparable
 */
public record ChangeReading(PatchSample sample, Kind kind, OptionalDouble differenceHu, OptionalDouble errorHu) {

    /** Which way the mineral changed. */
    public enum Kind {
        MORE,
        LESS,
        /** No change beyond error. */
        NONE,
        NOT_COMPARABLE
    }
}
