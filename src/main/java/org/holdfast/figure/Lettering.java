package org.holdfast.figure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Sets words where their exact width is not known, because a drawing does not know its device's type. */
final class Lettering {

    /** Mean advance of a character of running text, as a share of the size; that of the widest of the usual types. */
    private static final double ADVANCE = 0.58;

    private Lettering() {}

    /** Estimated width of the text, logical pixels; rather too wide than too narrow. */
    static double widthPx(String text, double sizePx) {
        return text.length() * ADVANCE * sizePx;
    }

    /** The paragraph in lines that fit into the given width; a longer word has a line of its own. */
    static List<String> lines(String paragraph, double sizePx, double maximumWidthPx) {
        List<String> lines = new ArrayList<>();
        String line = "";
        for (String word : paragraph.split("\\s+")) {
            String longer = line.isEmpty() ? word : line + " " + word;
            if (line.isEmpty() || widthPx(longer, sizePx) <= maximumWidthPx) {
                line = longer;
            } else {
                lines.add(line);
                line = word;
            }
        }
        lines.add(line);
        return lines;
    }

    /**
     * Rows for words that stand centred at given places, so that none runs into its neighbour: each takes the first row
     * in which it fits.
     *
     * @param centresPx places, rising
     * @param widthsPx widths at these places
     * @return row at each place, from 0
     */
    static int[] rows(double[] centresPx, double[] widthsPx) {
        int[] rows = new int[centresPx.length];
        double[] rightEnds = new double[centresPx.length];
        Arrays.fill(rightEnds, Double.NEGATIVE_INFINITY);
        for (int i = 0; i < centresPx.length; i++) {
            double leftPx = centresPx[i] - widthsPx[i] / 2;
            while (rightEnds[rows[i]] > leftPx) {
                rows[i]++;
            }
            rightEnds[rows[i]] = centresPx[i] + widthsPx[i] / 2;
        }
        return rows;
    }
}
