package org.holdfast.desktop.view;

import java.util.OptionalDouble;

/** Where the ticks of the crossing stand at a picture's edges. */
final class CutTicks {

    private CutTicks() {}

    /** A place in device pixels as logical ones; empty where it lies outside the picture. */
    static OptionalDouble within(double at, int size, double scale) {
        return at >= 0 && at <= size ? OptionalDouble.of(at / scale) : OptionalDouble.empty();
    }
}
