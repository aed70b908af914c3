package org.holdfast.intake;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;

/**
 * Attributes that may tell several images at one position apart, in the order in which they are tried. None of them ever
 * splits a stack whose positions do not repeat or interleave: several vary from slice to slice by design.
 */
enum SplitAttribute {
    STACK("StackID", Tag.STACK_ID),
    ACQUISITION_NUMBER("AcquisitionNumber", Tag.ACQUISITION_NUMBER),
    IMAGE_TYPE("ImageType", Tag.IMAGE_TYPE),
    TEMPORAL_POSITION("TemporalPositionIdentifier", Tag.TEMPORAL_POSITION_IDENTIFIER),
    TEMPORAL_INDEX("TemporalPositionIndex", Tag.TEMPORAL_POSITION_INDEX),
    ECHO_TIME("EchoTime", 0x00180081),
    TRIGGER_TIME("TriggerTime", 0x00181060),
    KVP("KVP", Tag.KVP),
    SLICE_THICKNESS("SliceThickness", Tag.SLICE_THICKNESS),
    RECONSTRUCTION_DIAMETER("ReconstructionDiameter", Tag.RECONSTRUCTION_DIAMETER),
    TUBE_CURRENT("XRayTubeCurrent", Tag.X_RAY_TUBE_CURRENT),
    EXPOSURE("Exposure", Tag.EXPOSURE),
    DIMENSION_INDEX("DimensionIndexValues", Tag.DIMENSION_INDEX_VALUES);

    /** Dimensions along which slices are meant to differ. */
    private static final Set<String> ALONG_THE_STACK = Set.of(
            Tag.format(Tag.IN_STACK_POSITION_NUMBER),
            Tag.format(Tag.IMAGE_POSITION_PATIENT),
            Tag.format(Tag.SLICE_LOCATION));

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
            List<String> all = attribute == DIMENSION_INDEX ? indices(d) : d.strings(attribute.tag);
            // The first two values of ImageType say original or derived; what tells reconstructions apart comes later.
            List<String> used = attribute == IMAGE_TYPE ? all.subList(Math.min(2, all.size()), all.size()) : all;
            values.put(attribute, String.join("\\", used).toUpperCase(Locale.ROOT));
        }
        return values;
    }

    /** Indices of the dimensions that are not the place in the stack (PS3.3, section C.7.6.17). */
    private static List<String> indices(DataSet d) {
        List<String> all = d.strings(Tag.DIMENSION_INDEX_VALUES);
        List<DataSet> dimensions = d.items(Tag.DIMENSION_INDEX_SEQUENCE);
        if (all.size() != dimensions.size()) {
            return List.of();
        }
        List<String> used = new ArrayList<>();
        for (int n = 0; n < all.size(); n++) {
            String pointer =
                    dimensions.get(n).string(Tag.DIMENSION_INDEX_POINTER).orElse("");
            if (!ALONG_THE_STACK.contains(pointer)) {
                used.add(all.get(n));
            }
        }
        return used;
    }
}
