package org.holdfast.intake;

import java.util.Locale;
import java.util.OptionalDouble;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;

/**
 * What a pixel's size in a header means (PS3.3, sections C.7.6.2, 10.7 and C.8.11.7). Immutable.
 *
 * @param kind what the sizes refer to
 * @param rowMm distance between rows, mm; NaN exactly where the kind is {@link Kind#NONE}
 * @param columnMm distance between columns, mm; NaN exactly where the kind is {@link Kind#NONE}
 */
public record PixelScale(Kind kind, double rowMm, double columnMm) {

    /** In falling order of trust for a radiograph; lengths may be measured on the first four only. */
    public enum Kind {
        /** A slice: mm in the patient. */
        PATIENT,
        /** Calibrated on an object of known size in the image. */
        FIDUCIAL,
        /** Calibrated from the device's geometry. */
        GEOMETRY,
        /** Differs from the detector's pixel, so somebody calibrated it, it is not said how. */
        CALIBRATED,
        /** The detector's pixel divided by the estimated magnification: an estimate. */
        MAGNIFIED,
        /** The detector's pixel: larger than in the patient by an unknown magnification. */
        DETECTOR,
        /** Of a scanned film. */
        SCANNED,
        /** Written without saying what it refers to. */
        UNKNOWN,
        /** No usable size: ratios and angles only. */
        NONE
    }

    private static final PixelScale NOT_SAID = new PixelScale(Kind.NONE, Double.NaN, Double.NaN);

    static PixelScale of(DataSet d, boolean isSlice) {
        double[] pixel = spacing(d, Tag.PIXEL_SPACING);
        double[] imager = spacing(d, Tag.IMAGER_PIXEL_SPACING);
        if (pixel != null) {
            return new PixelScale(kindOf(d, pixel, imager, isSlice), pixel[0], pixel[1]);
        }
        if (imager != null) {
            OptionalDouble factor = d.decimal(Tag.ESTIMATED_RADIOGRAPHIC_MAGNIFICATION);
            boolean known = factor.isPresent() && factor.getAsDouble() > 0;
            double by = known ? factor.getAsDouble() : 1;
            return new PixelScale(known ? Kind.MAGNIFIED : Kind.DETECTOR, imager[0] / by, imager[1] / by);
        }
        double[] scanned = spacing(d, Tag.NOMINAL_SCANNED_PIXEL_SPACING);
        return scanned == null ? NOT_SAID : new PixelScale(Kind.SCANNED, scanned[0], scanned[1]);
    }

    private static Kind kindOf(DataSet d, double[] pixel, double[] imager, boolean isSlice) {
        if (isSlice) {
            return Kind.PATIENT;
        }
        String type = d.string(Tag.PIXEL_SPACING_CALIBRATION_TYPE).orElse("").toUpperCase(Locale.ROOT);
        if (type.equals("FIDUCIAL") || type.equals("GEOMETRY")) {
            return Kind.valueOf(type);
        }
        if (imager == null) {
            return Kind.UNKNOWN;
        }
        boolean same = Math.abs(pixel[0] - imager[0]) <= SlicePlane.SPACING_TOLERANCE * imager[0]
                && Math.abs(pixel[1] - imager[1]) <= SlicePlane.SPACING_TOLERANCE * imager[1];
        return same ? Kind.DETECTOR : Kind.CALIBRATED;
    }

    private static double[] spacing(DataSet d, int tag) {
        double[] values = d.decimals(tag);
        return values.length == 2 && values[0] > 0 && values[1] > 0 ? values : null;
    }
}
