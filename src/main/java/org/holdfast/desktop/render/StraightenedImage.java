package org.holdfast.desktop.render;

import java.util.Objects;

/**
 * HU along a part's centre line and across it, as plain numbers. Immutable.
 *
 * @param along columns, from the part's first point on
 * @param across rows, from side to side; the middle one lies on the centre line
 * @param fromMm where the first column lies along the centre line, mm
 * @param stepMm distance of columns and of rows, mm, above 0
 * @param hu index column + along · row; NaN outside the image
 */
public record StraightenedImage(int along, int across, double fromMm, double stepMm, float[] hu) {

    public StraightenedImage {
        Objects.requireNonNull(hu, "hu");
        if (along < 1 || across < 1 || (long) along * across != hu.length || !(stepMm > 0)) {
            throw new IllegalArgumentException("a straightened image of " + along + " × " + across + " places " + stepMm
                    + " mm apart cannot have " + hu.length + " numbers");
        }
    }

    /** HU at a place, linear between its neighbours; NaN outside. */
    public double hu(double atMm, double acrossMm) {
        double column = (atMm - fromMm) / stepMm;
        double row = acrossMm / stepMm + (across - 1) / 2.0;
        int i = (int) Math.floor(column);
        int j = (int) Math.floor(row);
        if (i < 0 || j < 0 || i + 1 >= along || j + 1 >= across) {
            return Double.NaN;
        }
        double u = column - i;
        double v = row - j;
        double above = (1 - u) * hu[i + along * j] + u * hu[i + 1 + along * j];
        double below = (1 - u) * hu[i + along * (j + 1)] + u * hu[i + 1 + along * (j + 1)];
        return (1 - v) * above + v * below;
    }
}
