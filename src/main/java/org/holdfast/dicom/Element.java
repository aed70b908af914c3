package org.holdfast.dicom;

import java.util.List;

/**
 * One data element: its tag, representation, and either its value field or its items. Immutable by agreement inside this
 * package: nobody writes to the array.
 *
 * @param value value field, little endian whatever the file's byte order; null for a sequence
 * @param items items of a sequence; null for anything else
 */
record Element(int tag, Vr vr, byte[] value, List<DataSet> items) {

    static Element ofBytes(int tag, Vr vr, byte[] value) {
        return new Element(tag, vr, value, null);
    }

    static Element ofItems(int tag, List<DataSet> items) {
        return new Element(tag, Vr.SQ, null, List.copyOf(items));
    }

    boolean isSequence() {
        return items != null;
    }
}
