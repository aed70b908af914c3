package org.holdfast.exchange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.holdfast.measure.Stated;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

final class CourseCsvTest {

    private static final String CAUTION = "For trained clinicians, and \"research\"; not a medical device.";
    private static final CourseCsv CSV = new CourseCsv("holdfast 0.1.0", CAUTION);

    @Test
    void writesAHeaderWithAReasonBesideEveryNumber() {
        List<String> header = List.of(CSV.csv(List.of()).strip().split(","));
        assertEquals(
                List.of("exam", "daysSinceSurgery", "daysSinceSurgeryWhy", "interface", "contactFraction"),
                header.subList(0, 5));
        header.stream()
                .filter(name -> name.endsWith("Why"))
                .forEach(name -> assertEquals(
                        header.indexOf(name) - 1, header.indexOf(name.substring(0, name.length() - 3)), name));
        // By hand: 19 numbers with their reasons, exam, interface, verdict, cause, software, caution.
        assertEquals(44, header.size());
    }

    @Test
    void readsBackAsItWasGiven() throws IOException {
        CSVRecord line = parsed(CSV.csv(List.of(row("12 mo, \"late\"\nscan", Stated.of(0.1 + 0.2)))));
        assertEquals("12 mo, \"late\"\nscan", line.get("exam"));
        assertEquals(0.1 + 0.2, Double.parseDouble(line.get("contactFraction")));
        assertEquals("", line.get("contactFractionWhy"));
        assertEquals("0.65", line.get("contactLow"));
        assertEquals("0.81", line.get("contactAtMinus100Hu"));
        assertEquals("0.71", line.get("contactAtPlus100Hu"));
        assertEquals("answerable", line.get("verdict"));
        assertEquals("holdfast 0.1.0", line.get("software"));
        assertEquals(CAUTION, line.get("caution"));
    }

    @Test
    void leavesTheCellEmptyAndSaysWhyWhereAValueIsNotStated() throws IOException {
        CSVRecord line = parsed(CSV.csv(List.of(row("12 mo", Stated.not("under 50 % assessable")))));
        assertEquals("", line.get("contactFraction"));
        assertEquals("under 50 % assessable", line.get("contactFractionWhy"));
    }

    @Test
    void writesAPointInEveryLocale() {
        Locale before = Locale.getDefault();
        try {
            Locale.setDefault(Locale.GERMANY);
            assertTrue(CSV.csv(List.of(row("a", Stated.of(0.5)))).contains(",0.5,"));
        } finally {
            Locale.setDefault(before);
        }
    }

    @Test
    void writesUtf8(@TempDir Path folder) throws IOException {
        Path file = folder.resolve("course.csv");
        CSV.write(List.of(row("Prüfung ≥ 12", Stated.of(1))), file);
        assertTrue(Files.readString(file, StandardCharsets.UTF_8).contains("Prüfung ≥ 12"));
    }

    @Test
    void refusesAValueThatIsNeitherStatedNorExplained() {
        assertThrows(IllegalArgumentException.class, () -> Stated.of(Double.NaN));
        assertThrows(IllegalArgumentException.class, () -> Stated.not(""));
    }

    private static CSVRecord parsed(String table) throws IOException {
        CSVFormat format = CSVFormat.RFC4180
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get();
        return format.parse(new StringReader(table)).getRecords().get(0);
    }

    private static CourseRow row(String exam, Stated contact) {
        return new CourseRow(
                exam,
                Stated.of(371),
                "Cranial interface",
                contact,
                Stated.of(0.65),
                Stated.of(0.8),
                Stated.of(1.35),
                Stated.of(0.6),
                Stated.of(0.15),
                Stated.of(163),
                Stated.of(120),
                new CourseRow.Sensitivity(Stated.of(0.81), Stated.of(0.79), Stated.of(0.74), Stated.of(0.71)),
                Stated.of(0.012),
                CourseRow.ByFit.not("not fitted"),
                "answerable",
                "",
                Stated.not("not a phantom"));
    }
}
