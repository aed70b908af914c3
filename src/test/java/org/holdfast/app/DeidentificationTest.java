package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.CancellationException;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.holdfast.app.Deidentification.Dates;
import org.holdfast.app.Deidentification.Outcome;
import org.holdfast.app.Deidentification.Request;
import org.holdfast.app.Deidentification.RiskyImages;
import org.holdfast.cases.CaseFiles;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomFile;
import org.holdfast.dicom.DicomReader;
import org.holdfast.dicom.DicomWriter;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.TransferSyntax;
import org.holdfast.dicom.Vr;
import org.holdfast.finding.Finding;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** A folder of files, de-identified: what may be read in the new one, and what may not. */
final class DeidentificationTest {

    private static final String SECRET = "SECRET-7731";
    private static final String CT = "1.2.840.10008.5.1.4.1.1.2";
    private static final String CAPTURE = "1.2.840.10008.5.1.4.1.1.7";

    @TempDir
    Path folder;

    @ParameterizedTest
    @EnumSource(Dates.class)
    void nothingOfTheSecretIsInTheNewFolder(Dates dates) throws Exception {
        Path in = Files.createDirectories(folder.resolve("in").resolve(SECRET));
        int number = 0;
        for (TransferSyntax syntax : List.of(
                TransferSyntax.EXPLICIT_LITTLE_ENDIAN,
                TransferSyntax.IMPLICIT_LITTLE_ENDIAN,
                TransferSyntax.EXPLICIT_BIG_ENDIAN,
                TransferSyntax.DEFLATED_EXPLICIT_LITTLE_ENDIAN)) {
            Path file = in.resolve(SECRET + number++ + ".dcm");
            DicomWriter.write(file, secretive(), syntax);
            Files.write(file, withSecretsAround(Files.readAllBytes(file), syntax));
        }
        Files.writeString(in.resolve(SECRET + ".txt"), SECRET);
        Outcome outcome = run(dates, RiskyImages.WRITE);
        assertEquals(4, outcome.report().files().written(), outcome.failures().toString());
        assertEquals(1, outcome.failures().size());
        for (Path file : filesOf(folder.resolve("out"))) {
            assertFalse(folder.resolve("out").relativize(file).toString().contains(SECRET), "a name tells the secret");
            byte[] bytes = Files.readAllBytes(file);
            for (Charset charset :
                    List.of(StandardCharsets.ISO_8859_1, StandardCharsets.UTF_16LE, StandardCharsets.UTF_16BE)) {
                assertFalse(contains(bytes, SECRET.getBytes(charset)), file + " in " + charset);
            }
            assertFalse(contains(bytes, "1.2.3.77".getBytes(StandardCharsets.US_ASCII)), file + " has an old UID");
            assertFalse(contains(bytes, "20040301".getBytes(StandardCharsets.US_ASCII)), file + " has an old date");
            if (file.toString().endsWith(".dcm")
                    && DicomReader.read(file).transferSyntax().deflated()) {
                String inside = DicomReader.read(file).dataSet().describe();
                assertFalse(inside.contains(SECRET) || inside.contains("1.2.3.77"), inside);
            }
        }
    }

    @Test
    void theSecretIsInTheOldFolderWhereverItWasPut() throws Exception {
        byte[] bytes = fileWithSecrets();
        // By hand: preamble, file meta information, behind the pixels, and at least 10 places of the data set.
        int places = 0;
        for (int i = 0; i + SECRET.length() <= bytes.length; i++) {
            if (Arrays.equals(
                    Arrays.copyOfRange(bytes, i, i + SECRET.length()), SECRET.getBytes(StandardCharsets.US_ASCII))) {
                places++;
            }
        }
        assertTrue(places >= 13, "only " + places);
        assertTrue(contains(bytes, SECRET.getBytes(StandardCharsets.UTF_16LE)));
    }

    @Test
    void fileMetaInformationCarriesTheNewUid() throws Exception {
        write("a.dcm", image(CT, "CT", 1).build());
        run(Dates.SHIFTED, RiskyImages.WRITE);
        DicomFile file = DicomReader.read(folder.resolve("out/study-01/series-001/00001.dcm"));
        assertEquals(
                file.dataSet().string(Tag.SOP_INSTANCE_UID), file.meta().string(Tag.MEDIA_STORAGE_SOP_INSTANCE_UID));
        assertTrue(file.dataSet().string(Tag.SOP_INSTANCE_UID).orElseThrow().startsWith("2.25."));
    }

    @Test
    void laterRunsGiveTheSameUidsAndIntervals() throws Exception {
        write("a.dcm", image(CT, "CT", 1).string(Tag.STUDY_DATE, "20040301").build());
        run(Dates.SHIFTED, RiskyImages.WRITE);
        DataSet first = onlyFile(folder.resolve("out"));
        Path later = Files.createDirectories(folder.resolve("later"));
        DicomWriter.write(
                later.resolve("b.dcm"),
                image(CT, "CT", 2).string(Tag.STUDY_DATE, "20040310").build(),
                TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
        Deidentification.run(
                new Request(
                        later,
                        folder.resolve("out2"),
                        "S-001",
                        Dates.SHIFTED,
                        RiskyImages.WRITE,
                        Optional.of(folder.resolve("key"))),
                Progress.NONE);
        DataSet second = onlyFile(folder.resolve("out2"));
        for (int tag : new int[] {Tag.STUDY_INSTANCE_UID, Tag.SERIES_INSTANCE_UID, Tag.FRAME_OF_REFERENCE_UID}) {
            assertEquals(first.string(tag), second.string(tag));
        }
        // By hand: 10 March less 1 March.
        assertEquals(9, day(second) - day(first));
    }

    @Test
    void pixelsAndGeometryAreThoseOfBefore() throws Exception {
        DataSet image = image(CT, "CT", 1).build();
        write("a.dcm", image);
        run(Dates.SHIFTED, RiskyImages.WRITE);
        DataSet out = DicomReader.read(folder.resolve("out/study-01/series-001/00001.dcm"))
                .withPixels();
        assertArrayEquals(
                image.bytes(Tag.PIXEL_DATA).orElseThrow(),
                out.bytes(Tag.PIXEL_DATA).orElseThrow());
        assertEquals(image.strings(Tag.PIXEL_SPACING), out.strings(Tag.PIXEL_SPACING));
    }

    @Test
    void whatMayShowTextIsToldOrLeftOut() throws Exception {
        write("a.dcm", image(CT, "CT", 1).build());
        write("b.dcm", image(CAPTURE, "OT", 2).build());
        write(
                "c.dcm",
                image(CT, "CT", 3).string(Tag.BURNED_IN_ANNOTATION, "YES").build());
        write(
                "d.dcm",
                image(CAPTURE, "OT", 4).string(Tag.BURNED_IN_ANNOTATION, "NO").build());
        DeidentificationReport written = run(Dates.SHIFTED, RiskyImages.WRITE).report();
        assertEquals(4, written.files().written());
        assertEquals(2, written.filesToLookAt().size());
        assertEquals(
                2, codes(written).stream().filter("BURNED_IN_TEXT_RISK"::equals).count());
        clear(folder.resolve("out"));
        DeidentificationReport left = run(Dates.SHIFTED, RiskyImages.LEAVE_OUT).report();
        assertEquals(2, left.files().written());
        assertEquals(2, left.files().leftOut());
    }

    @Test
    void aDamagedFileIsToldAndTheRestIsWritten() throws Exception {
        write("a.dcm", image(CT, "CT", 1).build());
        write("b.dcm", image(CT, "CT", 2).build());
        Path damaged = folder.resolve("in/b.dcm");
        byte[] bytes = Files.readAllBytes(damaged);
        Files.write(damaged, Arrays.copyOf(bytes, bytes.length - 3));
        Outcome outcome = run(Dates.SHIFTED, RiskyImages.WRITE);
        assertEquals(1, outcome.report().files().written());
        assertEquals(
                List.of(damaged), outcome.failures().stream().map(f -> f.path()).toList());
        assertTrue(codes(outcome.report()).contains("NOT_WRITTEN"));
        assertFalse(filesOf(folder.resolve("out")).stream()
                .anyMatch(file -> file.toString().endsWith(".part")));
    }

    @Test
    void severalPatientsUnderOneCodeAreTold() throws Exception {
        write("a.dcm", image(CT, "CT", 1).string(Tag.PATIENT_ID, "A").build());
        write("b.dcm", image(CT, "CT", 2).string(Tag.PATIENT_ID, "B").build());
        assertTrue(codes(run(Dates.SHIFTED, RiskyImages.WRITE).report()).contains("SEVERAL_PATIENTS"));
    }

    @Test
    void documentsInsideObjectsAreLeftOut() throws Exception {
        write(
                "a.dcm",
                image("1.2.840.10008.5.1.4.1.1.104.1", "DOC", 1)
                        .bytes(0x00420011, Vr.OB, SECRET.getBytes(StandardCharsets.US_ASCII))
                        .build());
        DeidentificationReport report = run(Dates.SHIFTED, RiskyImages.WRITE).report();
        assertEquals(0, report.files().written());
        assertEquals(1, report.files().leftOut());
    }

    @Test
    void theOldFolderIsNotChanged() throws Exception {
        write("a.dcm", image(CT, "CT", 1).build());
        Map<Path, byte[]> before = contents(folder.resolve("in"));
        run(Dates.SHIFTED, RiskyImages.WRITE);
        Map<Path, byte[]> after = contents(folder.resolve("in"));
        assertEquals(before.keySet(), after.keySet());
        before.forEach((path, bytes) -> assertArrayEquals(bytes, after.get(path)));
    }

    @Test
    void foldersThatWouldMixOldAndNewAreRefused() throws Exception {
        write("a.dcm", image(CT, "CT", 1).build());
        Path in = folder.resolve("in");
        for (Path out : List.of(in, in.resolve("new"), folder.resolve("in/../in/new"))) {
            assertThrows(
                    UseCaseException.class, () -> Deidentification.run(request(out, Dates.SHIFTED), Progress.NONE));
        }
        Path full = Files.createDirectories(folder.resolve("full"));
        Files.writeString(full.resolve("x"), "x");
        UseCaseException refused = assertThrows(
                UseCaseException.class, () -> Deidentification.run(request(full, Dates.SHIFTED), Progress.NONE));
        assertTrue(refused.getMessage().contains("not empty"), refused.getMessage());
        assertEquals(List.of(in.resolve("a.dcm")), filesOf(in));
    }

    @Test
    void theKeyIsMadeForItsOwnerAndRefusedIfItIsNone() throws Exception {
        write("a.dcm", image(CT, "CT", 1).build());
        Outcome outcome = run(Dates.SHIFTED, RiskyImages.WRITE);
        assertTrue(outcome.keyIsNew());
        // By hand: 256 bits.
        assertEquals(32, Files.size(folder.resolve("key")));
        if (folder.getFileSystem().supportedFileAttributeViews().contains("posix")) {
            assertEquals(
                    "rw-------", PosixFilePermissions.toString(Files.getPosixFilePermissions(folder.resolve("key"))));
        }
        Files.writeString(folder.resolve("key"), "short");
        clear(folder.resolve("out"));
        assertThrows(UseCaseException.class, () -> run(Dates.SHIFTED, RiskyImages.WRITE));
    }

    @Test
    void stopsWhenAskedTo() throws Exception {
        write("a.dcm", image(CT, "CT", 1).build());
        Progress cancelled = new Progress() {
            @Override
            public void report(double fraction, String activity) {}

            @Override
            public boolean isCancelled() {
                return true;
            }
        };
        assertThrows(
                CancellationException.class,
                () -> Deidentification.run(request(folder.resolve("out"), Dates.SHIFTED), cancelled));
        assertFalse(Files.exists(folder.resolve("out/deidentification.json")));
    }

    @Test
    void theTableSaysTheSameInBothForms() throws Exception {
        Locale before = Locale.getDefault();
        Locale.setDefault(Locale.GERMANY);
        try {
            write(
                    "a.dcm",
                    image(CT, "CT", 1).string(Tag.SERIES_DESCRIPTION, SECRET).build());
            run(Dates.SHIFTED, RiskyImages.WRITE);
        } finally {
            Locale.setDefault(before);
        }
        JsonNode document = new ObjectMapper()
                .readTree(folder.resolve("out/deidentification.json").toFile());
        assertEquals(Caution.TEXT, document.get("caution").asText());
        assertEquals(1, document.get("formatVersion").asInt());
        assertTrue(document.get("limits").toString().contains("burned into"));
        String table = Files.readString(folder.resolve("out/deidentification.csv"));
        List<CSVRecord> rows = CSVParser.parse(table, CSVFormat.RFC4180).getRecords();
        assertEquals(
                1 + document.get("attributes").size() + document.get("limits").size(), rows.size());
        assertTrue(table.contains("\"(0008,103E)\",SeriesDescription,removed,1,1,"), table);
        assertTrue(table.contains("\"(0010,0010)\",PatientName,replaced by the subject's code,1,1,"), table);
        rows.stream().skip(1).forEach(row -> assertEquals(Caution.TEXT, row.get(6)));
    }

    @Test
    void caseFilesAreAllWrittenOrToldWithoutTheirUids() throws Exception {
        Path cases = CaseFiles.folder();
        Outcome outcome = Deidentification.run(
                new Request(
                        cases,
                        folder.resolve("out"),
                        "CASES",
                        Dates.SHIFTED,
                        RiskyImages.WRITE,
                        Optional.of(folder.resolve("key"))),
                Progress.NONE);
        DeidentificationReport.Files files = outcome.report().files();
        assertEquals(files.found(), files.written() + files.leftOut() + files.directories() + files.notWritten());
        assertTrue(files.written() > 150, files.toString());
        String written = contents(folder.resolve("out")).values().stream()
                .map(bytes -> new String(bytes, StandardCharsets.ISO_8859_1))
                .reduce("", String::concat);
        for (String name : List.of("B_ct_single/CT-MONO2-16-ankle", "G_parser/CT_small.dcm", "F_sr_seg/liver.dcm")) {
            Path path = cases.resolve(name);
            if (Files.exists(path)) {
                DataSet old = DicomReader.read(path).dataSet();
                for (int tag : new int[] {Tag.SOP_INSTANCE_UID, Tag.SERIES_INSTANCE_UID, Tag.PATIENT_NAME}) {
                    old.string(tag).ifPresent(value -> assertFalse(written.contains(value), name + " " + value));
                }
            }
        }
    }

    @Test
    void copiesAreMeasuredAsTheirOriginals() throws Exception {
        for (String series : List.of("A_series", "B_ct_single", "D_enhanced_ct")) {
            Path out = folder.resolve("out-" + series);
            Deidentification.run(
                    new Request(
                            CaseFiles.path(series),
                            out,
                            "CASES",
                            Dates.SHIFTED,
                            RiskyImages.WRITE,
                            Optional.of(folder.resolve("key"))),
                    Progress.NONE);
            List<String> before = stacks(CaseFiles.path(series));
            assertFalse(before.isEmpty());
            assertEquals(before, stacks(out), series);
        }
    }

    /** Geometry and HU of all stacks of a folder, in an order that does not depend on UIDs. */
    private static List<String> stacks(Path folder) {
        return Inspection.inspect(List.of(folder), Inspection.Detail.SERIES, Progress.NONE).series().stream()
                .flatMap(series -> series.stacks().stream())
                .map(InspectionReport.StackEntry::toString)
                .sorted()
                .toList();
    }

    private Outcome run(Dates dates, RiskyImages risky) throws UseCaseException {
        return Deidentification.run(
                new Request(
                        folder.resolve("in"),
                        folder.resolve("out"),
                        "S-001",
                        dates,
                        risky,
                        Optional.of(folder.resolve("key"))),
                Progress.NONE);
    }

    private Request request(Path out, Dates dates) {
        return new Request(
                folder.resolve("in"), out, "S-001", dates, RiskyImages.WRITE, Optional.of(folder.resolve("key")));
    }

    private void write(String name, DataSet data) throws IOException {
        Path file = folder.resolve("in").resolve(name);
        Files.createDirectories(file.getParent());
        DicomWriter.write(file, data, TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
    }

    private static DataSet.Builder image(String sopClass, String modality, int number) {
        return DataSet.builder()
                .string(Tag.SOP_CLASS_UID, sopClass)
                .string(Tag.SOP_INSTANCE_UID, "1.2.3.77." + number)
                .string(Tag.STUDY_INSTANCE_UID, "1.2.3.77")
                .string(Tag.SERIES_INSTANCE_UID, "1.2.3.77.0")
                .string(Tag.FRAME_OF_REFERENCE_UID, "1.2.3.77.9")
                .string(Tag.MODALITY, modality)
                .string(Tag.PATIENT_ID, "77")
                .integers(Tag.INSTANCE_NUMBER, number)
                .integers(Tag.SAMPLES_PER_PIXEL, 1)
                .string(Tag.PHOTOMETRIC_INTERPRETATION, "MONOCHROME2")
                .decimals(Tag.PIXEL_SPACING, 0.7, 0.5)
                .integers(Tag.ROWS, 2)
                .integers(Tag.COLUMNS, 2)
                .integers(Tag.BITS_ALLOCATED, 16)
                .integers(Tag.PIXEL_REPRESENTATION, 1)
                .words(Tag.PIXEL_DATA, new short[] {1, -2, 300, Short.MIN_VALUE});
    }

    /** An image with the secret wherever a data set can hold one. */
    private static DataSet secretive() {
        byte[] ascii = (SECRET + " ").getBytes(StandardCharsets.US_ASCII);
        DataSet deepest = DataSet.builder()
                .string(0x00090010, Vr.LO, SECRET)
                .string(0x00091001, Vr.UT, SECRET)
                .string(Tag.PATIENT_NAME, SECRET)
                .string(Tag.REFERENCED_SOP_INSTANCE_UID, "1.2.3.77.5")
                .string(Tag.IMAGE_COMMENTS, SECRET)
                .build();
        DataSet middle = DataSet.builder()
                .items(Tag.SOURCE_IMAGE_SEQUENCE, List.of(deepest))
                .bytes(0x00189999, Vr.UN, ascii)
                .build();
        return image(CT, "CT", 1)
                .string(Tag.SPECIFIC_CHARACTER_SET, "ISO_IR 192")
                .string(Tag.PATIENT_NAME, SECRET + "^Jäger=山田^" + SECRET)
                .string(Tag.STUDY_DATE, "20040301")
                .string(Tag.PATIENT_BIRTH_DATE, "20040301")
                .string(Tag.STUDY_DESCRIPTION, SECRET)
                .bytes(Tag.SERIES_DESCRIPTION, Vr.LO, SECRET.getBytes(StandardCharsets.UTF_16LE))
                .bytes(Tag.PATIENT_COMMENTS, Vr.LT, SECRET.getBytes(StandardCharsets.UTF_16BE))
                .bytes(Tag.KVP, Vr.DS, ascii)
                .bytes(Tag.SLICE_THICKNESS, Vr.LO, ascii)
                .items(Tag.SHARED_FUNCTIONAL_GROUPS_SEQUENCE, List.of(middle))
                .items(Tag.ICON_IMAGE_SEQUENCE, List.of(deepest))
                .bytes(0x60003000, Vr.OW, ascii)
                .string(0x60001500, Vr.LO, SECRET)
                .string(0x50000022, Vr.LO, SECRET)
                .string(0x00211001, Vr.LO, SECRET)
                .build();
    }

    private byte[] fileWithSecrets() throws IOException {
        Path file = folder.resolve("secretive.dcm");
        DicomWriter.write(file, secretive(), TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
        return withSecretsAround(Files.readAllBytes(file), TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
    }

    /** Puts the secret into the preamble, into the file meta information, and behind the pixels. */
    private static byte[] withSecretsAround(byte[] file, TransferSyntax syntax) throws IOException {
        // By hand: 128 bytes, DICM, (0002,0000) in 8 + 4 bytes; its value counts from byte 144.
        int groupLengthAt = 140;
        int metaFrom = 144;
        ByteBuffer bytes = ByteBuffer.wrap(file).order(ByteOrder.LITTLE_ENDIAN);
        int metaLength = bytes.getInt(groupLengthAt);
        byte[] title = element(0x0002, 0x0016, "AE", SECRET + " ");
        bytes.putInt(groupLengthAt, metaLength + title.length);
        bytes.put(0, SECRET.getBytes(StandardCharsets.US_ASCII));
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.write(file, 0, metaFrom + metaLength);
        out.write(title);
        out.write(file, metaFrom + metaLength, file.length - metaFrom - metaLength);
        if (syntax.explicit() && !syntax.bigEndian() && !syntax.deflated()) {
            out.write(element(0xFFFA, 0xFFFE, "LO", SECRET + " "));
        } else if (!syntax.deflated()) {
            out.write(SECRET.getBytes(StandardCharsets.US_ASCII));
        }
        return out.toByteArray();
    }

    private static byte[] element(int group, int element, String vr, String value) {
        ByteBuffer out = ByteBuffer.allocate(8 + value.length()).order(ByteOrder.LITTLE_ENDIAN);
        out.putShort((short) group).putShort((short) element);
        out.put(vr.getBytes(StandardCharsets.US_ASCII)).putShort((short) value.length());
        return out.put(value.getBytes(StandardCharsets.US_ASCII)).array();
    }

    private static DataSet onlyFile(Path out) throws Exception {
        List<Path> files = filesOf(out).stream()
                .filter(file -> file.toString().endsWith(".dcm"))
                .toList();
        assertEquals(1, files.size());
        return DicomReader.read(files.get(0)).dataSet();
    }

    private static long day(DataSet data) {
        return java.time.LocalDate.parse(
                        data.string(Tag.STUDY_DATE).orElseThrow(), java.time.format.DateTimeFormatter.BASIC_ISO_DATE)
                .toEpochDay();
    }

    private static List<String> codes(DeidentificationReport report) {
        return report.findings().stream().map(Finding::code).toList();
    }

    private static List<Path> filesOf(Path folder) throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            return all.filter(Files::isRegularFile).sorted().toList();
        }
    }

    private static Map<Path, byte[]> contents(Path folder) throws IOException {
        Map<Path, byte[]> out = new TreeMap<>();
        for (Path file : filesOf(folder)) {
            out.put(file, Files.readAllBytes(file));
        }
        return out;
    }

    private static void clear(Path folder) throws IOException {
        List<Path> all;
        try (Stream<Path> walk = Files.walk(folder)) {
            all = new ArrayList<>(walk.sorted().toList());
        }
        for (int i = all.size() - 1; i >= 0; i--) {
            Files.delete(all.get(i));
        }
    }

    private static boolean contains(byte[] bytes, byte[] part) {
        return new String(bytes, StandardCharsets.ISO_8859_1).contains(new String(part, StandardCharsets.ISO_8859_1));
    }
}
