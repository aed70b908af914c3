package org.holdfast.cli;

import java.util.ArrayList;
import java.util.List;

/** A table of words in columns as wide as their widest cell; a line break in a header makes it two lines high. */
final class TextTable {

    private static final String GAP = "  ";

    private final List<String> header;
    private final List<List<String>> rows = new ArrayList<>();

    TextTable(List<String> header) {
        this.header = List.copyOf(header);
    }

    /** Adds a row with as many cells as the header. */
    void add(List<String> cells) {
        if (cells.size() != header.size()) {
            throw new IllegalArgumentException("a row needs " + header.size() + " cells, got " + cells.size());
        }
        rows.add(List.copyOf(cells));
    }

    /** Header, a rule and the rows. */
    List<String> lines() {
        List<String> upper = header.stream()
                .map(h -> h.contains("\n") ? h.split("\n")[0] : "")
                .toList();
        List<String> lower =
                header.stream().map(h -> h.substring(h.indexOf('\n') + 1)).toList();
        int[] widths = new int[header.size()];
        measure(widths, upper);
        measure(widths, lower);
        rows.forEach(row -> measure(widths, row));
        List<String> lines = new ArrayList<>();
        if (upper.stream().anyMatch(h -> !h.isEmpty())) {
            lines.add(line(widths, upper));
        }
        lines.add(line(widths, lower));
        List<String> rule = new ArrayList<>();
        for (int width : widths) {
            rule.add("-".repeat(width));
        }
        lines.add(line(widths, rule));
        rows.forEach(row -> lines.add(line(widths, row)));
        return lines;
    }

    private static void measure(int[] widths, List<String> cells) {
        for (int n = 0; n < widths.length; n++) {
            widths[n] = Math.max(widths[n], cells.get(n).length());
        }
    }

    private static String line(int[] widths, List<String> cells) {
        StringBuilder line = new StringBuilder();
        for (int n = 0; n < widths.length; n++) {
            String cell = cells.get(n);
            line.append(n == 0 ? "" : GAP).append(cell).append(" ".repeat(widths[n] - cell.length()));
        }
        return line.toString().stripTrailing();
    }
}
