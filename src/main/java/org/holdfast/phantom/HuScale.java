package org.holdfast.phantom;

import org.holdfast.volume.Rescale;
import org.holdfast.volume.StoredFormat;

/** The HU scale of a simulated scan: 12 unsigned bits, stored 0 to 4095. No value under −1024 HU is written. */
public enum HuScale {
    /** Whole HU from −1024 to 3071; metal is clipped. */
    CLIPPED_3071(1, -1024),
    /** Steps of 10 HU up to 30,710 (slope 10, intercept −10,240); metal keeps its HU. */
    EXTENDED_30710(10, -10240);

    private static final int LARGEST_STORED = 4095;
    private static final int LOWEST_HU = -1024;

    private final int slope;
    private final int intercept;

    HuScale(int slope, int intercept) {
        this.slope = slope;
        this.intercept = intercept;
    }

    /** From stored values to HU. */
    public Rescale rescale() {
        return new Rescale(slope, intercept);
    }

    /** How a stored word is read. */
    public StoredFormat format() {
        return new StoredFormat(12, false);
    }

    /** The largest HU that can be written. */
    public int highestHu() {
        return slope * LARGEST_STORED + intercept;
    }

    /** The stored value of an HU: the nearest step, within the scale. */
    short stored(double hu) {
        long nearest = Math.round((hu - intercept) / slope);
        int lowest = Math.floorDiv(LOWEST_HU - intercept + slope - 1, slope);
        return (short) Math.max(lowest, Math.min(LARGEST_STORED, nearest));
    }
}
