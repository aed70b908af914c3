package org.holdfast.cases;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Assumptions;

/**
 * Real DICOM files of public origin, kept outside the project: in the folder that the environment variable
 * {@code HOLDFAST_CASES} names, else in {@code ../shared/dicom-cases}. Where they are absent a test is skipped.
 */
public final class CaseFiles {

    private CaseFiles() {}

    /** The folder; skips the calling test if it is absent. */
    public static Path folder() {
        String named = System.getenv("HOLDFAST_CASES");
        Path folder = named == null ? Path.of("..", "shared", "dicom-cases") : Path.of(named);
        Assumptions.assumeTrue(Files.isDirectory(folder), "skipped: no case files");
        return folder;
    }

    /** One file or folder of it. */
    public static Path path(String relative) {
        return folder().resolve(relative);
    }

    /** Rows of a table of the folder, by the names in its first line. */
    public static List<Map<String, String>> table(String name) throws IOException {
        List<String> lines = Files.readAllLines(path(name));
        String[] names = lines.get(0).split("\t", -1);
        List<Map<String, String>> rows = new ArrayList<>();
        for (String line : lines.subList(1, lines.size())) {
            String[] cells = line.split("\t", -1);
            Map<String, String> row = new LinkedHashMap<>();
            for (int i = 0; i < names.length; i++) {
                row.put(names[i], i < cells.length ? cells[i] : "");
            }
            rows.add(row);
        }
        return rows;
    }
}
