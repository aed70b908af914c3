package org.holdfast.volume;

import java.util.Objects;

/**
 * The first step from stored values to greys, which makes them independent of the device (PS3.3, section C.11.1). All are
 * immutable.
 */
public sealed interface ModalityTransform {

    /** Stored values as they are. */
    ModalityTransform NONE = new Line(1, 0);

    /** Output of a stored value. */
    double apply(int stored);

    /**
     * slope · stored + intercept (section C.11.1.1.2).
     *
     * @param slope finite and not 0
     * @param intercept finite
     */
    record Line(double slope, double intercept) implements ModalityTransform {

        public Line {
            if (!Double.isFinite(slope) || slope == 0 || !Double.isFinite(intercept)) {
                throw new IllegalArgumentException(
                        "slope must be finite and not 0 and intercept finite, got " + slope + " and " + intercept);
            }
        }

        @Override
        public double apply(int stored) {
            return slope * stored + intercept;
        }
    }

    /**
     * A look-up table of stored values (section C.11.1.1.1); its output is never negative.
     *
     * @param table the table
     */
    record Table(LookupTable table) implements ModalityTransform {

        public Table {
            Objects.requireNonNull(table, "table");
        }

        @Override
        public double apply(int stored) {
            return table.entry(stored);
        }
    }
}
