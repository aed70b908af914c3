package org.holdfast.intake;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;
import org.holdfast.volume.PixelScale;
import org.holdfast.volume.PixelScale.Kind;
import org.holdfast.volume.PixelScale.Magnification;

/**
 * Reads from a header what a pixel's size stands for. For a radiograph the first of these that the header has: calibrated on
 * an object, calibrated from the geometry, PixelSpacing that differs from ImagerPixelSpacing, ImagerPixelSpacing over the
 * estimated magnification, ImagerPixelSpacing, NominalScannedPixelSpacing, PixelSpacing alone, none. Sizes that are not two
 * numbers above 0 count as absent. Stateless.
 */
final class PixelSizes {

    /** A larger factor is no magnification of a patient before a detector, but a slip. */
    private static final double MOST_MAGNIFICATION = 5;

    private PixelSizes() {}

    /**
     * The scale of an image.
     *
     * @param isSlice whether its position and orientation say that its pixels lie in the patient
     */
    static PixelScale of(DataSet d, boolean isSlice) {
        Optional<double[]> pixel = spacing(d, Tag.PIXEL_SPACING);
        if (pixel.isPresent() && isSlice) {
            return scale(Kind.PATIENT, pixel.get());
        }
        String type = d.string(Tag.PIXEL_SPACING_CALIBRATION_TYPE).orElse("").toUpperCase(Locale.ROOT);
        if (pixel.isPresent() && (type.equals("FIDUCIAL") || type.equals("GEOMETRY"))) {
            return scale(Kind.valueOf(type), pixel.get());
        }
        Optional<double[]> imager = spacing(d, Tag.IMAGER_PIXEL_SPACING);
        if (imager.isPresent()) {
            return pixel.isPresent() && differ(pixel.get(), imager.get())
                    ? scale(Kind.CALIBRATED, pixel.get())
                    : detector(imager.get(), magnification(d));
        }
        return spacing(d, Tag.NOMINAL_SCANNED_PIXEL_SPACING)
                .map(scanned -> scale(Kind.SCANNED, scanned))
                .or(() -> pixel.map(unsaid -> scale(Kind.UNKNOWN, unsaid)))
                .orElse(PixelScale.NOT_SAID);
    }

    /** The written factor, else detector distance over patient distance; a factor of 1 says that it is not known. */
    private static Optional<Magnification> magnification(DataSet d) {
        OptionalDouble factor = d.decimal(Tag.ESTIMATED_RADIOGRAPHIC_MAGNIFICATION);
        if (factor.isPresent() && isMagnification(factor.getAsDouble())) {
            return Optional.of(new Magnification(factor.getAsDouble(), Magnification.Source.FACTOR));
        }
        double toDetector = d.decimal(Tag.DISTANCE_SOURCE_TO_DETECTOR).orElse(0);
        double toPatient = d.decimal(Tag.DISTANCE_SOURCE_TO_PATIENT).orElse(0);
        double ratio = toPatient > 0 ? toDetector / toPatient : 0;
        return isMagnification(ratio)
                ? Optional.of(new Magnification(ratio, Magnification.Source.DISTANCES))
                : Optional.empty();
    }

    private static boolean isMagnification(double factor) {
        return factor > 1 && factor <= MOST_MAGNIFICATION;
    }

    private static PixelScale detector(double[] imager, Optional<Magnification> by) {
        return by.map(m -> PixelScale.magnified(imager[0], imager[1], m)).orElseGet(() -> scale(Kind.DETECTOR, imager));
    }

    private static boolean differ(double[] pixel, double[] imager) {
        return Math.abs(pixel[0] - imager[0]) > SlicePlane.SPACING_TOLERANCE * imager[0]
                || Math.abs(pixel[1] - imager[1]) > SlicePlane.SPACING_TOLERANCE * imager[1];
    }

    private static PixelScale scale(Kind kind, double[] mm) {
        return PixelScale.of(kind, mm[0], mm[1]);
    }

    private static Optional<double[]> spacing(DataSet d, int tag) {
        double[] values = d.decimals(tag);
        return values.length == 2 && values[0] > 0 && values[1] > 0 ? Optional.of(values) : Optional.empty();
    }
}
