package org.holdfast.volume;

/**
 * Where the pixels of a picture lie on a radiograph: picture pixel (x, y) has its centre at column {@code originColumn + x ·
 * columnsPerPixel}, row {@code originRow + y · rowsPerPixel}; a film pixel's centre has whole numbers. Immutable.
 *
 * @param width pixels of the picture in a row, at least 1
 * @param height rows of the picture, at least 1
 * @param originColumn column under the centre of the picture's first pixel
 * @param originRow row under it
 * @param columnsPerPixel columns that a picture pixel covers, above 0
 * @param rowsPerPixel rows that a picture pixel covers, above 0
 */
public record FilmFrame(
        int width, int height, double originColumn, double originRow, double columnsPerPixel, double rowsPerPixel) {

    public FilmFrame {
        if (width < 1 || height < 1) {
            throw new IllegalArgumentException("a picture needs pixels, got " + width + " × " + height);
        }
        if (!(columnsPerPixel > 0 && rowsPerPixel > 0) || Double.isInfinite(columnsPerPixel * rowsPerPixel)) {
            throw new IllegalArgumentException("a picture pixel must cover a finite part of the film above 0, got "
                    + columnsPerPixel + " columns and " + rowsPerPixel + " rows");
        }
        if (!Double.isFinite(originColumn) || !Double.isFinite(originRow)) {
            throw new IllegalArgumentException(
                    "the origin must be finite, got column " + originColumn + ", row " + originRow);
        }
    }

    /** Column under a place on the picture, pixels from the centre of its first pixel. */
    public double column(double x) {
        return originColumn + x * columnsPerPixel;
    }

    /** Row under a place on the picture. */
    public double row(double y) {
        return originRow + y * rowsPerPixel;
    }
}
