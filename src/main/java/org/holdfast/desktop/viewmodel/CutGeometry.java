package org.holdfast.desktop.viewmodel;

import java.util.Objects;
import org.holdfast.construct.CutAxes;
import org.holdfast.construct.PartFrame;
import org.holdfast.desktop.state.CutLook;
import org.holdfast.desktop.state.CutRow;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.volume.CutPlane;

/**
 * Where the picture of a cut lies, in the construct's space and in an exam's. The same part, row and look give the same
 * place of the part on every exam. Immutable.
 *
 * <p>Picture coordinates are pixels from the left and top edge of the picture: the middle of pixel (0, 0) is at 0.5.
 *
 * @param axes how the cut lies, in the construct's space
 * @param centre place of the picture's middle, in the construct's space
 * @param crossing where the two cuts cross, in the construct's space
 * @param mmPerPixel side of a pixel
 * @param width pixels in a row
 * @param height rows
 * @param referenceToExam moves the construct to where it is in the exam
 */
public record CutGeometry(
        CutAxes axes,
        PatientPoint centre,
        PatientPoint crossing,
        double mmPerPixel,
        int width,
        int height,
        RigidTransform referenceToExam) {

    /** Shown beyond the part on each side in the fitted view, mm. */
    private static final double MARGIN_MM = 7;

    public CutGeometry {
        Objects.requireNonNull(axes, "axes");
        Objects.requireNonNull(centre, "centre");
        Objects.requireNonNull(crossing, "crossing");
        Objects.requireNonNull(referenceToExam, "referenceToExam");
        if (!(mmPerPixel > 0) || width < 1 || height < 1) {
            throw new IllegalArgumentException("a picture of " + width + " × " + height + " pixels of " + mmPerPixel
                    + " mm cannot be: all must be above 0");
        }
    }

    /**
     * The picture of one cut in one cell.
     *
     * @param frame the part's frame
     * @param row which of its cuts
     * @param look what of it, how near
     * @param referenceToExam the exam's pose
     * @param width pixels in a row, at least 1
     * @param height rows, at least 1
     */
    public static CutGeometry of(
            PartFrame frame, CutRow row, CutLook look, RigidTransform referenceToExam, int width, int height) {
        CutAxes axes = row.axes(frame);
        double fitted = fittedMmPerPixel(frame, width, height);
        PatientVector normal = axes.normal();
        double depth = look.crossing().minus(frame.middle()).dot(normal);
        PatientVector pan = look.panMm();
        PatientPoint centre = frame.middle()
                .along(normal, depth)
                .along(axes.right(), pan.dot(axes.right()))
                .along(axes.down(), pan.dot(axes.down()));
        return new CutGeometry(axes, centre, look.crossing(), fitted / look.zoom(), width, height, referenceToExam);
    }

    /** Side of a pixel at which the part with a margin just fills a picture. */
    static double fittedMmPerPixel(PartFrame frame, int width, int height) {
        double acrossMm = 2 * (frame.halfWidthMm() + MARGIN_MM);
        double downMm = 2 * (frame.halfHeightMm() + MARGIN_MM);
        return Math.max(acrossMm / width, downMm / height);
    }

    /** The plane to cut the exam's volume on. */
    public CutPlane plane() {
        PatientVector right = referenceToExam.apply(axes.right());
        PatientVector down = referenceToExam.apply(axes.down());
        return CutPlane.centredOn(referenceToExam.apply(centre), right, down, mmPerPixel, width, height);
    }

    /** Distance of the crossing from the picture's left edge, pixels; may lie outside the picture. */
    public double crossingX() {
        return width / 2.0 + crossing.minus(centre).dot(axes.right()) / mmPerPixel;
    }

    /** Distance of the crossing from the picture's top edge, pixels; may lie outside the picture. */
    public double crossingY() {
        return height / 2.0 + crossing.minus(centre).dot(axes.down()) / mmPerPixel;
    }

    /** The place in the construct's space under a point of the picture. */
    public PatientPoint placeAt(double x, double y) {
        return centre.along(axes.right(), (x - width / 2.0) * mmPerPixel)
                .along(axes.down(), (y - height / 2.0) * mmPerPixel);
    }

    /** What a way on the picture, in pixels, is in the construct's space. */
    public PatientVector wayMm(double dx, double dy) {
        return axes.right().times(dx * mmPerPixel).plus(axes.down().times(dy * mmPerPixel));
    }

    /**
     * The look magnified by a factor so that the place under a point of the picture stays where it is, within the limits
     * of magnification.
     */
    public CutLook zoomedAt(CutLook look, double factor, double x, double y) {
        CutLook limited = look.framed(look.zoom() * factor, look.panMm());
        double shrink = 1 - look.zoom() / limited.zoom();
        return limited.framed(
                limited.zoom(), look.panMm().plus(wayMm((x - width / 2.0) * shrink, (y - height / 2.0) * shrink)));
    }
}
