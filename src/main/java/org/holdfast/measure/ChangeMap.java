package org.holdfast.measure;

import java.util.List;

/**
 * Change of mineral beside a face since the reference exam, for course, not for state. Shares are of the whole area and
 * add up to 1 with the share that is not comparable. Immutable.
 *
 * @param more share with more mineral
 * @param less share with less mineral
 * @param none share without change beyond error
 * @param notComparable share where the exams cannot be compared
 * @param errorHu standard deviation of a smoothed difference where nothing can have changed, HU
 * @param errorSource where that error comes from, in words
 * @param readings one a sample
 */
public record ChangeMap(
        double more,
        double less,
        double none,
        double notComparable,
        double errorHu,
        String errorSource,
        List<ChangeReading> readings) {

    public ChangeMap {
        readings = List.copyOf(readings);
    }
}
