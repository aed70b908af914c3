package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.holdfast.dicom.DicomWriter.SequenceLength;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** What the writer writes, read by independent toolkits (dcmtk, gdcm, pydicom), and what dcmtk writes, read here. */
@Tag("outside-tool")
class OutsideToolTest {

    @TempDir
    Path folder;

    private record Result(int exitCode, String output) {}

    static Stream<Arguments> syntaxesAndLengths() {
        return DicomWriterTest.syntaxesAndLengths();
    }

    @ParameterizedTest
    @MethodSource("syntaxesAndLengths")
    void dcmtkReadsEveryElement(TransferSyntax syntax, SequenceLength lengths) throws Exception {
        requireTool("dcmdump", "dcmtk");
        Path file = write(syntax, lengths);
        Result dump = run("dcmdump", "+L", "-q", file.toString());
        assertEquals(0, dump.exitCode, dump.output);
        // By hand: the values that DicomWriterTest.everyKindOfValue puts in.
        for (String value : List.of(
                "[ORIGINAL\\PRIMARY\\AXIAL]", "[-12.5\\0.33333333333333\\0.0000001]", "-2000", "[1.2.3.4]", "0.625")) {
            assertTrue(dump.output.contains(value), value + " in " + dump.output);
        }
    }

    @ParameterizedTest
    @MethodSource("syntaxesAndLengths")
    void gdcmReadsTheSamePixels(TransferSyntax syntax, SequenceLength lengths) throws Exception {
        requireTool("gdcmconv", "libgdcm-tools");
        Path file = write(syntax, lengths);
        Path raw = folder.resolve("raw.dcm");
        Result converted = run("gdcmconv", "--raw", "--explicit", file.toString(), raw.toString());
        // gdcm writes explicit big endian input as it is and does not convert deflated data sets to explicit ones.
        assertEquals(0, converted.exitCode, converted.output);
        DicomFile back = DicomReader.read(raw);
        short[] words = new short[12];
        new PixelReader().read(PixelSource.of(back), 0, words);
        short[] expected = new short[12];
        new PixelReader().read(PixelSource.of(DicomReader.read(file)), 0, expected);
        assertEquals(List.of(box(expected)), List.of(box(words)));
    }

    @ParameterizedTest
    @MethodSource("syntaxesAndLengths")
    void pydicomReadsNamesAndPixels(TransferSyntax syntax, SequenceLength lengths) throws Exception {
        requirePydicom();
        Path file = write(syntax, lengths);
        Result read = run(
                "/usr/bin/python3",
                "-c",
                "import sys,pydicom;sys.stdout.reconfigure(encoding='utf-8');d=pydicom.dcmread(sys.argv[1]);"
                        + "print(d.PatientName,int(d.PixelPaddingValue),d.pixel_array.ravel().tolist(),"
                        + "d.file_meta.FileMetaInformationGroupLength>0)",
                file.toString());
        // By hand: DicomWriterTest.WORDS and the name of DicomWriterTest.everyKindOfValue.
        assertEquals(
                "Jäger^Zoë=山田^太郎 -2000 [0, 1, -1, 300, -32768, 32767, 7, -2000, 1024, 5, 6, 8] True",
                read.output.trim());
    }

    @Test
    void readsWhatDcmtkConverts() throws Exception {
        requireTool("dcmconv", "dcmtk");
        Path file = write(TransferSyntax.EXPLICIT_LITTLE_ENDIAN, SequenceLength.DEFINED);
        String expected = withoutPrivate(DicomReader.read(file).withPixels());
        for (List<String> options : List.of(
                List.of("+ti"),
                List.of("+te", "-e"),
                List.of("+tb", "-e"),
                List.of("+td"),
                List.of("+te", "+e", "+g"),
                List.of("-F", "+te"),
                List.of("-F", "+tb"),
                List.of("-F", "+ti"))) {
            Path out = folder.resolve("converted.dcm");
            Result converted =
                    run(Stream.of(Stream.of("dcmconv"), options.stream(), Stream.of(file.toString(), out.toString()))
                            .flatMap(s -> s)
                            .toArray(String[]::new));
            assertEquals(0, converted.exitCode, converted.output);
            assertEquals(expected, withoutPrivate(DicomReader.read(out).withPixels()), options.toString());
        }
    }

    /** dcmtk drops nothing, but an implicit file does not say what a private value is, and +g adds group lengths. */
    private static String withoutPrivate(DataSet d) {
        DataSet.Builder b = d.toBuilder();
        d.tags().stream()
                .filter(tag -> org.holdfast.dicom.Tag.isPrivate(tag) || (tag & 0xFFFF) == 0)
                .forEach(b::remove);
        return b.build()
                .describe()
                .lines()
                .filter(line -> !line.contains(",0000) UL"))
                .toList()
                .toString();
    }

    private Path write(TransferSyntax syntax, SequenceLength lengths) throws IOException {
        Path file = folder.resolve("written.dcm");
        DataSet d = DicomWriterTest.everyKindOfValue().toBuilder()
                .integers(org.holdfast.dicom.Tag.BITS_STORED, 16)
                .integers(org.holdfast.dicom.Tag.HIGH_BIT, 15)
                .integers(org.holdfast.dicom.Tag.SAMPLES_PER_PIXEL, 1)
                .string(org.holdfast.dicom.Tag.PHOTOMETRIC_INTERPRETATION, "MONOCHROME2")
                .build();
        DicomWriter.write(file, d, syntax, lengths);
        return file;
    }

    private static List<Short> box(short[] words) {
        List<Short> boxed = new java.util.ArrayList<>();
        for (short word : words) {
            boxed.add(word);
        }
        return boxed;
    }

    private static void requireTool(String tool, String debianPackage) {
        boolean there = Stream.of("/usr/bin", "/usr/local/bin").anyMatch(dir -> Files.isExecutable(Path.of(dir, tool)));
        Assumptions.assumeTrue(there, "skipped: " + tool + " of " + debianPackage + " is not installed");
    }

    private static void requirePydicom() throws Exception {
        boolean there = Files.isExecutable(Path.of("/usr/bin/python3"))
                && run("/usr/bin/python3", "-c", "import pydicom, numpy").exitCode == 0;
        Assumptions.assumeTrue(there, "skipped: python3-pydicom is not installed");
    }

    private static Result run(String... command) throws IOException, InterruptedException {
        ProcessBuilder builder = new ProcessBuilder(command).redirectErrorStream(true);
        builder.environment().put("LC_ALL", "C.UTF-8");
        Process process = builder.start();
        String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertTrue(process.waitFor(60, TimeUnit.SECONDS));
        return new Result(process.exitValue(), output);
    }
}
