package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalInt;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.holdfast.cases.CaseFiles;
import org.holdfast.dicom.CodecImages.Content;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.phantom.Body;
import org.holdfast.phantom.HalfSpace;
import org.holdfast.phantom.HuScale;
import org.holdfast.phantom.PointSpread;
import org.holdfast.phantom.ScanSettings;
import org.holdfast.phantom.ScanSimulator;
import org.holdfast.phantom.Scene;
import org.holdfast.phantom.SeriesFacts;
import org.holdfast.phantom.SeriesWriter;
import org.holdfast.progress.Progress;
import org.holdfast.volume.VolumeGrid;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What dcmtk and gdcm encode, decoded here: each value as it was, or within the error that was asked for. */
@Tag("outside-tool")
class OutsideEncodersTest {

    private static final List<String> GDCM_RLE = List.of("gdcmconv", "--rle");

    private static final List<List<String>> LOSSLESS = List.of(
            List.of("dcmcrle"),
            List.of("dcmcrle", "+fs", "1"),
            GDCM_RLE,
            List.of("dcmcjpls", "+el"),
            List.of("dcmcjpls", "+el", "-ot", "+fs", "1"),
            List.of("dcmcjpls", "+el", "+t1", "4", "+t2", "9", "+t3", "30", "+rs", "31"),
            List.of("gdcmconv", "--jpegls"));

    @TempDir
    Path folder;

    static Stream<Arguments> greyImages() {
        List<PixelLayout> layouts = List.of(
                CodecImages.grey(37, 61, 8, false),
                CodecImages.grey(40, 64, 12, false),
                CodecImages.grey(33, 57, 16, false),
                CodecImages.grey(37, 61, 16, true),
                CodecImages.grey(38, 60, 12, true),
                CodecImages.grey(38, 60, 4, false),
                CodecImages.grey(31, 41, 15, false),
                CodecImages.grey(5, 7, 10, false));
        return layouts.stream()
                .flatMap(layout -> Arrays.stream(Content.values()).map(content -> Arguments.of(layout, content)));
    }

    @ParameterizedTest
    @MethodSource("greyImages")
    void losslessGreyIsExact(PixelLayout layout, Content content) throws Exception {
        Path plain = CodecImages.write(folder.resolve("plain.dcm"), layout, CodecImages.words(layout, content));
        assertExact(plain, LOSSLESS);
    }

    @Test
    void losslessCtIsExact() throws Exception {
        assertExact(CaseFiles.path("G_parser/CT_small.dcm"), LOSSLESS);
    }

    @Test
    void losslessPhantomIsExact() throws Exception {
        VolumeGrid grid = new VolumeGrid(
                121,
                97,
                0.5,
                0.5,
                PatientVector.LEFT,
                PatientVector.POSTERIOR,
                List.of(new PatientPoint(-30, -24, 0), new PatientPoint(-30, -24, 0.6)));
        HalfSpace bone = new HalfSpace(PatientPoint.ORIGIN, PatientVector.POSTERIOR);
        HalfSpace metal = new HalfSpace(new PatientPoint(3, 4, 0), new PatientVector(0.6, 0.8, 0));
        Scene scene = Scene.of(-1000).with(Body.of("bone", bone, 400)).with(Body.of("metal", metal, 7500));
        for (HuScale scale : HuScale.values()) {
            ScanSettings settings = new ScanSettings(grid, new PointSpread(0.35, 0.4), 25, 20_240_117, scale);
            SeriesFacts facts = new SeriesFacts(
                    "TEST-02", "study", "CT", LocalDate.of(2024, 3, 14), "SIM BONE 60", 120, 0.9, 25, scale, "codecs");
            SeriesWriter.write(folder, ScanSimulator.scan(scene, settings, Progress.NONE), facts, Progress.NONE);
            assertExact(folder.resolve("slice-0001.dcm"), LOSSLESS);
        }
    }

    @Test
    void severalFramesInSeveralFragmentsAreExact() throws Exception {
        for (int bits : new int[] {8, 16}) {
            PixelLayout one = CodecImages.grey(60, 64, bits, false);
            PixelLayout layout =
                    new PixelLayout(60, 64, 4, 1, one.bitsAllocated(), bits, bits - 1, false, one.photometric());
            for (Content content : Content.values()) {
                Path plain = CodecImages.write(folder.resolve("plain.dcm"), layout, CodecImages.words(layout, content));
                assertExact(
                        plain,
                        List.of(
                                List.of("dcmcrle", "+fs", "1"),
                                List.of("dcmcrle", "-ot", "+fs", "1"),
                                List.of("dcmcjpls", "+el", "+fs", "1"),
                                List.of("dcmcjpls", "+el", "-ot", "+fs", "1"),
                                List.of("gdcmconv", "--jpegls"),
                                GDCM_RLE));
            }
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"CONSTANT", "STEPS", "SLOPES", "NOISE"})
    void colourIsExactInEveryInterleave(Content content) throws Exception {
        PixelLayout layout = CodecImages.colour(38, 61, 3);
        Path plain = CodecImages.write(folder.resolve("plain.dcm"), layout, CodecImages.words(layout, content));
        assertExact(
                plain,
                List.of(
                        List.of("dcmcjpls", "+el", "+il"),
                        List.of("dcmcjpls", "+el", "+is"),
                        List.of("dcmcjpls", "+el", "+in"),
                        List.of("dcmcjpls", "+el", "+pc", "+is"),
                        List.of("gdcmconv", "--jpegls"),
                        List.of("dcmcrle"),
                        GDCM_RLE));
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 3, 20})
    void nearLosslessIsWithinItsError(int near) throws Exception {
        requireTool("dcmcjpls", "dcmtk");
        List<PixelLayout> layouts = List.of(
                CodecImages.grey(37, 61, 8, false),
                CodecImages.grey(40, 64, 12, false),
                CodecImages.grey(33, 57, 16, false),
                CodecImages.colour(37, 61, 3));
        for (PixelLayout layout : layouts) {
            for (Content content : Content.values()) {
                Path plain = CodecImages.write(folder.resolve("plain.dcm"), layout, CodecImages.words(layout, content));
                for (String interleave : layout.samples() == 1 ? List.of("+il") : List.of("+il", "+is", "+in")) {
                    Path coded = encode(plain, List.of("dcmcjpls", "+en", "+md", near + "", interleave));
                    assertEquals(
                            OptionalInt.of(near),
                            PixelSource.of(DicomReader.read(coded)).nearLosslessError());
                    assertTrue(largestDifference(plain, coded) <= near, layout + " " + content + " " + interleave);
                }
            }
        }
    }

    private int largestDifference(Path plain, Path coded) throws DicomReadException {
        int[] original = CodecImages.values(plain);
        int[] decoded = CodecImages.values(coded);
        int largest = 0;
        for (int i = 0; i < original.length; i++) {
            largest = Math.max(largest, Math.abs(original[i] - decoded[i]));
        }
        return largest;
    }

    private void assertExact(Path plain, List<List<String>> encoders) throws Exception {
        int[] expected = CodecImages.values(plain);
        PixelLayout layout = PixelSource.of(DicomReader.read(plain)).layout();
        for (List<String> encoder : encoders) {
            if (stopsAtAssertion(encoder, layout)) {
                continue;
            }
            Path coded = encode(plain, encoder);
            assertTrue(PixelSource.of(DicomReader.read(coded)).transferSyntax().encapsulated());
            assertArrayEquals(expected, CodecImages.values(coded), encoder.toString());
        }
    }

    /** gdcm 3.0.21: no RLE of an odd number of bytes, no JPEG-LS of bytes that are not filled. */
    private static boolean stopsAtAssertion(List<String> encoder, PixelLayout layout) {
        if (!encoder.get(0).equals("gdcmconv")) {
            return false;
        }
        return encoder.equals(GDCM_RLE) ? layout.totalBytes() % 2 == 1 : layout.bitsStored() < 8;
    }

    private Path encode(Path plain, List<String> encoder) throws IOException, InterruptedException {
        requireTool(encoder.get(0), encoder.get(0).equals("gdcmconv") ? "libgdcm-tools" : "dcmtk");
        Path coded = folder.resolve("coded.dcm");
        List<String> command = new ArrayList<>(encoder);
        command.addAll(List.of(plain.toString(), coded.toString()));
        Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
        String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertTrue(process.waitFor(60, TimeUnit.SECONDS));
        assertEquals(0, process.exitValue(), command + ": " + output);
        return coded;
    }

    private static void requireTool(String tool, String debianPackage) {
        boolean there = Stream.of("/usr/bin", "/usr/local/bin").anyMatch(dir -> Files.isExecutable(Path.of(dir, tool)));
        Assumptions.assumeTrue(there, "skipped: " + tool + " of " + debianPackage + " is not installed");
    }
}
