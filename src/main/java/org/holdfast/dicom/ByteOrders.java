package org.holdfast.dicom;

/** Turns the byte order of a value field round. */
final class ByteOrders {

    private ByteOrders() {}

    /** Bytes of an element that are turned together: those of its representation, but pixels of 32 bits as a whole. */
    static int unitBytes(DataSet dataSet, int tag, Vr vr) {
        boolean wide = tag == Tag.PIXEL_DATA
                && vr == Vr.OW
                && dataSet.integer(Tag.BITS_ALLOCATED).orElse(0) == 32;
        return wide ? 4 : vr.unitBytes();
    }

    /** Reverses every group of so many bytes in place; an incomplete last group is left. */
    static void swap(byte[] value, int unitBytes) {
        for (int start = 0; unitBytes > 1 && start + unitBytes <= value.length; start += unitBytes) {
            for (int a = start, b = start + unitBytes - 1; a < b; a++, b--) {
                byte held = value[a];
                value[a] = value[b];
                value[b] = held;
            }
        }
    }
}
