package org.holdfast.intake;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;

/**
 * Whether the pixels of an image may show text, such as a name. Judged from the header alone: BurnedInAnnotation where it
 * is said, else the kind of image. Stateless.
 */
public final class BurnedInRisk {

    private static final int RECOGNIZABLE_VISUAL_FEATURES = 0x00280302;
    private static final int OVERLAY_BITS_ALLOCATED = 0x60000100;

    private static final Set<String> MODALITIES =
            Set.of("US", "IVUS", "RF", "XA", "OT", "SC", "DOC", "ES", "GM", "XC", "SM", "OP", "HC", "AU", "EPS", "DG");
    private static final Set<String> SECTIONS = Set.of("CT", "MR", "PT");
    private static final String SECONDARY_CAPTURE = "1.2.840.10008.5.1.4.1.1.7";

    private BurnedInRisk() {}

    /** Why the pixels may show text; empty if nothing in the header speaks for it. */
    public static Optional<String> of(DataSet data) {
        String said = data.string(Tag.BURNED_IN_ANNOTATION).orElse("");
        if (said.equalsIgnoreCase("YES")) {
            return Optional.of("the file says that text is burned in");
        }
        if (hasOverlayInPixels(data)) {
            return Optional.of("an overlay is drawn into unused bits of the pixels");
        }
        return said.equalsIgnoreCase("NO") ? Optional.empty() : ofKind(data);
    }

    /** Whether the file says that a person could be recognized in the picture. */
    public static boolean showsFeatures(DataSet data) {
        return data.string(RECOGNIZABLE_VISUAL_FEATURES).orElse("").equalsIgnoreCase("YES");
    }

    private static Optional<String> ofKind(DataSet data) {
        String modality = data.string(Tag.MODALITY).orElse("");
        List<String> type = data.strings(Tag.IMAGE_TYPE);
        if (data.string(Tag.SOP_CLASS_UID).orElse("").startsWith(SECONDARY_CAPTURE)
                || !data.isBlank(Tag.CONVERSION_TYPE)) {
            return Optional.of("a secondary capture that does not say whether text is burned in");
        }
        if (MODALITIES.contains(modality)) {
            return Optional.of("an image of modality " + modality + " that does not say whether text is burned in");
        }
        if (type.stream().anyMatch(ImageKind::isRenderingOrScreen)) {
            return Optional.of("a rendering or screen that does not say whether text is burned in");
        }
        if (SECTIONS.contains(modality) && data.integer(Tag.SAMPLES_PER_PIXEL).orElse(1) > 1) {
            return Optional.of("a colour image that does not say whether text is burned in");
        }
        boolean second = SECTIONS.contains(modality)
                && type.size() > 1
                && type.get(0).equals("DERIVED")
                && type.get(1).equals("SECONDARY")
                && data.isBlank(Tag.IMAGE_POSITION_PATIENT);
        return second
                ? Optional.of("a derived image without a place in the patient, perhaps a screen")
                : Optional.empty();
    }

    /** Retired: an overlay that lies in bits of the pixels (PS3.3 of 2004, section C.9.2). */
    private static boolean hasOverlayInPixels(DataSet data) {
        for (int overlay = 0; overlay < 16; overlay++) {
            int bits = data.integer(OVERLAY_BITS_ALLOCATED + (overlay << 17)).orElse(1);
            if (bits > 1) {
                return true;
            }
        }
        return false;
    }
}
