package org.holdfast.dicom;

/**
 * Where the pixel data of a file lies.
 *
 * @param tag (7FE0,0010) or one of its floating-point kin
 * @param vr representation that was written
 * @param offset first byte of the value field; in the inflated data set if the file is deflated
 * @param length length of the value field as written; −1 if undefined (fragments)
 * @param available bytes that are really there from the offset on
 */
public record PixelLocation(int tag, Vr vr, long offset, long length, long available) {

    /** Whether the file ends before the pixel data does. */
    public boolean isTruncated() {
        return length > available;
    }
}
