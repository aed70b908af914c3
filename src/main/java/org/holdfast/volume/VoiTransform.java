package org.holdfast.volume;

import java.util.Objects;

/**
 * The second step from stored values to greys: which outputs of the modality transform are shown from dark to light (PS3.3,
 * section C.11.2). Whether the grey is inverted afterwards is the radiograph's. All are immutable.
 */
public sealed interface VoiTransform {

    /** What it is called by the file, or what it is for; may be empty text. */
    String name();

    /**
     * Grey of an output of the modality transform, 0 to 1, before inversion.
     *
     * @param value finite
     */
    double grey(double value);

    /** How a window maps values to greys (VOILUTFunction, section C.11.2.1.3). */
    enum Function {
        /**
         * Section C.11.2.1.2.1. With c the centre less 0.5 and w the width less 1: 0 where x ≤ c − w/2, 1 where x > c + w/2,
         * else (x − c) / w + 0.5. The width is at least 1; at width 1 there is a step at the centre less 0.5, which is 0
         * itself.
         */
        LINEAR(1),
        /**
         * Section C.11.2.1.3.2. With c the centre and w the width: 0 where x ≤ c − w/2, 1 where x > c + w/2, else (x − c) / w
         * + 0.5. The width is above 0.
         */
        LINEAR_EXACT(Double.MIN_VALUE),
        /** Section C.11.2.1.3.1: 1 / (1 + exp(−4 · (x − centre) / width)). The width is above 0. */
        SIGMOID(Double.MIN_VALUE);

        private final double leastWidth;

        Function(double leastWidth) {
            this.leastWidth = leastWidth;
        }

        /** Whether a window of this width can be drawn. */
        public boolean allows(double width) {
            return width >= leastWidth && Double.isFinite(width);
        }

        double grey(double value, double centre, double width) {
            return switch (this) {
                case LINEAR -> ramp(value, centre - 0.5, width - 1);
                case LINEAR_EXACT -> ramp(value, centre, width);
                case SIGMOID -> 1 / (1 + Math.exp(-4 * (value - centre) / width));
            };
        }

        private static double ramp(double value, double middle, double width) {
            if (value <= middle - width / 2) {
                return 0;
            }
            return value > middle + width / 2 ? 1 : (value - middle) / width + 0.5;
        }
    }

    /**
     * A window of outputs of the modality transform.
     *
     * @param name explanation as written, or what it is for
     * @param centre finite
     * @param width as {@link Function#allows} it
     * @param function how values are mapped
     */
    record Window(String name, double centre, double width, Function function) implements VoiTransform {

        /** A drag over so many logical pixels changes a window by its own width. */
        private static final double DRAG_PIXELS = 250;

        public Window {
            Objects.requireNonNull(name, "name");
            Objects.requireNonNull(function, "function");
            if (!Double.isFinite(centre)) {
                throw new IllegalArgumentException("centre must be finite, got " + centre);
            }
            if (!function.allows(width)) {
                throw new IllegalArgumentException("width of a " + function + " window must be finite and "
                        + (function == Function.LINEAR ? "at least 1" : "above 0") + ", got " + width);
            }
        }

        /** The window from black at one value to white at a higher one, by LINEAR_EXACT; values 1 apart at least. */
        public static Window between(String name, double low, double high) {
            return new Window(name, (low + high) / 2, Math.max(1, high - low), Function.LINEAR_EXACT);
        }

        @Override
        public double grey(double value) {
            return function.grey(value, centre, width);
        }

        /**
         * This window after a small drag: to the right wider, down a higher centre; each pixel 1/250 of the width. It stays at
         * least 1 and at most 2^20 wide, its centre within ± 2^20: the outputs of 16-bit tables and usual slopes.
         *
         * @param name what the changed window is called
         * @param right logical pixels
         * @param down logical pixels
         */
        public Window dragged(String name, double right, double down) {
            double most = 1 << 20;
            double wider = Math.max(1, Math.min(most, width * (1 + right / DRAG_PIXELS)));
            double moved = centre + width * down / DRAG_PIXELS;
            return new Window(name, Math.max(-most, Math.min(most, moved)), wider, function);
        }
    }

    /**
     * A look-up table of outputs of the modality transform (section C.11.2.1.1).
     *
     * @param name explanation as written
     * @param table the table
     */
    record Table(String name, LookupTable table) implements VoiTransform {

        public Table {
            Objects.requireNonNull(name, "name");
            Objects.requireNonNull(table, "table");
        }

        @Override
        public double grey(double value) {
            return table.share(value);
        }
    }
}
