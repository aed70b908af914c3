package org.holdfast.intake;

import java.util.Optional;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;
import org.holdfast.volume.LookupTable;

/**
 * Reads look-up tables of greys from the items of their sequences (PS3.3, sections C.11.1.1.1 and C.11.2.1.1). Entries are
 * unsigned whatever the representation says; a count of 0 means 65,536; entries of 8 bits may stand two in a word. Stateless.
 */
final class GreyTables {

    /** A table, or why the item holds none. */
    record Read(Optional<LookupTable> table, String why) {}

    private GreyTables() {}

    /**
     * The table of an item.
     *
     * @param signedInput whether inputs may be below 0: the first mapped input is then read with a sign, whatever its
     *     representation says
     */
    static Read of(DataSet item, boolean signedInput) {
        int[] descriptor = item.integers(Tag.LUT_DESCRIPTOR);
        if (descriptor.length != 3) {
            return not("its descriptor has " + descriptor.length + " values in place of 3");
        }
        int count = (descriptor[0] & 0xFFFF) == 0 ? LookupTable.MOST_ENTRIES : descriptor[0] & 0xFFFF;
        int first = signedInput ? (short) descriptor[1] : descriptor[1] & 0xFFFF;
        int bits = descriptor[2];
        if (bits < 8 || bits > 16) {
            return not("its entries have " + bits + " bits in place of 8 to 16");
        }
        byte[] data = item.bytes(Tag.LUT_DATA).orElse(new byte[0]);
        boolean twoInAWord = bits == 8 && data.length < 2L * count;
        if (data.length < (twoInAWord ? count : 2L * count)) {
            return not("its descriptor names " + count + " entries, its data have " + data.length + " bytes");
        }
        char[] entries = new char[count];
        for (int n = 0; n < count; n++) {
            entries[n] = (char) (twoInAWord ? data[n] & 0xFF : data[2 * n] & 0xFF | (data[2 * n + 1] & 0xFF) << 8);
        }
        return new Read(Optional.of(new LookupTable(first, bits, entries)), "");
    }

    private static Read not(String why) {
        return new Read(Optional.empty(), why);
    }
}
