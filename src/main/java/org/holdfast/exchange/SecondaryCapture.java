package org.holdfast.exchange;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Objects;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomWriter;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.TransferSyntax;
import org.holdfast.dicom.Vr;
import org.holdfast.figure.Picture;

/**
 * A figure as a Secondary Capture Image (PS3.3, annex A.8.1), so that it can be kept beside the study that it was made
 * of. Patient and study are those of an image of that study; the series is its own. Immutable.
 *
 * @param seriesInstanceUid series of the captures
 * @param seriesDescription what they are, at most 64 characters
 * @param seriesNumber number of the series
 * @param instanceNumber number of this capture in it
 * @param derivation how the figure came about, in words
 */
public record SecondaryCapture(
        String seriesInstanceUid, String seriesDescription, int seriesNumber, int instanceNumber, String derivation) {

    private static final String SOP_CLASS = "1.2.840.10008.5.1.4.1.1.7";

    /** Elements of the patient, study and de-identification modules that are the study's. */
    private static final int[] OF_THE_STUDY = {
        Tag.SPECIFIC_CHARACTER_SET,
        Tag.STUDY_DATE,
        Tag.STUDY_TIME,
        Tag.ACCESSION_NUMBER,
        Tag.REFERRING_PHYSICIAN_NAME,
        Tag.STUDY_DESCRIPTION,
        Tag.PATIENT_NAME,
        Tag.PATIENT_ID,
        Tag.PATIENT_BIRTH_DATE,
        Tag.PATIENT_SEX,
        0x00120062,
        0x00120063,
        0x00120064,
        Tag.STUDY_INSTANCE_UID,
        Tag.STUDY_ID,
        0x00280303
    };

    /** Elements that must be there, empty where the study does not know them (type 2). */
    private static final int[] AT_LEAST_EMPTY = {
        Tag.STUDY_DATE,
        Tag.STUDY_TIME,
        Tag.ACCESSION_NUMBER,
        Tag.REFERRING_PHYSICIAN_NAME,
        Tag.PATIENT_NAME,
        Tag.PATIENT_ID,
        Tag.PATIENT_BIRTH_DATE,
        Tag.PATIENT_SEX,
        Tag.STUDY_ID
    };

    public SecondaryCapture {
        Objects.requireNonNull(seriesInstanceUid, "seriesInstanceUid");
        Objects.requireNonNull(derivation, "derivation");
        if (seriesDescription.length() > 64) {
            throw new IllegalArgumentException(
                    "seriesDescription must have at most 64 characters, got " + seriesDescription.length());
        }
    }

    /**
     * Writes a figure, explicit little endian, over what is there.
     *
     * @param ofStudy header of an image of the study
     * @param instanceUid identifier of the new object
     * @param software name and version of the software that made it
     * @param made when it was made
     */
    public void write(
            Picture picture, DataSet ofStudy, String instanceUid, String software, LocalDateTime made, Path file)
            throws IOException {
        DataSet.Builder b = DataSet.builder();
        ofStudy.copy(b, OF_THE_STUDY);
        for (int tag : AT_LEAST_EMPTY) {
            if (!ofStudy.contains(tag)) {
                b.string(tag, "");
            }
        }
        String date = made.format(DateTimeFormatter.ofPattern("yyyyMMdd", Locale.ROOT));
        String time = made.format(DateTimeFormatter.ofPattern("HHmmss", Locale.ROOT));
        b.string(Tag.SOP_CLASS_UID, SOP_CLASS)
                .string(Tag.SOP_INSTANCE_UID, instanceUid)
                .string(Tag.IMAGE_TYPE, "DERIVED", "SECONDARY")
                .string(Tag.SERIES_DATE, date)
                .string(Tag.SERIES_TIME, time)
                .string(Tag.CONTENT_DATE, date)
                .string(Tag.CONTENT_TIME, time)
                .string(Tag.MODALITY, "OT")
                .string(Tag.CONVERSION_TYPE, "WSD")
                .string(Tag.SERIES_INSTANCE_UID, seriesInstanceUid)
                .string(Tag.SERIES_DESCRIPTION, seriesDescription)
                .integers(Tag.SERIES_NUMBER, seriesNumber)
                .integers(Tag.INSTANCE_NUMBER, instanceNumber)
                .string(Tag.PATIENT_ORIENTATION, "")
                .string(Tag.LATERALITY, "")
                .string(Tag.DERIVATION_DESCRIPTION, derivation)
                .string(Tag.SECONDARY_CAPTURE_DEVICE_MANUFACTURER, "Holdfast")
                .string(Tag.SECONDARY_CAPTURE_DEVICE_SOFTWARE_VERSIONS, software)
                .string(Tag.BURNED_IN_ANNOTATION, "NO");
        addPixels(b, picture);
        DicomWriter.write(file, b.build(), TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
    }

    private static void addPixels(DataSet.Builder b, Picture picture) {
        byte[] bytes = new byte[Math.multiplyExact(3, picture.rgb().length)];
        for (int n = 0; n < picture.rgb().length; n++) {
            int colour = picture.rgb()[n];
            bytes[3 * n] = (byte) (colour >> 16);
            bytes[3 * n + 1] = (byte) (colour >> 8);
            bytes[3 * n + 2] = (byte) colour;
        }
        b.integers(Tag.SAMPLES_PER_PIXEL, 3)
                .string(Tag.PHOTOMETRIC_INTERPRETATION, "RGB")
                .integers(Tag.PLANAR_CONFIGURATION, 0)
                .integers(Tag.ROWS, picture.height())
                .integers(Tag.COLUMNS, picture.width())
                .integers(Tag.BITS_ALLOCATED, 8)
                .integers(Tag.BITS_STORED, 8)
                .integers(Tag.HIGH_BIT, 7)
                .integers(Tag.PIXEL_REPRESENTATION, 0)
                .string(Tag.LOSSY_IMAGE_COMPRESSION, "00")
                .bytes(Tag.PIXEL_DATA, Vr.OB, bytes);
    }
}
