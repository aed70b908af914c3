package org.holdfast.desktop.viewmodel;

import java.util.OptionalDouble;
import org.holdfast.desktop.state.FilmLook;
import org.holdfast.volume.FilmFacts;
import org.holdfast.volume.FilmFrame;
import org.holdfast.volume.PixelScale;

/**
 * Where a radiograph lies on a picture. Immutable. Fitted, the whole film is seen, in the middle, in its true proportion.
 *
 * @param facts the film
 * @param look how it is looked at
 * @param width pixels of the picture in a row, at least 1
 * @param height rows of the picture, at least 1
 */
public record FilmGeometry(FilmFacts facts, FilmLook look, int width, int height) {

    public FilmGeometry {
        if (width < 1 || height < 1) {
            throw new IllegalArgumentException("a picture needs pixels, got " + width + " × " + height);
        }
    }

    /** Widths of a film pixel to one pixel of the picture. */
    public double unitsPerPixel() {
        double tall = facts.rows() * facts.pixelAspect();
        return Math.max(facts.columns() / (double) width, tall / height) / look.zoom();
    }

    /** Where the pixels of the picture lie on the film. */
    public FilmFrame frame() {
        double columns = unitsPerPixel();
        double rows = columns / facts.pixelAspect();
        double middleColumn = (facts.columns() - 1) / 2.0 + look.panRight();
        double middleRow = (facts.rows() - 1) / 2.0 + look.panDown() / facts.pixelAspect();
        return new FilmFrame(
                width,
                height,
                middleColumn - (width - 1) / 2.0 * columns,
                middleRow - (height - 1) / 2.0 * rows,
                columns,
                rows);
    }

    /** Millimetres, as the film's scale means them, to one pixel of the picture; empty where there is none. */
    public OptionalDouble mmPerPixel() {
        PixelScale scale = facts.scale();
        return scale.kind() == PixelScale.Kind.NONE
                ? OptionalDouble.empty()
                : OptionalDouble.of(unitsPerPixel() * scale.columnMm());
    }

    /** The look magnified by a factor so that what lies under a place of the picture stays there; device pixels. */
    public FilmLook zoomedAt(double factor, double x, double y) {
        FilmLook framed = look.framed(look.zoom() * factor, 0, 0);
        double units = unitsPerPixel();
        double change = units - units * look.zoom() / framed.zoom();
        return look.framed(
                framed.zoom(),
                look.panRight() + (x - width / 2.0) * change,
                look.panDown() + (y - height / 2.0) * change);
    }

    /** The look moved so that the film follows a way of the pointer; device pixels. */
    public FilmLook panned(double dx, double dy) {
        double units = unitsPerPixel();
        return look.framed(look.zoom(), look.panRight() - dx * units, look.panDown() - dy * units);
    }
}
