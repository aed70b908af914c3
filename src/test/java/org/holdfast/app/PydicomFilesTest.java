package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.holdfast.app.InspectionReport.FileEntry;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** The test files that come with pydicom, inspected, against what pydicom decodes of them. */
@Tag("outside-tool")
class PydicomFilesTest {

    /** Colour in subsampled JPEG is interpolated there and repeated here: means differ by this much at the most. */
    private static final double JPEG_MEAN = 0.02;
    /** Means are printed with four decimals. */
    private static final double FOUR_DECIMALS = 5.1e-5;

    private static final String JPEG_BASELINE = "1.2.840.10008.1.2.4.50";
    /** Uncompressed subsampled colour of ultrasound: named as not read. */
    private static final List<String> NOT_READ = List.of("SC_ybr_full_422_uncompressed.dcm");

    private static final String SCRIPT =
            """
            import os, sys, warnings
            warnings.filterwarnings('ignore')
            import pydicom
            root = os.path.join(os.path.dirname(pydicom.__file__), 'data')
            print(root)
            for folder, _, names in os.walk(root):
                for name in names:
                    path = os.path.join(folder, name)
                    try:
                        a = pydicom.dcmread(path, force=True).pixel_array
                    except Exception:
                        continue
                    if a.dtype.kind in 'iu':
                        print('%s\\t%d\\t%d\\t%.4f' % (path, a.min(), a.max(), a.astype(float).mean()))
            """;

    @Test
    void storedValuesAreThoseThatPydicomDecodes() throws Exception {
        List<String> lines = decodedByPydicom();
        InspectionReport report =
                Inspection.inspect(List.of(Path.of(lines.get(0))), Inspection.Detail.FILES, Progress.NONE);
        Map<String, FileEntry> files = new HashMap<>();
        report.series().forEach(series -> series.files().forEach(file -> files.put(file.path(), file)));
        int compared = 0;
        for (String line : lines.subList(1, lines.size())) {
            String[] row = line.split("\t");
            FileEntry file = files.get(row[0]);
            assertNotNull(file, row[0]);
            if (!NOT_READ.contains(Path.of(row[0]).getFileName().toString())) {
                // Computed: pydicom as packaged, pixel_array.min(), max(), mean() of this file
                assertEquals(Long.parseLong(row[1]), file.storedMin(), row[0]);
                assertEquals(Long.parseLong(row[2]), file.storedMax(), row[0]);
                double tolerance = file.transferSyntax().equals(JPEG_BASELINE) ? JPEG_MEAN : FOUR_DECIMALS;
                assertEquals(Double.parseDouble(row[3]), file.storedMean(), tolerance, row[0]);
                compared++;
            }
        }
        assertTrue(compared >= 75, "only " + compared + " files were compared");
    }

    private static List<String> decodedByPydicom() throws Exception {
        boolean there = Files.isExecutable(Path.of("/usr/bin/python3"))
                && new ProcessBuilder("/usr/bin/python3", "-c", "import pydicom, numpy")
                                .start()
                                .waitFor()
                        == 0;
        Assumptions.assumeTrue(there, "skipped: python3-pydicom is not installed");
        Process process = new ProcessBuilder("/usr/bin/python3", "-c", SCRIPT)
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertEquals(0, process.waitFor(), said);
        return said.lines().toList();
    }
}
