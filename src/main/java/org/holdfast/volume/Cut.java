package org.holdfast.volume;

/**
 * HU on the pixels of a plane. Immutable. A pixel outside the valid image is NaN: outside the hull of the voxel centres,
 * in a hole of the stack, or next to a voxel without tissue.
 */
public final class Cut {

    private final CutPlane plane;
    private final float[] hu;

    /** Takes the array as its own; row by row. */
    Cut(CutPlane plane, float[] hu) {
        this.plane = plane;
        this.hu = hu;
    }

    /** Where the pixels lie. */
    public CutPlane plane() {
        return plane;
    }

    /** Pixels in a row. */
    public int width() {
        return plane.width();
    }

    /** Rows. */
    public int height() {
        return plane.height();
    }

    /**
     * HU of a pixel, or NaN outside the valid image.
     *
     * @throws IndexOutOfBoundsException unless 0 ≤ x &lt; width and 0 ≤ y &lt; height
     */
    public float hu(int x, int y) {
        if (x < 0 || x >= plane.width()) {
            throw new IndexOutOfBoundsException("x " + x + " outside 0 to " + (plane.width() - 1));
        }
        return hu[x + plane.width() * y];
    }

    /** HU of all pixels, index x + width·y, NaN outside the valid image; a copy. */
    public float[] toArray() {
        return hu.clone();
    }
}
