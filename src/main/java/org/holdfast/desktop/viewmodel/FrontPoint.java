package org.holdfast.desktop.viewmodel;

/**
 * A place of a construct seen from the front, in the construct's own axes. Immutable.
 *
 * @param leftMm towards the patient's left, which is the drawing's right
 * @param downMm towards the feet
 */
public record FrontPoint(double leftMm, double downMm) {

    /** The point this far on the way to another one. */
    public FrontPoint towards(FrontPoint other, double fraction) {
        return new FrontPoint(leftMm + fraction * (other.leftMm - leftMm), downMm + fraction * (other.downMm - downMm));
    }
}
