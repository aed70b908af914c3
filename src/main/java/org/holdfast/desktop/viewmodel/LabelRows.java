package org.holdfast.desktop.viewmodel;

import java.util.Arrays;
import java.util.Comparator;

/** Pushes labels at the end of lines apart, so that none covers another. */
public final class LabelRows {

    private LabelRows() {}

    /**
     * Places that keep their order and lie at least a row apart, as near to the wished ones as may be, within limits.
     *
     * @param wished wished middles
     * @param row least distance
     * @param top no label lies above
     * @param bottom no label lies below, if there is room
     * @return one place a label, in the order given
     */
    public static double[] apart(double[] wished, double row, double top, double bottom) {
        Integer[] order = new Integer[wished.length];
        Arrays.setAll(order, n -> n);
        Arrays.sort(order, Comparator.comparingDouble(n -> wished[n]));
        double[] placed = wished.clone();
        double least = top;
        for (int n : order) {
            placed[n] = Math.max(placed[n], least);
            least = placed[n] + row;
        }
        double most = bottom;
        for (int n = order.length - 1; n >= 0; n--) {
            int label = order[n];
            placed[label] = Math.max(top, Math.min(placed[label], most));
            most = placed[label] - row;
        }
        return placed;
    }
}
