package org.holdfast.desktop.state;

/**
 * The HU that a grey picture spans. Immutable.
 *
 * @param centreHu HU shown as middle grey
 * @param widthHu HU from black to white, at least 1
 */
public record HuWindow(double centreHu, double widthHu) {

    public HuWindow {
        if (!(Double.isFinite(centreHu) && widthHu >= 1 && Double.isFinite(widthHu))) {
            throw new IllegalArgumentException(
                    "a window needs a centre and a width of at least 1 HU, got " + centreHu + " and " + widthHu);
        }
    }

    /** HU at and below which all is black. */
    public double low() {
        return centreHu - widthHu / 2;
    }

    /** HU at and above which all is white. */
    public double high() {
        return centreHu + widthHu / 2;
    }
}
