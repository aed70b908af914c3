package org.holdfast.regions;

/** What an outline on a cut gives: numbers, or why there are none. */
public sealed interface RegionReading permits RegionStatistics, RegionReading.NotComputable {

    /**
     * No numbers.
     *
     * @param why the reason, for a person
     */
    record NotComputable(String why) implements RegionReading {}
}
