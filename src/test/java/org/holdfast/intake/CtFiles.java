package org.holdfast.intake;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.function.UnaryOperator;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomWriter;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.TransferSyntax;
import org.holdfast.dicom.Uid;

/** Small CT slices written by the project's own writer: 4 columns × 3 rows, 0.5 mm wide and 0.7 mm high. */
final class CtFiles {

    static final int COLUMNS = 4;
    static final int ROWS = 3;
    static final String SERIES = Uid.fromName("CtFiles series");

    private CtFiles() {}

    /** A slice at (0, 0, z) whose stored values are all {@code stored}; slope 1, intercept −1024, signed. */
    static DataSet.Builder slice(String name, double zMm, int stored) {
        return DataSet.builder()
                .string(Tag.SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.2")
                .string(Tag.SOP_INSTANCE_UID, Uid.fromName("CtFiles " + name))
                .string(Tag.SERIES_INSTANCE_UID, SERIES)
                .string(Tag.STUDY_INSTANCE_UID, Uid.fromName("CtFiles study"))
                .string(Tag.MODALITY, "CT")
                .string(Tag.IMAGE_TYPE, "ORIGINAL", "PRIMARY", "AXIAL")
                .string(Tag.ACQUISITION_DATE, "20260115")
                .string(Tag.CONVOLUTION_KERNEL, "B30")
                .decimals(Tag.IMAGE_POSITION_PATIENT, 0, 0, zMm)
                .decimals(Tag.IMAGE_ORIENTATION_PATIENT, 1, 0, 0, 0, 1, 0)
                .decimals(Tag.PIXEL_SPACING, 0.7, 0.5)
                .integers(Tag.SAMPLES_PER_PIXEL, 1)
                .string(Tag.PHOTOMETRIC_INTERPRETATION, "MONOCHROME2")
                .integers(Tag.ROWS, ROWS)
                .integers(Tag.COLUMNS, COLUMNS)
                .integers(Tag.BITS_ALLOCATED, 16)
                .integers(Tag.BITS_STORED, 16)
                .integers(Tag.HIGH_BIT, 15)
                .integers(Tag.PIXEL_REPRESENTATION, 1)
                .decimals(Tag.RESCALE_SLOPE, 1)
                .decimals(Tag.RESCALE_INTERCEPT, -1024)
                .words(Tag.PIXEL_DATA, filled(stored));
    }

    static short[] filled(int stored) {
        short[] words = new short[COLUMNS * ROWS];
        Arrays.fill(words, (short) stored);
        return words;
    }

    static void write(Path folder, String name, DataSet dataSet) {
        write(folder, name, dataSet, TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
    }

    static void write(Path folder, String name, DataSet dataSet, TransferSyntax syntax) {
        try {
            DicomWriter.write(folder.resolve(name), dataSet, syntax);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Slices named 0, 1, … at z = 0, pitch, 2·pitch …, each changed before it is written. */
    static void writeStack(
            Path folder, String prefix, int slices, double pitchMm, UnaryOperator<DataSet.Builder> change) {
        for (int k = 0; k < slices; k++) {
            write(
                    folder,
                    prefix + k,
                    change.apply(slice(prefix + k, k * pitchMm, 1000 + k)).build());
        }
    }
}
