package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.holdfast.cases.CaseFiles;
import org.holdfast.dicom.CodecImages.Content;
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

    @ParameterizedTest
    @ValueSource(strings = {"CONSTANT", "STEPS", "SLOPES", "NOISE"})
    void colourIsExactInEveryInterleave(Content content) throws Exception {
        PixelLayout layout = CodecImages.colour(37, 61, 3);
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
                    assertEquals(near, nearLosslessError(coded));
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

    private static int nearLosslessError(Path coded) throws Exception {
        byte[] file = Files.readAllBytes(coded);
        PixelSource source = PixelSource.of(DicomReader.read(coded));
        try (var channel = java.nio.channels.FileChannel.open(coded)) {
            byte[] start = EncapsulatedFrames.of(source, channel).start(channel, 0, 200);
            assertTrue(start.length < file.length);
            return JpegLsDecoder.nearLosslessError(start);
        }
    }

    private void assertExact(Path plain, List<List<String>> encoders) throws Exception {
        int[] expected = CodecImages.values(plain);
        long bytes = PixelSource.of(DicomReader.read(plain)).layout().totalBytes();
        for (List<String> encoder : encoders) {
            if (encoder.equals(GDCM_RLE) && bytes % 2 == 1) {
                // gdcm 3.0.21 stops at an assertion where pixel data is filled up to an even length.
                continue;
            }
            Path coded = encode(plain, encoder);
            assertTrue(PixelSource.of(DicomReader.read(coded)).transferSyntax().encapsulated());
            assertArrayEquals(expected, CodecImages.values(coded), encoder.toString());
        }
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
