package org.holdfast.desktop.render;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.measure.SampleReading;

/**
 * A drawn face-on map and where things lie on it. Places on it are device pixels from its upper left corner. Immutable.
 *
 * @param picture the pixels
 * @param mmPerPixel side of a pixel, mm
 * @param reference a place of the construct
 * @param referenceX where the reference place lies on the picture
 * @param referenceY where the reference place lies on the picture
 * @param right direction of the picture's right; empty where it runs round the implant
 * @param down direction of the picture's bottom; empty where it runs round the implant
 * @param cells where each reading is drawn
 */
public record FaceMapPicture(
        Picture picture,
        double mmPerPixel,
        PatientPoint reference,
        double referenceX,
        double referenceY,
        Optional<PatientVector> right,
        Optional<PatientVector> down,
        List<Cell> cells) {

    /**
     * The place of one reading.
     *
     * @param reading what was read
     * @param x middle of its cell
     * @param y middle of its cell
     * @param side side of its cell, pixels
     */
    public record Cell(SampleReading reading, double x, double y, double side) {

        boolean covers(double atX, double atY) {
            return Math.abs(atX - x) <= side / 2 && Math.abs(atY - y) <= side / 2;
        }
    }

    public FaceMapPicture {
        Objects.requireNonNull(picture, "picture");
        Objects.requireNonNull(reference, "reference");
        Objects.requireNonNull(right, "right");
        Objects.requireNonNull(down, "down");
        cells = List.copyOf(cells);
    }

    /** The reading whose cell lies under a place; empty beside the face. */
    public Optional<SampleReading> readingAt(double x, double y) {
        return cells.stream().filter(cell -> cell.covers(x, y)).findFirst().map(Cell::reading);
    }
}
