package org.holdfast.cli;

import java.util.ArrayList;
import java.util.List;

/** Breaks a paragraph into lines for a terminal. */
final class Wrapping {

    private Wrapping() {}

    /**
     * The paragraph with line breaks at spaces, so that no line is longer than {@code columns} unless a single word is.
     *
     * @param columns longest line, in characters, at least 1
     */
    static String wrap(String paragraph, int columns) {
        if (columns < 1) {
            throw new IllegalArgumentException("columns must be at least 1, got " + columns);
        }
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (String word : paragraph.split(" +")) {
            if (line.length() > 0 && line.length() + 1 + word.length() > columns) {
                lines.add(line.toString());
                line.setLength(0);
            }
            if (line.length() > 0) {
                line.append(' ');
            }
            line.append(word);
        }
        lines.add(line.toString());
        return String.join(System.lineSeparator(), lines);
    }

    /**
     * The paragraph behind a lead, wrapped; further lines start under the paragraph's first word.
     *
     * @param lead what stands before the paragraph in its first line, such as "  - "
     * @param columns longest line, in characters, longer than the lead
     */
    static String behind(String lead, String paragraph, int columns) {
        String wrapped = wrap(paragraph, columns - lead.length());
        return lead + wrapped.replace(System.lineSeparator(), System.lineSeparator() + " ".repeat(lead.length()));
    }
}
