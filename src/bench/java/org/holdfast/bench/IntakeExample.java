package org.holdfast.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.holdfast.app.ReviewExam;
import org.holdfast.app.ReviewSubject;
import org.holdfast.app.UseCaseException;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomFile;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.DicomReader;
import org.holdfast.dicom.DicomWriter;
import org.holdfast.dicom.PixelCopy;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.TransferSyntax;
import org.holdfast.dicom.Uid;
import org.holdfast.intake.Intake;
import org.holdfast.intake.Stack;
import org.holdfast.intake.VolumeLoader;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;

/**
 * A folder as a hospital may hand it over, made of the demo subject: bone, soft and artefact-reduced series, thick slices,
 * localizer, radiographs, a dose sheet with text in the picture, an exam without a date and with slices missing, and files
 * that are none. Invented data.
 */
final class IntakeExample {

    private static final String CAPTURE = "1.2.840.10008.5.1.4.1.1.7";
    private static final String X_RAY = "1.2.840.10008.5.1.4.1.1.1.1";

    private final List<ReviewExam> exams;
    private final Path out;

    private IntakeExample(List<ReviewExam> exams, Path out) {
        this.exams = exams;
        this.out = out;
    }

    /** Writes the folder. */
    static void write(Path demo, Path out) throws IOException, UseCaseException, DicomReadException {
        new IntakeExample(ReviewSubject.open(demo).exams(), out).write();
    }

    private void write() throws IOException, DicomReadException {
        series(0, "bone", 0, header -> header);
        series(0, "reduced", 0, IntakeExample::artefactReduced);
        projection(0, "overview", false, IntakeExample::localizer);
        series(1, "soft", 0, header -> header.decimals(Tag.KVP, 100));
        series(1, "thick", 5, header -> header.decimals(Tag.SLICE_THICKNESS, 3.25));
        series(2, "bone", 0, header -> header);
        projection(2, "front", false, header -> film(header, "AP"));
        projection(2, "side", true, header -> film(header, "LL"));
        series(3, "bone", 0, header -> header);
        series(3, "reduced", 0, IntakeExample::artefactReduced);
        doseSheet(3);
        series(4, "bone", 0, IntakeExample::undated);
        Files.writeString(out.resolve("read me.txt"), "Where the discs came from.\n");
        Files.write(out.resolve("IMG0001"), new byte[300]);
        Files.writeString(out.resolve("letter.pdf"), "%PDF-1.4\n");
    }

    /** Copies a series; of every few slices one if {@code each} is above 0, else all but a hole in an undated exam. */
    private void series(int exam, String name, int each, UnaryOperator<DataSet.Builder> change)
            throws IOException, DicomReadException {
        Path folder = Files.createDirectories(out.resolve("disc " + (exam + 1)).resolve(name));
        List<Path> files = filesOf(exam);
        for (int n = 0; n < files.size(); n++) {
            boolean isHole = exam == 4 && n > 96 && n < 113;
            if (isHole || each > 0 && n % each != 0) {
                continue;
            }
            DicomFile file = DicomReader.read(files.get(n));
            DataSet.Builder header = change.apply(file.dataSet().toBuilder()
                    .string(Tag.SERIES_INSTANCE_UID, uid(exam + name))
                    .string(Tag.SOP_INSTANCE_UID, uid(exam + name + n)));
            DicomWriter.write(
                    folder.resolve(String.format(Locale.ROOT, "I%04d", n)), header.build(), PixelCopy.of(file));
        }
    }

    private List<Path> filesOf(int exam) throws IOException {
        try (Stream<Path> all = Files.list(exams.get(exam).folder())) {
            return all.sorted().toList();
        }
    }

    private static DataSet.Builder artefactReduced(DataSet.Builder header) {
        return header.string(Tag.SERIES_DESCRIPTION, "simulated CT, metal artefact reduction");
    }

    private static DataSet.Builder undated(DataSet.Builder header) {
        for (int tag : new int[] {Tag.STUDY_DATE, Tag.SERIES_DATE, Tag.ACQUISITION_DATE, Tag.CONTENT_DATE}) {
            header.string(tag, "");
        }
        return header;
    }

    private static DataSet.Builder localizer(DataSet.Builder header) {
        return header.string(Tag.IMAGE_TYPE, "ORIGINAL", "PRIMARY", "LOCALIZER");
    }

    private static DataSet.Builder film(DataSet.Builder header, String view) {
        return header.string(Tag.SOP_CLASS_UID, X_RAY)
                .string(Tag.MODALITY, "DX")
                .string(Tag.VIEW_POSITION, view)
                .string(Tag.SERIES_DESCRIPTION, "simulated X-ray")
                .remove(Tag.PIXEL_SPACING)
                .remove(Tag.IMAGE_POSITION_PATIENT)
                .remove(Tag.IMAGE_ORIENTATION_PATIENT)
                .remove(Tag.RESCALE_TYPE)
                .decimals(Tag.IMAGER_PIXEL_SPACING, 0.6, 0.47)
                .decimals(Tag.ESTIMATED_RADIOGRAPHIC_MAGNIFICATION, 1.15);
    }

    /** The mean of the HU along the beam, from the front or the side, as one image. */
    private void projection(int exam, String name, boolean isFromSide, UnaryOperator<DataSet.Builder> change)
            throws IOException, DicomReadException {
        Stack stack = Intake.scan(List.of(exams.get(exam).folder()), Progress.NONE)
                .series()
                .get(0)
                .stacks()
                .get(0);
        HuVolume volume = VolumeLoader.load(stack, Progress.NONE).volume();
        VolumeGrid grid = volume.grid();
        int columns = isFromSide ? grid.rows() : grid.columns();
        int depth = isFromSide ? grid.columns() : grid.rows();
        short[] words = new short[columns * grid.slices()];
        for (int k = 0; k < grid.slices(); k++) {
            for (int i = 0; i < columns; i++) {
                double sum = 0;
                for (int d = 0; d < depth; d++) {
                    double hu = isFromSide ? volume.hu(d, i, k) : volume.hu(i, d, k);
                    sum += Math.max(0, Math.min(3500, hu) + 900);
                }
                words[(grid.slices() - 1 - k) * columns + i] = (short) Math.min(4095, sum / depth);
            }
        }
        DataSet.Builder header = change.apply(DicomReader.read(filesOf(exam).get(0)).dataSet().toBuilder()
                .string(Tag.SERIES_INSTANCE_UID, uid(exam + name))
                .string(Tag.SOP_INSTANCE_UID, uid(exam + name + "image"))
                .integers(Tag.COLUMNS, columns)
                .integers(Tag.ROWS, grid.slices())
                .remove(Tag.WINDOW_CENTER)
                .remove(Tag.WINDOW_WIDTH)
                .words(Tag.PIXEL_DATA, words));
        write(exam, name, header.build());
    }

    /** A grey capture with lines that stand for words. */
    private void doseSheet(int exam) throws IOException, DicomReadException {
        int columns = 520;
        int rows = 660;
        short[] words = new short[columns * rows];
        for (int line = 0; line < 14; line++) {
            for (int y = 40 + line * 44; y < 54 + line * 44; y++) {
                for (int x = 40; x < 200 + line * 53 % 120; x++) {
                    words[x + columns * y] = 180;
                    words[Math.min(columns - 30, x + 250) + columns * y] = 180;
                }
            }
        }
        DataSet.Builder header = DicomReader.read(filesOf(exam).get(0)).dataSet().toBuilder()
                .string(Tag.SOP_CLASS_UID, CAPTURE)
                .string(Tag.SERIES_INSTANCE_UID, uid(exam + "dose"))
                .string(Tag.SOP_INSTANCE_UID, uid(exam + "dose image"))
                .string(Tag.IMAGE_TYPE, "DERIVED", "SECONDARY", "DOSE_INFO")
                .string(Tag.SERIES_DESCRIPTION, "dose")
                .string(Tag.BURNED_IN_ANNOTATION, "YES")
                .integers(Tag.COLUMNS, columns)
                .integers(Tag.ROWS, rows)
                .remove(Tag.PIXEL_SPACING)
                .remove(Tag.IMAGE_POSITION_PATIENT)
                .remove(Tag.IMAGE_ORIENTATION_PATIENT)
                .words(Tag.PIXEL_DATA, words);
        write(exam, "dose", header.build());
    }

    private void write(int exam, String name, DataSet data) throws IOException {
        Path folder = Files.createDirectories(out.resolve("disc " + (exam + 1)).resolve(name));
        DicomWriter.write(folder.resolve("I0001"), data, TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
    }

    private static String uid(String name) {
        return Uid.fromName("org.holdfast.bench/intake/" + name);
    }
}
