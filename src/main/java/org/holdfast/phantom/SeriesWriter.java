package org.holdfast.phantom;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.IntStream;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomWriter;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.TransferSyntax;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;

/**
 * Writes a simulated volume as a complete CT series, one CT Image Storage file a slice (DICOM PS3.3, annex A.3), explicit
 * little endian. Dates, times and identifiers follow from the facts, so the same input gives the same bytes.
 *
 * <p>ImageType is ORIGINAL: the pixels were not derived from those of another image. That they are simulated is said in
 * manufacturer, model, series description and image comments.
 */
public final class SeriesWriter {

    private static final String CT_IMAGE_STORAGE = "1.2.840.10008.5.1.4.1.1.2";
    private static final String TIME = "120000";
    private static final String COMMENT = "Invented data from a computer simulation. No patient, no scanner.";
    private static final double SHEAR_TOLERANCE_DEG = 0.01;

    private SeriesWriter() {}

    /**
     * Writes all slices into a folder, made if it is missing; files {@code slice-0001.dcm} and so on, ascending along the
     * normal.
     *
     * @throws IllegalArgumentException if a voxel carries no tissue: a simulated scan has none
     * @throws IOException if a file cannot be written
     */
    public static void write(Path folder, HuVolume volume, SeriesFacts facts, Progress progress) throws IOException {
        Files.createDirectories(folder);
        VolumeGrid grid = volume.grid();
        DataSet shared = shared(grid, facts);
        AtomicInteger done = new AtomicInteger();
        try {
            IntStream.range(0, grid.slices()).parallel().forEach(k -> {
                progress.stopIfCancelled();
                Path file = folder.resolve(String.format(Locale.ROOT, "slice-%04d.dcm", k + 1));
                writeSlice(file, volume, k, shared, facts);
                progress.report((double) done.incrementAndGet() / grid.slices(), "writing the series");
            });
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }

    private static void writeSlice(Path file, HuVolume volume, int k, DataSet shared, SeriesFacts facts) {
        VolumeGrid grid = volume.grid();
        PatientPoint origin = grid.sliceOrigin(k);
        DataSet slice = shared.toBuilder()
                .string(Tag.SOP_INSTANCE_UID, facts.instanceUid(k + 1))
                .integers(Tag.INSTANCE_NUMBER, k + 1)
                .decimals(
                        Tag.IMAGE_POSITION_PATIENT, nanometre(origin.x()), nanometre(origin.y()), nanometre(origin.z()))
                .decimals(Tag.SLICE_LOCATION, nanometre(grid.positionMm(k)))
                .words(Tag.PIXEL_DATA, stored(volume, k, facts.scale()))
                .build();
        try {
            DicomWriter.write(file, slice, TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static short[] stored(HuVolume volume, int k, HuScale scale) {
        VolumeGrid grid = volume.grid();
        short[] words = new short[grid.columns() * grid.rows()];
        for (int j = 0; j < grid.rows(); j++) {
            for (int i = 0; i < grid.columns(); i++) {
                double hu = volume.hu(i, j, k);
                if (Double.isNaN(hu)) {
                    throw new IllegalArgumentException("voxel (" + i + ", " + j + ", " + k + ") carries no tissue");
                }
                words[i + grid.columns() * j] = scale.stored(hu);
            }
        }
        return words;
    }

    private static DataSet shared(VolumeGrid grid, SeriesFacts facts) {
        DataSet.Builder b = DataSet.builder();
        addStudy(b, facts);
        addEquipment(b, facts);
        addAcquisition(b, grid, facts);
        addPixelFormat(b, grid, facts);
        return b.build();
    }

    private static void addStudy(DataSet.Builder b, SeriesFacts facts) {
        b.string(Tag.SOP_CLASS_UID, CT_IMAGE_STORAGE).string(Tag.IMAGE_TYPE, "ORIGINAL", "PRIMARY", "AXIAL");
        SimulatedStudy.add(b, facts.patientCode(), facts.studyDescription(), facts.studyUid(), facts.date(), TIME);
    }

    private static void addEquipment(DataSet.Builder b, SeriesFacts facts) {
        b.string(Tag.MODALITY, "CT")
                .string(Tag.SERIES_INSTANCE_UID, facts.seriesUid())
                .integers(Tag.SERIES_NUMBER, 1)
                .string(Tag.SERIES_DESCRIPTION, "simulated " + facts.seriesDescription())
                .string(Tag.BODY_PART_EXAMINED, "SPINE")
                .string(Tag.PATIENT_POSITION, "HFS")
                .string(Tag.FRAME_OF_REFERENCE_UID, facts.frameOfReferenceUid())
                .string(Tag.POSITION_REFERENCE_INDICATOR, "")
                .string(Tag.MANUFACTURER, "Holdfast simulator")
                .string(Tag.MANUFACTURER_MODEL_NAME, "analytic scene, no physics")
                .string(Tag.SOFTWARE_VERSIONS, "1")
                .string(
                        Tag.IMAGE_COMMENTS,
                        String.format(Locale.ROOT, "%s Noise SD %.0f HU.", COMMENT, facts.noiseSdHu()));
    }

    private static void addAcquisition(DataSet.Builder b, VolumeGrid grid, SeriesFacts facts) {
        double field = Math.max(grid.columns() * grid.columnSpacingMm(), grid.rows() * grid.rowSpacingMm());
        PatientVector row = grid.rowDirection();
        PatientVector column = grid.columnDirection();
        b.integers(Tag.ACQUISITION_NUMBER, 1)
                .decimals(Tag.KVP, facts.kvp())
                .string(Tag.CONVOLUTION_KERNEL, facts.kernel())
                .decimals(Tag.SLICE_THICKNESS, Math.rint(1000 * facts.sliceThicknessMm()) / 1000)
                .decimals(Tag.RECONSTRUCTION_DIAMETER, nanometre(field))
                .decimals(Tag.IMAGE_ORIENTATION_PATIENT, row.x(), row.y(), row.z(), column.x(), column.y(), column.z())
                .decimals(Tag.PIXEL_SPACING, grid.rowSpacingMm(), grid.columnSpacingMm());
        if (grid.shearDeg() > SHEAR_TOLERANCE_DEG) {
            b.decimals(Tag.GANTRY_DETECTOR_TILT, Math.rint(100 * grid.shearDeg()) / 100);
        }
    }

    private static void addPixelFormat(DataSet.Builder b, VolumeGrid grid, SeriesFacts facts) {
        b.integers(Tag.SAMPLES_PER_PIXEL, 1)
                .string(Tag.PHOTOMETRIC_INTERPRETATION, "MONOCHROME2")
                .integers(Tag.ROWS, grid.rows())
                .integers(Tag.COLUMNS, grid.columns())
                .integers(Tag.BITS_ALLOCATED, 16)
                .integers(Tag.BITS_STORED, facts.scale().format().bitsStored())
                .integers(Tag.HIGH_BIT, facts.scale().format().bitsStored() - 1)
                .integers(Tag.PIXEL_REPRESENTATION, 0)
                .decimals(Tag.RESCALE_INTERCEPT, facts.scale().rescale().intercept())
                .decimals(Tag.RESCALE_SLOPE, facts.scale().rescale().slope())
                .string(Tag.RESCALE_TYPE, "HU")
                .decimals(Tag.WINDOW_CENTER, 500)
                .decimals(Tag.WINDOW_WIDTH, 2500)
                .string(Tag.BURNED_IN_ANNOTATION, "NO")
                .string(Tag.LOSSY_IMAGE_COMPRESSION, "00");
    }

    /** Positions in steps of a nanometre: enough, and they read as written. */
    private static double nanometre(double mm) {
        return Math.rint(1e6 * mm) / 1e6;
    }
}
