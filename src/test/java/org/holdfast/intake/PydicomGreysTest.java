package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.holdfast.cases.CaseFiles;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomReader;
import org.holdfast.progress.Progress;
import org.holdfast.volume.Radiograph;
import org.holdfast.volume.VoiTransform;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Modality transform and windows against an independent implementation, on files of our own and real ones. */
@Tag("outside-tool")
class PydicomGreysTest {

    private static final Path PYTHON = Path.of("/usr/bin/python3");

    /** Writes the outputs of the modality transform, then of the window that is asked for, scaled to 0…1. */
    private static final String SCRIPT =
            """
            import sys, numpy, pydicom
            from pydicom.pixel_data_handlers.util import apply_modality_lut, apply_voi_lut
            d = pydicom.dcmread(sys.argv[1], force=True)
            if not getattr(d.file_meta, 'TransferSyntaxUID', None):
                d.file_meta.TransferSyntaxUID = pydicom.uid.ImplicitVRLittleEndian
            values = apply_modality_lut(d.pixel_array, d)
            numpy.asarray(values, '<f8').tofile(sys.argv[2] + '/values')
            prefer = sys.argv[3] == 'table'
            grey = apply_voi_lut(values, d, index=0, prefer_lut=prefer)
            if prefer:
                top = 2 ** d.VOILUTSequence[0].LUTDescriptor[2] - 1
                grey = grey / top
            else:
                low, high = 0, 2 ** d.BitsStored - 1
                if 'ModalityLUTSequence' in d:
                    high = 2 ** d.ModalityLUTSequence[0].LUTDescriptor[2] - 1
                elif 'RescaleSlope' in d and 'RescaleIntercept' in d:
                    if d.PixelRepresentation:
                        low, high = -2 ** (d.BitsStored - 1), 2 ** (d.BitsStored - 1) - 1
                    low = low * d.RescaleSlope + d.RescaleIntercept
                    high = high * d.RescaleSlope + d.RescaleIntercept
                grey = (grey - low) / (high - low)
            numpy.asarray(grey, '<f8').tofile(sys.argv[2] + '/greys')
            """;

    @TempDir
    private Path folder;

    @BeforeEach
    void requirePydicom() throws IOException, InterruptedException {
        assumeTrue(Files.isExecutable(PYTHON), "skipped: no /usr/bin/python3");
        assumeTrue(run("-c", "import pydicom, numpy") == 0, "skipped: /usr/bin/python3 has no pydicom");
    }

    private static int run(String... arguments) throws IOException, InterruptedException {
        String[] command = new String[arguments.length + 1];
        command[0] = PYTHON.toString();
        System.arraycopy(arguments, 0, command, 1, arguments.length);
        Process process = new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .start();
        assumeTrue(process.waitFor(120, TimeUnit.SECONDS), "skipped: python3 did not answer within 120 s");
        return process.exitValue();
    }

    private ByteBuffer numbers(String name) throws IOException {
        return ByteBuffer.wrap(Files.readAllBytes(folder.resolve(name))).order(ByteOrder.LITTLE_ENDIAN);
    }

    private void assertAgrees(Path file, String kind) throws Exception {
        Radiograph film = RadiographLoader.load(ImageHeader.of(DicomReader.read(file), file.toString()), Progress.NONE)
                .film();
        VoiTransform window = film.facts().windows().stream()
                .filter(w -> kind.equals("table") == w instanceof VoiTransform.Table)
                .findFirst()
                .orElseThrow();
        // Computed: pydicom 2.3.1, apply_modality_lut and apply_voi_lut, see the script
        assertEquals(0, run("-c", SCRIPT, file.toString(), folder.toString(), kind));
        ByteBuffer values = numbers("values");
        ByteBuffer greys = numbers("greys");
        for (int j = 0; j < film.facts().rows(); j++) {
            for (int i = 0; i < film.facts().columns(); i++) {
                double value = film.value(i, j);
                // Kept as floats: half a unit in the last of 24 bits.
                assertEquals(values.getDouble(), value, Math.abs(value) * 6e-8, file + " " + i + ", " + j);
                assertEquals(greys.getDouble(), window.grey(value), 1e-6, file + " " + i + ", " + j);
            }
        }
    }

    private Path written(DataSet.Builder film) {
        CtFiles.write(folder, "film", film.build());
        return folder.resolve("film");
    }

    @Test
    void windowsOfEachFunction() throws Exception {
        for (String function : List.of("LINEAR", "LINEAR_EXACT", "SIGMOID")) {
            assertAgrees(
                    written(FilmFiles.film("film")
                            .string(org.holdfast.dicom.Tag.WINDOW_CENTER, "450.5")
                            .string(org.holdfast.dicom.Tag.WINDOW_WIDTH, "611")
                            .string(org.holdfast.dicom.Tag.VOI_LUT_FUNCTION, function)
                            .decimals(org.holdfast.dicom.Tag.RESCALE_SLOPE, 0.75)
                            .decimals(org.holdfast.dicom.Tag.RESCALE_INTERCEPT, -20)),
                    "window");
        }
    }

    @Test
    void tablesOfBothSteps() throws Exception {
        int[] modality = new int[900];
        for (int n = 0; n < modality.length; n++) {
            modality[n] = 65_535 - 30 * n;
        }
        DataSet.Builder film = FilmFiles.film("film")
                .items(
                        org.holdfast.dicom.Tag.MODALITY_LUT_SEQUENCE,
                        List.of(FilmFiles.table(900, 150, 16, modality).toBuilder()
                                .string(org.holdfast.dicom.Tag.MODALITY_LUT_TYPE, "US")
                                .build()))
                .items(
                        org.holdfast.dicom.Tag.VOI_LUT_SEQUENCE,
                        List.of(FilmFiles.table(4, 60_000, 12, 5, 700, 2100, 4095)));
        assertAgrees(written(film), "table");
    }

    @Test
    void realFilms() throws Exception {
        for (String file : List.of("6154", "CR-MONO1-10-chest", "dx_image.dcm")) {
            assertAgrees(CaseFiles.path("E_radiograph/" + file), "window");
        }
    }
}
