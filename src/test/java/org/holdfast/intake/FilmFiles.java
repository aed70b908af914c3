package org.holdfast.intake;

import java.nio.file.Path;
import java.util.List;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.DicomReader;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.Uid;
import org.holdfast.dicom.Vr;

/** Small radiographs written by the project's own writer: 4 columns × 3 rows of 12 bits, values 0, 100, … 1100. */
final class FilmFiles {

    static final int COLUMNS = 4;
    static final int ROWS = 3;

    private FilmFiles() {}

    /** A digital radiograph from the front without scale, window or table. */
    static DataSet.Builder film(String name) {
        short[] words = new short[COLUMNS * ROWS];
        for (int n = 0; n < words.length; n++) {
            words[n] = (short) (100 * n);
        }
        return DataSet.builder()
                .string(Tag.SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.1.1")
                .string(Tag.SOP_INSTANCE_UID, Uid.fromName("FilmFiles " + name))
                .string(Tag.SERIES_INSTANCE_UID, Uid.fromName("FilmFiles series " + name))
                .string(Tag.STUDY_INSTANCE_UID, Uid.fromName("FilmFiles study"))
                .string(Tag.MODALITY, "DX")
                .string(Tag.IMAGE_TYPE, "ORIGINAL", "PRIMARY")
                .string(Tag.ACQUISITION_DATE, "20260220")
                .string(Tag.PRESENTATION_INTENT_TYPE, "FOR PRESENTATION")
                .string(Tag.PATIENT_ORIENTATION, "L", "F")
                .string(Tag.VIEW_POSITION, "AP")
                .integers(Tag.SAMPLES_PER_PIXEL, 1)
                .string(Tag.PHOTOMETRIC_INTERPRETATION, "MONOCHROME2")
                .string(Tag.PRESENTATION_LUT_SHAPE, "IDENTITY")
                .integers(Tag.ROWS, ROWS)
                .integers(Tag.COLUMNS, COLUMNS)
                .integers(Tag.BITS_ALLOCATED, 16)
                .integers(Tag.BITS_STORED, 12)
                .integers(Tag.HIGH_BIT, 11)
                .integers(Tag.PIXEL_REPRESENTATION, 0)
                .words(Tag.PIXEL_DATA, words);
    }

    /** An item of a sequence of tables; entries as 16-bit words. */
    static DataSet table(int count, int first, int bits, int... entries) {
        short[] words = new short[entries.length];
        for (int n = 0; n < words.length; n++) {
            words[n] = (short) entries[n];
        }
        return DataSet.builder()
                .integers(Tag.LUT_DESCRIPTOR, count, first, bits)
                .words(Tag.LUT_DATA, words)
                .build();
    }

    /** An item of a sequence of tables of 8-bit entries, two in a word. */
    static DataSet packedTable(int first, byte... entries) {
        return DataSet.builder()
                .integers(Tag.LUT_DESCRIPTOR, entries.length, first, 8)
                .bytes(Tag.LUT_DATA, Vr.OW, entries)
                .build();
    }

    /** Writes a film and reads its header back as intake does. */
    static ImageHeader header(Path folder, String name, DataSet film) {
        CtFiles.write(folder, name, film);
        try {
            return ImageHeader.of(
                    DicomReader.read(folder.resolve(name)), folder.resolve(name).toString());
        } catch (DicomReadException e) {
            throw new AssertionError(e);
        }
    }

    static List<String> codes(List<org.holdfast.finding.Finding> findings) {
        return findings.stream().map(org.holdfast.finding.Finding::code).toList();
    }
}
