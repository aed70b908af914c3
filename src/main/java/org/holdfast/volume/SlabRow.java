package org.holdfast.volume;

import org.holdfast.volume.Slab.Projection;

/** Gathers one row of a slab's planes; places outside the valid image do not count. */
final class SlabRow {

    private final Projection projection;
    private final double[] total;
    private final double[] weights;

    SlabRow(Projection projection, int width) {
        this.projection = projection;
        this.total = new double[width];
        this.weights = new double[width];
    }

    void add(float[] row, double weight) {
        for (int x = 0; x < total.length; x++) {
            float hu = row[x];
            if (hu != hu) {
                continue;
            }
            if (projection == Projection.MEAN) {
                total[x] += weight * hu;
            } else if (weights[x] == 0 || hu > total[x]) {
                total[x] = hu;
            }
            weights[x] += weight;
        }
    }

    void finish(float[] hu, int at) {
        for (int x = 0; x < total.length; x++) {
            double value = projection == Projection.MEAN ? total[x] / weights[x] : total[x];
            hu[at + x] = weights[x] == 0 ? Float.NaN : (float) value;
        }
    }
}
