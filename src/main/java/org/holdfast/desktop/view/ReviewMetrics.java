package org.holdfast.desktop.view;

/**
 * Sizes of the review's grid, logical pixels. Immutable.
 *
 * @param compact whether the compact set applies
 * @param gutterWidth left column: schematic, names, heads of the rows
 * @param panelWidth panel at the right
 * @param columnWidth an exam's column
 * @param headHeight heads of the columns
 * @param rowHeight a row of the matrix
 * @param rows rows of the matrix that are seen at once
 * @param cutHeight a cut
 * @param mapHeight the face-on map
 * @param numberHeight the number with its bounds
 * @param courseHeight the course
 */
record ReviewMetrics(
        boolean compact,
        double gutterWidth,
        double panelWidth,
        double columnWidth,
        double headHeight,
        double rowHeight,
        int rows,
        double cutHeight,
        double mapHeight,
        double numberHeight,
        double courseHeight) {

    /** Below this width of the window, logical pixels, the compact set applies. */
    static final double COMPACT_BELOW = 1400;

    /** Columns are not made narrower than this. */
    static final double MIN_COLUMN = 150;

    /** More rows of the matrix than this scroll. */
    private static final int MOST_ROWS = 9;

    private static final double LEAST_CUT = 60;
    /** From this height on, what is over goes to map and course too. */
    private static final double TALL_CUT = 260;

    /** The sizes for a width and height of the review, so many exams in sight and parts. */
    static ReviewMetrics of(double width, double height, int columns, int parts, boolean compact) {
        double gutter = compact ? 200 : 300;
        double panel = compact ? 248 : Math.max(338, Math.min(448, width * 0.18));
        double column = Math.floor((width - gutter - panel) / Math.max(1, columns));
        double head = compact ? 35 : 42;
        double row = compact ? 17 : 23;
        int rows = Math.min(MOST_ROWS, parts);
        double map = compact ? 84 : 112;
        double number = compact ? 90 : 98;
        double course = compact ? 158 : 236;
        double over = height - head - rows * row - map - number - course;
        double cut = over / 2;
        if (cut > TALL_CUT) {
            double spare = over - 2 * TALL_CUT;
            cut = TALL_CUT + 0.3 * spare;
            map += 0.2 * spare;
            course += 0.2 * spare;
        }
        return new ReviewMetrics(
                compact,
                gutter,
                panel,
                column,
                head,
                row,
                rows,
                Math.floor(Math.max(LEAST_CUT, cut)),
                Math.floor(map),
                number,
                Math.floor(course));
    }

    /** How many columns fit without getting too narrow. */
    static int columnsIn(double width, boolean compact) {
        double left = width - (compact ? 200 : 300) - (compact ? 248 : Math.max(338, Math.min(448, width * 0.18)));
        return Math.max(1, (int) (left / MIN_COLUMN));
    }

    /** Top of the matrix. */
    double matrixTop() {
        return headHeight;
    }

    /** Top of the first cut. */
    double cutTop(int cut) {
        return headHeight + rows * rowHeight + cut * cutHeight;
    }

    /** Top of the maps. */
    double mapTop() {
        return cutTop(2);
    }

    /** Top of the numbers. */
    double numberTop() {
        return mapTop() + mapHeight;
    }

    /** Top of the course. */
    double courseTop() {
        return numberTop() + numberHeight;
    }
}
