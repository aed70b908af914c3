package org.holdfast.intake;

import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;

/**
 * Attributes that may tell several images at one position apart, in the order in which they are tried. None of them ever
 * splits a stack whose positions do not repeat or interleave: several vary from slice to slice by design.
 */
enum SplitAttribute {
    ACQUISITION_NUMBER("AcquisitionNumber", Tag.ACQUISITION_NUMBER),
    IMAGE_TYPE("ImageType", Tag.IMAGE_TYPE),
    TEMPORAL_POSITION("TemporalPositionIdentifier", 0x00200100),
    ECHO_TIME("EchoTime", 0x00180081),
    TRIGGER_TIME("TriggerTime", 0x00181060),
    KVP("KVP", Tag.KVP),
    SLICE_THICKNESS("SliceThickness", Tag.SLICE_THICKNESS),
    RECONSTRUCTION_DIAMETER("ReconstructionDiameter", Tag.RECONSTRUCTION_DIAMETER),
    TUBE_CURRENT("XRayTubeCurrent", Tag.X_RAY_TUBE_CURRENT),
    EXPOSURE("Exposure", Tag.EXPOSURE);

    private final String keyword;
    private final int tag;

    SplitAttribute(String keyword, int tag) {
        this.keyword = keyword;
        this.tag = tag;
    }

    /** The standard's name. */
    String keyword() {
        return keyword;
    }

    static Map<SplitAttribute, String> allOf(DataSet d) {
        Map<SplitAttribute, String> values = new EnumMap<>(SplitAttribute.class);
        for (SplitAttribute attribute : values()) {
            List<String> all = d.strings(attribute.tag);
            // The first two values of ImageType say original or derived; what tells reconstructions apart comes later.
            List<String> used = attribute == IMAGE_TYPE ? all.subList(Math.min(2, all.size()), all.size()) : all;
            values.put(attribute, String.join("\\", used).toUpperCase(Locale.ROOT));
        }
        return values;
    }
}
