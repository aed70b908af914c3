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

    /** The scale of 16 bits: a wider window shows nothing more. */
    private static final double WIDEST_HU = 65_536;
    /** A drag over so many logical pixels changes a window by its own width. */
    private static final double DRAG_PIXELS = 250;

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

    /**
     * This window after a small drag over a picture: to the right wider, down a higher centre, so darker; each pixel 1/250
     * of the width. It stays between 1 and 65,536 HU wide, its centre between −32,768 and 32,767.
     *
     * @param right logical pixels
     * @param down logical pixels
     */
    public HuWindow dragged(double right, double down) {
        double width = Math.max(NARROWEST_HU, Math.min(WIDEST_HU, widthHu * (1 + right / DRAG_PIXELS)));
        double centre = centreHu + widthHu * down / DRAG_PIXELS;
        return new HuWindow(Math.max(-WIDEST_HU / 2, Math.min(WIDEST_HU / 2 - 1, centre)), width);
    }
}
