package org.holdfast.measure;

import java.util.Locale;

/** The check that all settings share. */
final class SettingRange {

    private SettingRange() {}

    /** @throws IllegalArgumentException unless the value lies in [low, high]; names the setting */
    static void requireWithin(String name, double value, double low, double high) {
        if (!(value >= low && value <= high)) {
            throw new IllegalArgumentException(
                    String.format(Locale.ROOT, "%s must lie in [%s, %s], got %s", name, low, high, value));
        }
    }
}
