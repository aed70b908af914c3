package org.holdfast.phantom;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomWriter;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.TransferSyntax;
import org.holdfast.dicom.Uid;

/**
 * Writes a simulated radiograph as a Digital X-Ray Image for presentation (PS3.3, annex A.26). The pixel size is that of
 * the detector, beside the magnification of the middle plane, as a real film tells it.
 */
final class FilmWriter {

    private static final String DIGITAL_X_RAY_FOR_PRESENTATION = "1.2.840.10008.5.1.4.1.1.1.1";
    private static final String TIME = "110000";
    private static final String COMMENT = "Invented data from a computer simulation. No patient, no device.";

    private FilmWriter() {}

    /**
     * Writes one film.
     *
     * @param seriesNumber number of its series in the study
     * @throws IOException if the file cannot be written
     */
    static void write(Path file, Film film, FilmView view, FilmSettings settings, FilmFacts facts, int seriesNumber)
            throws IOException {
        Files.createDirectories(file.getParent());
        DataSet.Builder b = DataSet.builder();
        addStudy(b, facts);
        addSeries(b, view, facts, seriesNumber);
        addBeam(b, settings);
        addImage(b, film, view);
        DicomWriter.write(file, b.build(), TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
    }

    private static void addStudy(DataSet.Builder b, FilmFacts facts) {
        b.string(Tag.SOP_CLASS_UID, DIGITAL_X_RAY_FOR_PRESENTATION);
        String studyUid = Uid.fromName(facts.uidSeed() + "/study");
        SimulatedStudy.add(b, facts.patientCode(), facts.studyDescription(), studyUid, facts.date(), TIME);
    }

    private static void addSeries(DataSet.Builder b, FilmView view, FilmFacts facts, int seriesNumber) {
        b.string(Tag.MODALITY, "DX")
                .string(Tag.PRESENTATION_INTENT_TYPE, "FOR PRESENTATION")
                .string(Tag.SERIES_INSTANCE_UID, Uid.fromName(facts.uidSeed() + "/series/" + view))
                .string(Tag.SOP_INSTANCE_UID, Uid.fromName(facts.uidSeed() + "/image/" + view))
                .integers(Tag.SERIES_NUMBER, seriesNumber)
                .integers(Tag.INSTANCE_NUMBER, 1)
                .string(Tag.SERIES_DESCRIPTION, "simulated X-ray, " + view.words)
                .string(Tag.BODY_PART_EXAMINED, "SPINE")
                .string(Tag.VIEW_POSITION, view.viewPosition)
                .string(Tag.IMAGE_LATERALITY, "U")
                .items(Tag.ANATOMIC_REGION_SEQUENCE, List.of(code("421060004", "SCT", "Vertebral column")))
                .string(Tag.MANUFACTURER, "Holdfast simulator")
                .string(Tag.MANUFACTURER_MODEL_NAME, "projection, no physics")
                .string(Tag.SOFTWARE_VERSIONS, "1")
                .string(Tag.IMAGE_COMMENTS, COMMENT);
    }

    private static DataSet code(String value, String scheme, String meaning) {
        return DataSet.builder()
                .string(Tag.CODE_VALUE, value)
                .string(Tag.CODING_SCHEME_DESIGNATOR, scheme)
                .string(Tag.CODE_MEANING, meaning)
                .build();
    }

    private static void addBeam(DataSet.Builder b, FilmSettings settings) {
        b.decimals(Tag.KVP, 80)
                .decimals(Tag.DISTANCE_SOURCE_TO_DETECTOR, settings.sourceToDetectorMm())
                .decimals(Tag.DISTANCE_SOURCE_TO_PATIENT, settings.sourceToMiddleMm())
                .decimals(Tag.ESTIMATED_RADIOGRAPHIC_MAGNIFICATION, settings.magnification())
                .decimals(Tag.IMAGER_PIXEL_SPACING, settings.pixelMm(), settings.pixelMm())
                .string(Tag.DETECTOR_TYPE, "SCINTILLATOR")
                .string(Tag.POSITIONER_TYPE, "NONE")
                .items(Tag.ACQUISITION_CONTEXT_SEQUENCE, List.of());
    }

    private static void addImage(DataSet.Builder b, Film film, FilmView view) {
        b.string(Tag.IMAGE_TYPE, "ORIGINAL", "PRIMARY")
                .string(Tag.PATIENT_ORIENTATION, view.orientation.split("\\\\"))
                .integers(Tag.SAMPLES_PER_PIXEL, 1)
                .string(Tag.PHOTOMETRIC_INTERPRETATION, "MONOCHROME2")
                .integers(Tag.ROWS, film.rows())
                .integers(Tag.COLUMNS, film.columns())
                .integers(Tag.BITS_ALLOCATED, 16)
                .integers(Tag.BITS_STORED, 12)
                .integers(Tag.HIGH_BIT, 11)
                .integers(Tag.PIXEL_REPRESENTATION, 0)
                .string(Tag.PIXEL_INTENSITY_RELATIONSHIP, "LOG")
                .integers(Tag.PIXEL_INTENSITY_RELATIONSHIP_SIGN, -1)
                .decimals(Tag.RESCALE_INTERCEPT, 0)
                .decimals(Tag.RESCALE_SLOPE, 1)
                .string(Tag.RESCALE_TYPE, "US")
                .string(Tag.PRESENTATION_LUT_SHAPE, "IDENTITY")
                .decimals(Tag.WINDOW_CENTER, 0.5 * (film.lowest() + film.highest()))
                .decimals(Tag.WINDOW_WIDTH, Math.max(1, film.highest() - film.lowest()))
                .string(Tag.BURNED_IN_ANNOTATION, "NO")
                .string(Tag.LOSSY_IMAGE_COMPRESSION, "00")
                .words(Tag.PIXEL_DATA, film.stored());
    }
}
