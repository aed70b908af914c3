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
 * @param errorHu standard deviation of a smoothed difference where nothing can have changed, HU; median over the face
 * @param errorSource where that error comes from, in words
 * @param smallestVisibleHu change of the mean HU beyond the guard that is found at 95 of 100 places, HU
 * @param byChance share of an unchanged face that lies beyond error by chance at single places, before spots smaller than
 *     the smoothing's disc are left out
 * @param driftHu change of HU in muscle between the exams, not taken off but part of the error; or why it is not known
 * @param fromMm start of the window in which HU are compared, mm beyond the implant's edge
 * @param toMm its end
 * @param readings one a sample
 */
public record ChangeMap(
        double more,
        double less,
        double none,
        double notComparable,
        double errorHu,
        String errorSource,
        double smallestVisibleHu,
        double byChance,
        Stated driftHu,
        double fromMm,
        double toMm,
        List<ChangeReading> readings) {

    public ChangeMap {
        readings = List.copyOf(readings);
    }

    /** Share with more mineral if all that is not comparable had more. */
    public double moreAtMost() {
        return more + notComparable;
    }

    /** Share with less mineral if all that is not comparable had less. */
    public double lessAtMost() {
        return less + notComparable;
    }
}
