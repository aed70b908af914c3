package org.holdfast.intake;

import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.Vr;

/**
 * De-identifies data sets by the Basic Application Level Confidentiality Profile (DICOM PS3.15, annex E), with modified
 * dates or without. Attributes come from the profile's table or, where it says nothing, stay only if they are numbers,
 * codes or UIDs, as {@link PlainValues} says. Of free texts only the words that say how an image was made stay, as the
 * series' description: whether metal artefacts were reduced decides what may be measured. Pixels are not looked at.
 * Immutable.
 */
public final class Deidentifier {

    private static final int PATIENT_IDENTITY_REMOVED = 0x00120062;
    private static final int METHOD = 0x00120063;
    private static final int METHOD_CODES = 0x00120064;
    private static final int TEMPORAL_INFORMATION = 0x00280303;

    private final Pseudonyms pseudonyms;
    private final DateHandling dates;

    /**
     * A data set without identity.
     *
     * @param dataSet elements before the pixel data
     * @param changes what was done, with the number of places
     */
    public record Result(DataSet dataSet, Map<AttributeChange, Integer> changes) {

        public Result {
            changes = Collections.unmodifiableMap(new TreeMap<>(changes));
        }
    }

    public Deidentifier(Pseudonyms pseudonyms, DateHandling dates) {
        this.pseudonyms = pseudonyms;
        this.dates = dates;
    }

    /** The data set without identity. The same data set gives the same result. */
    public Result apply(DataSet data) {
        ItemCleaning cleaning = new ItemCleaning(pseudonyms, dates, PlainImages.contain(data));
        DataSet.Builder out = cleaning.clean(
                data.toBuilder().remove(Tag.PATIENT_NAME).remove(Tag.PATIENT_ID).build());
        for (int tag : new int[] {Tag.PATIENT_NAME, Tag.PATIENT_ID}) {
            out.string(tag, pseudonyms.subjectCode());
            cleaning.note(tag, AttributeChange.Kind.SUBJECT_CODE);
        }
        List<String> telling = AcquisitionFacts.tellingWords(data);
        if (!telling.isEmpty()) {
            out.string(Tag.SERIES_DESCRIPTION, shortened(String.join(" ", telling)));
        }
        out.string(PATIENT_IDENTITY_REMOVED, Vr.CS, "YES");
        out.string(
                METHOD, Vr.LO, "PS3.15 E Basic Profile", dates == DateHandling.SHIFTED ? "Dates shifted" : "No dates");
        out.items(METHOD_CODES, methodCodes());
        out.string(TEMPORAL_INFORMATION, Vr.CS, dates == DateHandling.SHIFTED ? "MODIFIED" : "REMOVED");
        return new Result(out.build(), cleaning.changes());
    }

    /** At most the 64 characters of a description. */
    private static String shortened(String words) {
        return words.length() <= 64 ? words : words.substring(0, words.lastIndexOf(' ', 64));
    }

    /** The UID that stands in place of another. */
    public String uid(String old) {
        return pseudonyms.uid(old);
    }

    /** PS3.16, context group 7050. */
    private List<DataSet> methodCodes() {
        DataSet basic = HarmlessValues.code("113100", "DCM", "Basic Application Confidentiality Profile");
        return dates == DateHandling.REMOVED
                ? List.of(basic)
                : List.of(
                        basic,
                        HarmlessValues.code(
                                "113107", "DCM", "Retain Longitudinal Temporal Information Modified Dates Option"));
    }
}
