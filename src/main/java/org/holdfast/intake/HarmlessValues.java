package org.holdfast.intake;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.Vr;

/** Values that say nothing, for attributes that may be neither missing nor empty. Stateless. */
final class HarmlessValues {

    static final int CONTENT_SEQUENCE = 0x0040A730;
    static final int GRAPHIC_ANNOTATION_SEQUENCE = 0x00700001;

    private static final String WORD = "REMOVED";

    /** Designators of coding schemes that are published (PS3.16, section 8): their codes are the same everywhere. */
    private static final Set<String> PUBLIC_SCHEMES = Set.of(
            "DCM",
            "SCT",
            "SRT",
            "SNM3",
            "99SDM",
            "UCUM",
            "LN",
            "FMA",
            "NCIt",
            "RADLEX",
            "MDC",
            "UMLS",
            "UBERON",
            "NEU",
            "ACR",
            "C4",
            "C5",
            "I10",
            "I9",
            "I9C",
            "ICDO3",
            "BI",
            "ISO639_1",
            "ISO639_2",
            "ISO3166_1",
            "RFC3066",
            "RFC5646",
            "99HOLDFAST");

    private HarmlessValues() {}

    /** Puts a value that says nothing; for what has none the element is left empty. */
    static void put(DataSet.Builder out, int tag, Vr vr) {
        switch (vr) {
            case DA -> out.string(tag, vr, "19000101");
            case DT -> out.string(tag, vr, "19000101000000");
            case TM -> out.string(tag, vr, "000000");
            case AS -> out.string(tag, vr, "000Y");
            case DS, IS -> out.string(tag, vr, "0");
            case AE, CS, LO, LT, PN, SH, ST, UC, UT -> out.string(tag, vr, WORD);
            case UR -> out.string(tag, vr, "urn:removed");
            case OB, UN -> out.bytes(tag, vr, new byte[] {0, 0});
            default -> out.bytes(tag, vr, new byte[vr.unitBytes()]);
        }
    }

    /** A code that says nothing. */
    static DataSet code() {
        return code(WORD, "99HOLDFAST", "removed");
    }

    /** The one entry of a report whose text is taken out. */
    static DataSet reportEntry() {
        return DataSet.builder()
                .string(0x0040A010, Vr.CS, "CONTAINS")
                .string(0x0040A040, Vr.CS, "TEXT")
                .items(0x0040A043, List.of(code("121106", "DCM", "Comment")))
                .string(0x0040A160, Vr.UT, "Removed")
                .build();
    }

    static DataSet code(String value, String scheme, String meaning) {
        return DataSet.builder()
                .string(Tag.CODE_VALUE, Vr.SH, value)
                .string(Tag.CODING_SCHEME_DESIGNATOR, Vr.SH, scheme)
                .string(Tag.CODE_MEANING, Vr.LO, meaning)
                .build();
    }

    /** Whether an item is a code of a scheme that only its place knows, whose words may say anything. */
    static boolean isLocalCode(DataSet item) {
        boolean code = item.contains(Tag.CODE_VALUE) || item.contains(Tag.CODE_MEANING);
        Optional<String> scheme = item.string(Tag.CODING_SCHEME_DESIGNATOR);
        return code && (scheme.isEmpty() || !PUBLIC_SCHEMES.contains(scheme.get()));
    }
}
