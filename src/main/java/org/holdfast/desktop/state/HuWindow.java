package org.holdfast.desktop.state;

import java.util.Locale;

/**
 * The range of HU that is drawn from black to white. Immutable.
 *
 * @param centreHu HU drawn in the middle grey; finite
 * @param widthHu HU from black to white; finite, at least 1
 */
public record HuWindow(double centreHu, double widthHu) {

    /** Narrowest width: below it a picture is a threshold, not a window. */
    public static final double NARROWEST_HU = 1;

    public HuWindow {
        if (!Double.isFinite(centreHu)) {
            throw new IllegalArgumentException("centreHu must be finite, got " + centreHu);
        }
        if (!(widthHu >= NARROWEST_HU) || Double.isInfinite(widthHu)) {
            throw new IllegalArgumentException(String.format(
                    Locale.ROOT, "widthHu must be finite and at least %s, got %s", NARROWEST_HU, widthHu));
        }
    }

    /** The window from black at one HU to white at another; it is widened to the narrowest width around its middle. */
    public static HuWindow between(double lowHu, double highHu) {
        return new HuWindow((lowHu + highHu) / 2, Math.max(NARROWEST_HU, highHu - lowHu));
    }

    /** HU at and below which a pixel is black. */
    public double low() {
        return centreHu - widthHu / 2;
    }

    /** HU at and above which a pixel is white. */
    public double high() {
        return centreHu + widthHu / 2;
    }
}
