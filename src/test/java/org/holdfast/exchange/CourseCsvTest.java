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
        // By hand: 15 numbers with their reasons, exam, interface, verdict, cause, software, caution.
        assertEquals(36, header.size());
    }

    @Test
    void readsBackAsItWasGiven() throws IOException {
        CSVRecord line = parsed(CSV.csv(List.of(row("12 mo, \"late\"\nscan", Reported.of(0.1 + 0.2)))));
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
        CSVRecord line = parsed(CSV.csv(List.of(row("12 mo", Reported.notStated("under 50 % assessable")))));
        assertEquals("", line.get("contactFraction"));
        assertEquals("under 50 % assessable", line.get("contactFractionWhy"));
    }

    @Test
    void writesAPointInEveryLocale() {
        Locale before = Locale.getDefault();
        try {
            Locale.setDefault(Locale.GERMANY);
            assertTrue(CSV.csv(List.of(row("a", Reported.of(0.5)))).contains(",0.5,"));
        } finally {
            Locale.setDefault(before);
        }
    }

    @Test
    void writesUtf8(@TempDir Path folder) throws IOException {
        Path file = folder.resolve("course.csv");
        CSV.write(List.of(row("Prüfung ≥ 12", Reported.of(1))), file);
        assertTrue(Files.readString(file, StandardCharsets.UTF_8).contains("Prüfung ≥ 12"));
    }

    @Test
    void refusesAValueThatIsNeitherStatedNorExplained() {
        assertThrows(IllegalArgumentException.class, () -> Reported.of(Double.NaN));
        assertThrows(IllegalArgumentException.class, () -> Reported.notStated(" "));
    }

    private static CSVRecord parsed(String table) throws IOException {
        CSVFormat format = CSVFormat.RFC4180
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get();
        return format.parse(new StringReader(table)).getRecords().get(0);
    }

    private static CourseRow row(String exam, Reported contact) {
        return new CourseRow(
                exam,
                Reported.of(371),
                "Cranial interface",
                contact,
                Reported.of(0.65),
                Reported.of(0.8),
                Reported.of(1.35),
                Reported.of(0.6),
                Reported.of(0.15),
                Reported.of(163),
                Reported.of(120),
                new CourseRow.Sensitivity(Reported.of(0.81), Reported.of(0.79), Reported.of(0.74), Reported.of(0.71)),
                Reported.of(0.012),
                "answerable",
                "",
                Reported.notStated("not a phantom"));
    }
}
