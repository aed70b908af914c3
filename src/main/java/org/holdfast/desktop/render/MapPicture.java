package org.holdfast.desktop.render;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * A drawn map of a part and where things lie on it. Places on it are device pixels from its upper left corner. Immutable.
 *
 * @param picture the pixels
 * @param mmPerPixel side of a pixel, mm
 * @param reference a place of the construct
 * @param referenceX where the reference place lies on the picture
 * @param referenceY where the reference place lies on the picture
 * @param right direction of the picture's right; empty where it runs round the implant
 * @param down direction of the picture's bottom; empty where it runs round the implant
 * @param cells where each reading is drawn
 * @param captions words that lie on it
 */
public record MapPicture(
        Picture picture,
        double mmPerPixel,
        PatientPoint reference,
        double referenceX,
        double referenceY,
        Optional<PatientVector> right,
        Optional<PatientVector> down,
        List<Cell> cells,
        List<Caption> captions) {

    /**
     * Where one reading is drawn.
     *
     * @param words what is said of it
     * @param x middle of its cell
     * @param y middle of its cell
     * @param width width of its cell, pixels
     * @param height height of its cell, pixels
     */
    public record Cell(String words, double x, double y, double width, double height) {

        boolean covers(double atX, double atY) {
            return Math.abs(atX - x) <= width / 2 && Math.abs(atY - y) <= height / 2;
        }
    }

    /**
     * Words on the picture.
     *
     * @param text the words
     * @param x left end, pixels
     * @param y middle, pixels
     */
    public record Caption(String text, double x, double y) {}

    public MapPicture {
        Objects.requireNonNull(picture, "picture");
        Objects.requireNonNull(reference, "reference");
        Objects.requireNonNull(right, "right");
        Objects.requireNonNull(down, "down");
        cells = List.copyOf(cells);
        captions = List.copyOf(captions);
    }

    /** What is said of the reading whose cell lies under a place; empty beside the map. */
    public Optional<String> wordsAt(double x, double y) {
        return cells.stream().filter(cell -> cell.covers(x, y)).findFirst().map(Cell::words);
    }
}
