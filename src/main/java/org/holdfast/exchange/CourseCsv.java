package org.holdfast.exchange;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.Function;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.holdfast.measure.Stated;

/**
 * Writes the contact course as a table: RFC 4180, UTF-8, a header, a line for each interface and exam. Every line names
 * the software and carries the caution, so that neither is lost when lines are sorted, filtered or joined. Immutable.
 *
 * <p>Columns of numbers come in pairs: the number, and {@code …Why}, filled exactly where the number is not stated.
 */
public final class CourseCsv {

    private static final List<Column> COLUMNS = List.of(
            text("exam", CourseRow::exam),
            number("daysSinceSurgery", CourseRow::daysSinceSurgery),
            text("interface", CourseRow::boneInterface),
            number("contactFraction", CourseRow::contactFraction),
            number("contactLow", CourseRow::contactLow),
            number("contactHigh", CourseRow::contactHigh),
            number("smallestVisibleGapMm", CourseRow::smallestVisibleGapMm),
            number("bridgedFraction", CourseRow::bridgedFraction),
            number("notAssessableFraction", CourseRow::notAssessableFraction),
            number("boneHu", CourseRow::boneHu),
            number("hostHu", CourseRow::hostHu),
            number("contactAtMinus100Hu", row -> row.sensitivity().minus100Hu()),
            number("contactAtMinus50Hu", row -> row.sensitivity().minus50Hu()),
            number("contactAtPlus50Hu", row -> row.sensitivity().plus50Hu()),
            number("contactAtPlus100Hu", row -> row.sensitivity().plus100Hu()),
            number("jitterSd", CourseRow::jitterSd),
            number("contactByFit", row -> row.byFit().fraction()),
            number("contactByFitLow", row -> row.byFit().low()),
            number("contactByFitHigh", row -> row.byFit().high()),
            number("smallestVisibleGapByFitMm", row -> row.byFit().smallestVisibleGapMm()),
            text("verdict", CourseRow::verdict),
            text("cause", CourseRow::cause),
            number("truthFraction", CourseRow::truthFraction));

    private final String software;
    private final String caution;

    /**
     * @param software name and version of the software that measured
     * @param caution the standing text
     */
    public CourseCsv(String software, String caution) {
        this.software = Objects.requireNonNull(software, "software");
        this.caution = Objects.requireNonNull(caution, "caution");
    }

    /** Writes the rows to a file, over what is there. */
    public void write(List<CourseRow> rows, Path file) throws IOException {
        Files.writeString(file, csv(rows), StandardCharsets.UTF_8);
    }

    /** The table as text. */
    public String csv(List<CourseRow> rows) {
        StringBuilder table = new StringBuilder();
        try (CSVPrinter printer = new CSVPrinter(table, CSVFormat.RFC4180)) {
            printer.printRecord(header());
            for (CourseRow row : rows) {
                printer.printRecord(cells(row));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e); // a StringBuilder does not fail
        }
        return table.toString();
    }

    private static List<String> header() {
        List<String> names = new ArrayList<>();
        COLUMNS.forEach(column -> names.addAll(column.names()));
        names.addAll(List.of("software", "caution"));
        return names;
    }

    private List<String> cells(CourseRow row) {
        List<String> cells = new ArrayList<>();
        COLUMNS.forEach(column -> cells.addAll(column.cells().apply(row)));
        cells.addAll(List.of(software, caution));
        return cells;
    }

    private static Column text(String name, Function<CourseRow, String> value) {
        return new Column(List.of(name), row -> List.of(value.apply(row)));
    }

    private static Column number(String name, Function<CourseRow, Stated> value) {
        return new Column(List.of(name, name + "Why"), row -> {
            Stated stated = value.apply(row);
            String number = stated.value().isPresent() ? digits(stated.value().getAsDouble()) : "";
            return List.of(number, stated.why());
        });
    }

    /** Full precision; a whole number without decimals. */
    private static String digits(double value) {
        return value == Math.rint(value) && Math.abs(value) < 1e9
                ? Long.toString((long) value)
                : Double.toString(value);
    }

    /** One column, or a number with its reason beside it. */
    private record Column(List<String> names, Function<CourseRow, List<String>> cells) {}
}
