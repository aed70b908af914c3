package org.holdfast.intake;

import java.util.List;
import java.util.Locale;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;

/**
 * What an image is and where it belongs, as written; absent values are empty text. Immutable.
 *
 * @param sopClassUid kind of object
 * @param sopInstanceUid the object itself
 * @param studyInstanceUid its study
 * @param seriesInstanceUid its series
 * @param frameOfReferenceUid the space that its positions refer to
 * @param patientId patient's number
 * @param patientName patient's name, for telling patients apart only; never shown
 * @param patientBirthDate patient's birth date as written, for telling patients apart only; never shown
 * @param modality modality, upper case
 * @param description description of the series
 * @param seriesNumber number of the series; for order on a list only
 * @param imageType values of ImageType, upper case
 * @param viewPosition direction of a projection as written, such as AP or LL, upper case
 */
public record Identity(
        String sopClassUid,
        String sopInstanceUid,
        String studyInstanceUid,
        String seriesInstanceUid,
        String frameOfReferenceUid,
        String patientId,
        String patientName,
        String patientBirthDate,
        String modality,
        String description,
        int seriesNumber,
        List<String> imageType,
        String viewPosition) {

    private static final int VIEW_POSITION = 0x00185101;

    public Identity {
        imageType = List.copyOf(imageType);
    }

    static Identity of(DataSet d) {
        return new Identity(
                d.string(Tag.SOP_CLASS_UID).orElse(""),
                d.string(Tag.SOP_INSTANCE_UID).orElse(""),
                d.string(Tag.STUDY_INSTANCE_UID).orElse(""),
                d.string(Tag.SERIES_INSTANCE_UID).orElse(""),
                d.string(Tag.FRAME_OF_REFERENCE_UID).orElse(""),
                d.string(Tag.PATIENT_ID).orElse(""),
                d.string(Tag.PATIENT_NAME).orElse(""),
                d.string(Tag.PATIENT_BIRTH_DATE).orElse(""),
                d.string(Tag.MODALITY).orElse("").toUpperCase(Locale.ROOT),
                d.string(Tag.SERIES_DESCRIPTION).orElse(""),
                d.integer(Tag.SERIES_NUMBER).orElse(Integer.MAX_VALUE),
                d.strings(Tag.IMAGE_TYPE).stream()
                        .map(value -> value.toUpperCase(Locale.ROOT))
                        .toList(),
                d.string(VIEW_POSITION).orElse("").toUpperCase(Locale.ROOT));
    }
}
