package org.holdfast.cases;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.holdfast.app.SubjectFolder;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomWriter;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.TransferSyntax;
import org.holdfast.dicom.Uid;

/** Radiographs made by the project's own writer, and a subject that has some. */
public final class SampleFilms {

    /** Columns and rows of a film; its pixels are 0.23 mm at the detector. */
    public static final int COLUMNS = 60;

    public static final int ROWS = 90;

    private SampleFilms() {}

    /** A film whose stored values rise by 10 from column to column; front if {@code view} is AP, else from the side. */
    public static DataSet.Builder film(String name, String view) {
        short[] words = new short[COLUMNS * ROWS];
        for (int n = 0; n < words.length; n++) {
            words[n] = (short) (10 * (n % COLUMNS));
        }
        return DataSet.builder()
                .string(Tag.SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.1.1")
                .string(Tag.SOP_INSTANCE_UID, Uid.fromName("SampleFilms " + name))
                .string(Tag.SERIES_INSTANCE_UID, Uid.fromName("SampleFilms series " + name))
                .string(Tag.STUDY_INSTANCE_UID, Uid.fromName("SampleFilms study"))
                .string(Tag.MODALITY, "DX")
                .string(Tag.PRESENTATION_INTENT_TYPE, "FOR PRESENTATION")
                .string(Tag.ACQUISITION_DATE, "20250401")
                .string(Tag.PATIENT_ORIENTATION, view.equals("AP") ? "L" : "A", "F")
                .string(Tag.VIEW_POSITION, view)
                .decimals(Tag.IMAGER_PIXEL_SPACING, 0.23, 0.23)
                .decimals(Tag.ESTIMATED_RADIOGRAPHIC_MAGNIFICATION, 1.15)
                .integers(Tag.SAMPLES_PER_PIXEL, 1)
                .string(Tag.PHOTOMETRIC_INTERPRETATION, "MONOCHROME2")
                .integers(Tag.ROWS, ROWS)
                .integers(Tag.COLUMNS, COLUMNS)
                .integers(Tag.BITS_ALLOCATED, 16)
                .integers(Tag.BITS_STORED, 12)
                .integers(Tag.HIGH_BIT, 11)
                .integers(Tag.PIXEL_REPRESENTATION, 0)
                .string(Tag.WINDOW_CENTER, "300", "100")
                .string(Tag.WINDOW_WIDTH, "600", "100")
                .string(Tag.WINDOW_EXPLANATION, "NORMAL", "HARD")
                .words(Tag.PIXEL_DATA, words);
    }

    /** Writes films of an exam, one a view, into a folder. */
    public static Path write(Path folder, String... views) throws IOException {
        Files.createDirectories(folder);
        for (String view : views) {
            DicomWriter.write(
                    folder.resolve(view + ".dcm"), film(view, view).build(), TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
        }
        return folder;
    }

    /** A subject of the sample's first exam and one of films from front and side a year later. */
    public static Path subject(Path folder) throws IOException {
        Files.createDirectories(folder);
        write(folder.resolve("films"), "AP", "LL");
        Files.copy(SampleSubject.constructFile(), folder.resolve("construct.json"));
        String surgery = SampleSubject.exams()
                .get(0)
                .folder()
                .toAbsolutePath()
                .toString()
                .replace("\\", "\\\\");
        Files.writeString(
                folder.resolve(SubjectFolder.DOCUMENT),
                """
                {"code": "DEMO-01", "surgeryDate": "2024-03-11", "construct": "construct.json",
                 "exams": [{"label": "surgery", "folder": "%s", "date": "2024-03-14"},
                           {"label": "13 mo", "folder": "films", "date": "2025-04-01"}]}
                """
                        .formatted(surgery));
        return folder;
    }
}
