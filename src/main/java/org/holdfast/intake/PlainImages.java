package org.holdfast.intake;

import java.util.Set;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;

/** Image classes that may do without dates, stations and serial numbers (PS3.3, annex A); all other objects may not. */
final class PlainImages {

    private static final String STORAGE = "1.2.840.10008.5.1.4.1.1.";
    private static final Set<String> CLASSES = Set.of(
            "1", "1.1", "1.1.1", "1.2", "1.2.1", "1.3", "1.3.1", "2", "4", "6", "6.1", "7", "7.1", "7.2", "7.3", "7.4",
            "12.1", "12.2", "20", "128");

    private PlainImages() {}

    static boolean contain(DataSet data) {
        String uid = data.string(Tag.SOP_CLASS_UID).orElse("");
        return uid.startsWith(STORAGE) && CLASSES.contains(uid.substring(STORAGE.length()));
    }
}
