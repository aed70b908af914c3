package org.holdfast.architecture;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.holdfast.documentation.Page;
import org.junit.jupiter.api.Test;

final class PackageTableTest {

    @Test
    void isTheTableOfTheDeveloperGuide() throws IOException {
        PackageTable table = PackageTable.ofHoldfast();
        Map<String, Set<String>> expected = new LinkedHashMap<>();
        for (String row : table.rows()) {
            if (!row.equals(PackageTable.ENTRY_POINT)) {
                expected.put(row, new TreeSet<>(table.mayUse(row)));
            }
        }
        Map<String, Set<String>> written = written();
        assertEquals(new ArrayList<>(expected.keySet()), new ArrayList<>(written.keySet()));
        assertEquals(expected, written);
    }

    private static Map<String, Set<String>> written() throws IOException {
        Map<String, Set<String>> written = new LinkedHashMap<>();
        for (List<String> cells : Page.at("DEVELOPERS.md").tableRowsThatBeginWithCode()) {
            if (PackageTable.ofHoldfast().packages().contains(cells.get(0))) {
                written.put(cells.get(0), used(cells.size() > 2 ? cells.get(2) : "", written.keySet()));
            }
        }
        return written;
    }

    private static Set<String> used(String words, Set<String> above) {
        if (words.startsWith("all above")) {
            Set<String> used = new TreeSet<>(above);
            used.remove(words.replaceFirst("all above( but )?", ""));
            return used;
        }
        return words.isEmpty() ? new TreeSet<>() : new TreeSet<>(Arrays.asList(words.split(", ")));
    }
}
