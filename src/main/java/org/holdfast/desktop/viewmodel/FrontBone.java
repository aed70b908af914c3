package org.holdfast.desktop.viewmodel;

/**
 * Where a bone is hinted at in a schematic: what is known of it are its screws and faces only. Immutable.
 *
 * @param label the bone's name
 * @param middleMm its middle, towards the patient's left
 * @param halfWidthMm half its width
 * @param topMm its upper edge, towards the feet
 * @param bottomMm its lower edge, towards the feet
 */
public record FrontBone(String label, double middleMm, double halfWidthMm, double topMm, double bottomMm) {

    public FrontBone {
        if (!(halfWidthMm > 0 && bottomMm > topMm)) {
            throw new IllegalArgumentException("a bone needs width and height, got half width " + halfWidthMm
                    + " and edges " + topMm + " to " + bottomMm);
        }
    }
}
