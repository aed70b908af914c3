package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.holdfast.app.Inspection.Detail;
import org.holdfast.app.InspectionReport.FileEntry;
import org.holdfast.app.InspectionReport.HuEntry;
import org.holdfast.app.InspectionReport.SeriesEntry;
import org.holdfast.app.InspectionReport.StackEntry;
import org.holdfast.cases.CaseFiles;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Inspection of real files against the tables beside them, whose numbers were computed with two independent toolkits that
 * agree (MANIFEST.tsv and GEOMETRY.tsv say which for each row).
 */
class InspectionCasesTest {

    private static final Set<String> READ_NOW =
            Set.of("1.2", "1.2.1", "1.2.2", "1.2.1.99", "1.2.4.50", "1.2.4.57", "1.2.4.70", "1.2.4.90", "1.2.4.91");

    /** Means are printed to four decimals. */
    private static final double FOUR_DECIMALS = 5.1e-5;

    private static final Pattern STORED =
            Pattern.compile("^(?:raw|mask to 12 bits:|mask\\+sign-extend:) (-?\\d+)\\.\\.(-?\\d+) mean (-?[\\d.]+)");
    private static final Pattern HU = Pattern.compile("excluding < -1024: n=(\\d+) mean (-?[\\d.]+)");

    /** The table computes a line for these too, but they are not HU: scouts, RescaleType US, a perfusion map. */
    private static final Set<String> NOT_HU = Set.of(
            "A_series/philips_mixed_folder/S1000_I10",
            "A_series/small_24x38x3/IMG0001.dcm",
            "A_series/small_24x38x3/IMG0002.dcm",
            "A_series/small_24x38x3/IMG0003.dcm",
            "A_series/small_24x38x3/mf_mf.dcm",
            "B_ct_single/GH342.dcm",
            "B_ct_single/jpeg_lossless_sel1.dcm",
            "D_enhanced_ct/CT0012.fragmented_no_bot_jpeg_lossless.70.dcm",
            "D_enhanced_ct/CT0012.not_fragmented_bot_jpeg_ls.80.dcm",
            "D_enhanced_ct/eCT_Supplemental.dcm");

    @Test
    void storedValuesEqualTheManifest() throws Exception {
        int compared = 0;
        for (Map<String, String> row : CaseFiles.table("MANIFEST.tsv")) {
            Matcher expected = STORED.matcher(row.get("expected (how)"));
            if (expected.find()) {
                String name = row.get("file");
                FileEntry file =
                        inspect(CaseFiles.path(name)).series().get(0).files().get(0);
                // Source: MANIFEST.tsv, column "expected (how)", this row
                assertEquals(Long.parseLong(expected.group(1)), file.storedMin(), name);
                assertEquals(Long.parseLong(expected.group(2)), file.storedMax(), name);
                assertEquals(Double.parseDouble(expected.group(3)), file.storedMean(), FOUR_DECIMALS, name);
                compared++;
            }
        }
        // By hand: rows of the table that state stored values, in every transfer syntax.
        assertTrue(compared >= 80, "only " + compared + " rows were compared");
    }

    @Test
    void huOfTissueEqualsTheManifest() throws Exception {
        Set<String> without = new TreeSet<>();
        int compared = 0;
        for (Map<String, String> row : CaseFiles.table("MANIFEST.tsv")) {
            Matcher expected = HU.matcher(row.get("expected (how)"));
            if (expected.find()) {
                String name = row.get("file");
                HuEntry hu = huOf(inspect(CaseFiles.path(name)));
                if (hu == null) {
                    without.add(name);
                } else {
                    // Source: MANIFEST.tsv, "excluding < -1024", this row
                    assertEquals(Long.parseLong(expected.group(1)), hu.validVoxels(), name);
                    assertEquals(Double.parseDouble(expected.group(2)), hu.mean(), FOUR_DECIMALS, name);
                    compared++;
                }
            }
        }
        assertEquals(new TreeSet<>(NOT_HU), without);
        assertTrue(compared >= 45, "only " + compared + " rows were compared");
    }

    @Test
    void lossIsSaidWithItsRatio() {
        FileEntry file = inspect(CaseFiles.path("B_ct_single/IM-0001-0001.dcm"))
                .series()
                .get(0)
                .files()
                .get(0);
        // Source: dcmdump: LossyImageCompressionRatio 5.345623, no LossyImageCompressionMethod
        assertEquals(5.345623, file.loss().ratio());
        assertEquals("the files do not say", file.loss().methodWhy());
        assertEquals(1, file.frames());
    }

    @Test
    void stacksEqualTheGeometryTable() throws Exception {
        int compared = 0;
        for (Map<String, String> row : CaseFiles.table("GEOMETRY.tsv")) {
            String folder = row.get("series_folder");
            int slices = Integer.parseInt(row.get("n"));
            double extent = Double.parseDouble(row.get("same (col,row) first->last slice, patient mm"));
            String name = folder + " " + row.get("group(IOP)");
            List<StackEntry> candidates = stacks(folder).stream()
                    .filter(s -> s.slices() == slices && iop(s).equals(iop(row.get("group(IOP)"))))
                    .toList();
            if (extent == 0) {
                // By hand: a scout and four images at one position make no stack.
                assertEquals(List.of(), candidates, name);
                continue;
            }
            // Source: GEOMETRY.tsv, this row; pitches and extents to four decimals, shear to three
            assertTrue(
                    candidates.stream().anyMatch(s -> pitches(s)
                            .equals(row.get("pitches along normal mm (sorted by IPP.normal)"))),
                    name + " has " + candidates.stream().map(s -> pitches(s)).toList());
            assertTrue(candidates.stream().anyMatch(s -> Math.abs(s.firstToLastSamePixelMm() - extent) < 5.1e-5), name);
            double shear = Double.parseDouble(row.get("shear deg (angle of IPP track to normal)"));
            candidates.forEach(s -> assertEquals(shear, s.shearDeg(), 5.1e-4, name));
            compared++;
        }
        assertEquals(10, compared);
    }

    @Test
    void mixedFolderIsThreeStacksAScoutAndACapture() {
        List<SeriesEntry> series =
                inspect(CaseFiles.path("A_series/philips_mixed_folder")).series();
        // Source: oracles for the case files, fault 8: three stacks, a scout, a capture
        assertEquals(3, series.stream().filter(s -> s.kind().equals("volume")).count());
        assertEquals(2, series.stream().filter(s -> s.kind().equals("image")).count());
        assertEquals(3, series.stream().mapToInt(s -> s.stacks().size()).sum());
        assertTrue(
                codes(series).containsAll(Set.of("LOCALIZER", "COLOUR_IMAGE")),
                codes(series).toString());
    }

    @Test
    void fourImagesAtOnePositionAreNoVolume() {
        SeriesEntry series =
                inspect(CaseFiles.path("A_series/same_position_x4")).series().get(0);
        assertEquals(List.of(), series.stacks());
        assertTrue(series.findings().stream()
                .anyMatch(f -> f.text().contains("several images at one position: not a volume")));
    }

    @Test
    void missingSliceIsNamed() {
        SeriesEntry series =
                inspect(CaseFiles.path("A_series/missing_slice_axial")).series().get(0);
        StackEntry stack = series.stacks().get(0);
        // Source: GEOMETRY.tsv: steps of 5, 5 and 10 mm
        assertEquals(List.of(2), stack.holes());
        assertTrue(stack.irregular());
        assertTrue(codes(List.of(series)).contains("MISSING_SLICES"));
    }

    @Test
    void syntaxThatIsNotReadIsNamedAndTheRestGoesOn(@TempDir Path folder) throws Exception {
        for (String name : List.of("IM-0001-0001.dcm", "IM-0001-0002.dcm", "IM-0001-0003.dcm", "CT-MONO2-16-ort.dcm")) {
            String bytes = Files.readString(CaseFiles.path("B_ct_single/" + name), StandardCharsets.ISO_8859_1);
            String other = bytes.replaceFirst("1.2.840.10008.1.2.4.91", "1.2.840.10008.1.2.4.92");
            Files.writeString(folder.resolve(name), other, StandardCharsets.ISO_8859_1);
        }
        InspectionReport report = inspect(folder);
        StackEntry compressed = report.series().stream()
                .flatMap(s -> s.stacks().stream())
                .filter(s -> s.slices() == 3)
                .findFirst()
                .orElseThrow();
        assertNull(compressed.hu());
        assertTrue(
                compressed
                        .huWhy()
                        .contains("compressed pixels, JPEG 2000 Part 2 Multi-component (Lossless Only)"
                                + " (1.2.840.10008.1.2.4.92), are not read by this version"),
                compressed.huWhy());
        assertTrue(report.series().stream().flatMap(s -> s.stacks().stream()).anyMatch(s -> s.hu() != null));
    }

    @Test
    void wholeFolderIsReadWithItsBadFilesListed() {
        InspectionReport report = inspect(CaseFiles.folder());
        List<String> unreadable = report.unreadable().stream()
                .map(u -> Path.of(u.path()).getFileName().toString())
                .sorted()
                .toList();
        // By hand: two tables, a text file, and the file that inflates to 1 GiB.
        assertEquals(List.of("GEOMETRY.tsv", "MANIFEST.tsv", "README", "deflate_bomb_1GiB.dcm"), unreadable);
        assertTrue(report.findings().stream().anyMatch(f -> f.code().equals("DIRECTORY_IGNORED")));
    }

    @Test
    void scaleOfRadiographsIsGivenWithItsKind() {
        // Source: MANIFEST.tsv: no spacing; ImagerPixelSpacing 0.4 only; 1.2 × 1.2012 equal to the detector's
        assertNull(scale("E_radiograph/CR-MONO1-10-chest").rowMm());
        assertEquals("none", scale("E_radiograph/CR-MONO1-10-chest").kind());
        assertEquals(
                "detector",
                scale("E_radiograph/JPEG2KLossless_1s_1f_u_16_16.dcm").kind());
        assertEquals(0.4, scale("E_radiograph/JPEG2KLossless_1s_1f_u_16_16.dcm").rowMm());
        assertEquals(1.2, scale("E_radiograph/dx_image.dcm").rowMm());
        assertEquals(1.201199999999, scale("E_radiograph/dx_image.dcm").columnMm());
    }

    private static InspectionReport.ScaleEntry scale(String name) {
        return inspect(CaseFiles.path(name)).series().get(0).files().get(0).scale();
    }

    private static InspectionReport inspect(Path path) {
        InspectionReport report = Inspection.inspect(List.of(path), Detail.FILES, Progress.NONE);
        assertNotNull(report);
        return report;
    }

    private static HuEntry huOf(InspectionReport report) {
        return report.series().stream()
                .flatMap(s -> s.stacks().stream())
                .map(StackEntry::hu)
                .filter(java.util.Objects::nonNull)
                .findFirst()
                .orElse(null);
    }

    private static List<StackEntry> stacks(String folder) {
        return inspect(CaseFiles.path("A_series/" + folder)).series().stream()
                .flatMap(s -> s.stacks().stream())
                .toList();
    }

    private static Set<String> codes(List<SeriesEntry> series) {
        return series.stream()
                .flatMap(s -> s.findings().stream())
                .map(f -> f.code())
                .collect(Collectors.toSet());
    }

    /** Steps in millimetres with their counts, ascending, in the table's way of writing. */
    private static String pitches(StackEntry s) {
        List<Double> steps = new ArrayList<>();
        IntStream.range(1, s.slices())
                .forEach(k -> steps.add(s.positionsMm().get(k) - s.positionsMm().get(k - 1)));
        Map<String, Long> counts = steps.stream()
                .sorted()
                .collect(Collectors.groupingBy(
                        step -> plain(step), java.util.LinkedHashMap::new, Collectors.counting()));
        return counts.entrySet().stream()
                .map(e -> e.getKey() + " x" + e.getValue())
                .collect(Collectors.joining("; "));
    }

    private static String plain(double value) {
        return new java.math.BigDecimal(value)
                .setScale(4, java.math.RoundingMode.HALF_EVEN)
                .stripTrailingZeros()
                .toPlainString();
    }

    private static List<Long> iop(StackEntry s) {
        return Stream.concat(s.rowDirection().stream(), s.columnDirection().stream())
                .map(c -> Math.round(c * 1000))
                .toList();
    }

    private static List<Long> iop(String written) {
        return Stream.of(written.replaceAll("[() ]", "").split(","))
                .map(c -> Math.round(Double.parseDouble(c) * 1000))
                .toList();
    }
}
