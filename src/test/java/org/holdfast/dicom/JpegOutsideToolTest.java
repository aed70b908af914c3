package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What independent toolkits (dcmtk, gdcm, OpenJPEG) compress, decoded here: equal to the values before where nothing is
 * lost, else within one of what they themselves decode. The images: a real CT slice, a simulated one, noise over all 16
 * bits.
 */
@Tag("outside-tool")
class JpegOutsideToolTest {

    private static final long SEED = 20261125;

    private static final Path PYDICOM = Path.of("/usr/lib/python3/dist-packages/pydicom/data/test_files");

    @TempDir
    Path folder;

    @ParameterizedTest
    @ValueSource(
            strings = {
                "+e1",
                "+e1 -ot +fs 1",
                "+el +sv 1",
                "+el +sv 2",
                "+el +sv 3",
                "+el +sv 4",
                "+el +sv 5",
                "+el +sv 6",
                "+el +sv 7"
            })
    void losslessJpegOfDcmtkIsExact(String options) throws Exception {
        for (Path image : images()) {
            assertArrayEquals(valuesOf(image), valuesOf(convert("dcmcjpeg", options, image)), image.toString());
        }
    }

    @Test
    void pointTransformIsDoneBackAsDcmtkDoes() throws Exception {
        for (Path image : images()) {
            Path encoded = convert("dcmcjpeg", "+el +sv 4 +pt 2", image);
            assertArrayEquals(valuesOf(convert("dcmdjpeg", "", encoded)), valuesOf(encoded), image.toString());
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"--jpeg", "--j2k", "--j2k --tile 48,56"})
    void losslessSyntaxesOfGdcmAreExact(String options) throws Exception {
        for (Path image : images()) {
            assertArrayEquals(valuesOf(image), valuesOf(convert("gdcmconv", options, image)), image.toString());
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"--j2k --lossy -q 40", "--j2k --lossy -r 12"})
    void jpeg2000WithLossIsWithinOneOfGdcm(String options) throws Exception {
        for (Path image : images()) {
            Path encoded = convert("gdcmconv", options, image);
            // The tolerance of rounding floating-point wavelets.
            assertWithinOne(valuesOf(convert("gdcmconv", "--raw", encoded)), valuesOf(encoded));
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"+eb", "+eb +q 40", "+ee", "+ee +q 98", "+ee +bt +q 60"})
    void sequentialDctIsWithinOneOfDcmtk(String options) throws Exception {
        for (Path image : images()) {
            Path encoded = convert("dcmcjpeg", options, image);
            // The tolerance of rounding inside the transform, which dcmtk does in whole numbers.
            assertWithinOne(valuesOf(convert("dcmdjpeg", "", encoded)), valuesOf(encoded));
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"+ep", "+es"})
    void otherDctProcessesAreNamed(String options) throws Exception {
        Path encoded = convert("dcmcjpeg", options, images().get(0));
        String why = PixelSource.of(DicomReader.read(encoded)).whyUnreadable().orElseThrow();
        assertTrue(
                why.matches("compressed pixels, JPEG .*\\(Process .*1\\.2\\.840\\.10008\\.1\\.2\\.4\\.5[35].*"), why);
    }

    @ParameterizedTest
    @CsvSource({
        "JPEG2000.dcm, gdcmconv",
        "693_J2KI.dcm, gdcmconv",
        "MR_small_jp2klossless.dcm, gdcmconv",
        "JPEG-lossy.dcm, dcmdjpeg",
        "JPGExtended.dcm, dcmdjpeg",
        "SC_rgb_jpeg_gdcm.dcm, dcmdjpeg",
        "SC_rgb_dcmtk_+eb+cr.dcm, dcmdjpeg",
        "SC_rgb_dcmtk_+eb+cy+s4.dcm, dcmdjpeg",
        "SC_rgb_gdcm_KY.dcm, gdcmconv",
        "SC_jpeg_no_color_transform.dcm, dcmdjpeg",
        "SC_rgb_small_odd_jpeg.dcm, dcmdjpeg"
    })
    void publicFilesAreWithinOneOfTheToolkits(String name, String tool) throws Exception {
        Path file = pydicomFile(name);
        String options = tool.equals("gdcmconv") ? "--raw" : "+cn";
        assertWithinOne(valuesOf(convert(tool, options, file)), valuesOf(file));
    }

    @Test
    void delimiterInsideTheDataDoesNotMatter() throws Exception {
        assertArrayEquals(
                valuesOf(pydicomFile("JPEG2000.dcm")),
                valuesOf(pydicomFile("JPEG2000-embedded-sequence-delimiter.dcm")));
    }

    @ParameterizedTest
    @CsvSource({"s, false, ''", "s, true, ''", "u, false, ''", "u, true, ''", "s, true, '-t 40,40 -n 3'"})
    void openJpegIsExactWhateverTheHeaderSays(String sign, boolean headerIsSigned, String options) throws Exception {
        requireTool("opj_compress");
        int side = 100;
        ByteBuffer raw = ByteBuffer.allocate(2 * side * side).order(ByteOrder.LITTLE_ENDIAN);
        int[] expected = new int[side * side];
        for (int i = 0; i < expected.length; i++) {
            int value = i % side * 331 + i / side * 97 + i * i % 61;
            raw.putShort((short) value);
            // By hand: the codestream's sign wins, else the header's.
            boolean signed = sign.equals("s") || headerIsSigned;
            expected[i] = signed ? (short) value : value & 0xFFFF;
        }
        Files.write(folder.resolve("values.rawl"), raw.array());
        List<String> command = new ArrayList<>(List.of(
                "opj_compress",
                "-i",
                folder.resolve("values.rawl").toString(),
                "-o",
                folder.resolve("values.j2k").toString(),
                "-F",
                side + "," + side + ",1,16," + sign));
        command.addAll(words(options));
        run(command);
        Path file = folder.resolve("values.dcm");
        byte[] stream = Files.readAllBytes(folder.resolve("values.j2k"));
        Files.write(file, EncapsulatedFile.of("1.2.840.10008.1.2.4.90", side, side, 1, headerIsSigned, stream));
        assertArrayEquals(expected, valuesOf(file));
    }

    private List<Path> images() throws Exception {
        List<Path> images = new ArrayList<>();
        images.add(pydicomFile("CT_small.dcm"));
        try (Stream<Path> all = Files.walk(Path.of("sample-images"))) {
            images.add(all.filter(f -> f.toString().endsWith(".dcm"))
                    .sorted()
                    .skip(3)
                    .findFirst()
                    .orElseThrow());
        }
        Path noise = folder.resolve("noise.dcm");
        short[] words = new short[64 * 80];
        Random random = new Random(SEED);
        for (int i = 0; i < words.length; i++) {
            words[i] = (short) random.nextInt(1 << 16);
        }
        DataSet like = DicomReader.read(images.get(0)).dataSet();
        DicomWriter.write(
                noise,
                like.toBuilder()
                        .integers(org.holdfast.dicom.Tag.ROWS, 64)
                        .integers(org.holdfast.dicom.Tag.COLUMNS, 80)
                        .integers(org.holdfast.dicom.Tag.PIXEL_REPRESENTATION, 0)
                        .remove(org.holdfast.dicom.Tag.PIXEL_PADDING_VALUE)
                        .words(org.holdfast.dicom.Tag.PIXEL_DATA, words)
                        .build(),
                TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
        images.add(noise);
        return images;
    }

    private static int[] valuesOf(Path file) throws DicomReadException {
        PixelSource source = PixelSource.of(DicomReader.read(file));
        PixelLayout layout = source.layout();
        short[] words = new short[(int) layout.frameValues()];
        assertEquals(words.length, new PixelReader().read(source, 0, words));
        int unused = Integer.SIZE - layout.bitsStored();
        int[] values = new int[words.length];
        for (int i = 0; i < words.length; i++) {
            values[i] = layout.signed() ? words[i] << unused >> unused : words[i] << unused >>> unused;
        }
        return values;
    }

    private static void assertWithinOne(int[] expected, int[] actual) {
        assertEquals(expected.length, actual.length);
        for (int i = 0; i < expected.length; i++) {
            assertEquals(expected[i], actual[i], 1, "value " + i);
        }
    }

    private Path convert(String tool, String options, Path from) throws Exception {
        requireTool(tool);
        Path to = Files.createTempFile(folder, "converted", ".dcm");
        List<String> command = new ArrayList<>(List.of(tool));
        command.addAll(words(options));
        command.add(from.toString());
        command.add(to.toString());
        run(command);
        return to;
    }

    private static List<String> words(String options) {
        return options.isBlank() ? List.of() : List.of(options.trim().split(" "));
    }

    private static void run(List<String> command) throws IOException, InterruptedException {
        Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
        String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertTrue(process.waitFor(60, TimeUnit.SECONDS));
        assertEquals(0, process.exitValue(), command + ": " + output);
    }

    private static Path pydicomFile(String name) {
        Path file = PYDICOM.resolve(name);
        Assumptions.assumeTrue(Files.exists(file), "skipped: python3-pydicom with its test files is not installed");
        return file;
    }

    private static void requireTool(String tool) {
        String debianPackage =
                tool.startsWith("opj") ? "libopenjp2-tools" : tool.startsWith("gdcm") ? "libgdcm-tools" : "dcmtk";
        Assumptions.assumeTrue(
                Files.isExecutable(Path.of("/usr/bin", tool)),
                "skipped: " + tool + " of " + debianPackage + " is not installed");
    }
}
