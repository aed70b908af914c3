package org.holdfast.volume;

import java.util.Locale;
import java.util.Objects;
import java.util.Optional;

/**
 * What a pixel's size stands for (PS3.3, sections C.7.6.2, 10.7 and C.8.11.7). Immutable.
 *
 * @param kind what the sizes refer to
 * @param rowMm distance between rows, mm; NaN exactly where the kind is {@link Kind#NONE}
 * @param columnMm distance between columns, mm; NaN exactly where the kind is {@link Kind#NONE}
 * @param magnification by what the detector's pixel was divided; there exactly where the kind is {@link Kind#MAGNIFIED}
 */
public record PixelScale(Kind kind, double rowMm, double columnMm, Optional<Magnification> magnification) {

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
        NONE;

        /** Whether lengths on it are mm in the patient (in the plane that was calibrated, for a radiograph). */
        public boolean isInPatient() {
            return this == PATIENT || this == FIDUCIAL || this == GEOMETRY || this == CALIBRATED;
        }
    }

    /**
     * How much larger the patient is drawn at the detector.
     *
     * @param factor detector distance to patient distance from the source, above 1
     * @param source where the factor comes from
     */
    public record Magnification(double factor, Source source) {

        /** Where a factor comes from; both are estimates of the device. */
        public enum Source {
            /** Written as such. */
            FACTOR,
            /** Distance from source to detector ÷ distance from source to patient. */
            DISTANCES
        }

        public Magnification {
            Objects.requireNonNull(source, "source");
            if (!(factor > 1) || Double.isInfinite(factor)) {
                throw new IllegalArgumentException("factor must be finite and above 1, got " + factor);
            }
        }

        private String words() {
            String by = String.format(Locale.ROOT, "detector ÷ magnification %.3g", factor);
            return by + (source == Source.DISTANCES ? " by distances" : "") + ", an estimate";
        }
    }

    /** No usable size. */
    public static final PixelScale NOT_SAID = new PixelScale(Kind.NONE, Double.NaN, Double.NaN, Optional.empty());

    public PixelScale {
        Objects.requireNonNull(kind, "kind");
        Objects.requireNonNull(magnification, "magnification");
        boolean isSize = rowMm > 0 && columnMm > 0 && Double.isFinite(rowMm) && Double.isFinite(columnMm);
        if (isSize == (kind == Kind.NONE)) {
            throw new IllegalArgumentException(
                    "a scale of kind " + kind + " cannot have sizes of " + rowMm + " and " + columnMm + " mm");
        }
        if (magnification.isPresent() != (kind == Kind.MAGNIFIED)) {
            throw new IllegalArgumentException("a magnification belongs to kind MAGNIFIED, got kind " + kind);
        }
    }

    /** What lengths on it are, for a heading: "detector ÷ magnification 1.15, an estimate". */
    public String words() {
        return switch (kind) {
            case PATIENT -> "mm in the patient";
            case FIDUCIAL -> "calibrated on an object of known size";
            case GEOMETRY -> "calibrated from the geometry";
            case CALIBRATED -> "calibrated, not said how";
            case MAGNIFIED -> magnification.map(Magnification::words).orElseThrow();
            case DETECTOR -> "at the detector, magnification not known";
            case SCANNED -> "of the scanned film";
            case UNKNOWN -> "not said what it refers to";
            case NONE -> "none, ratios and angles only";
        };
    }

    /** A scale whose sizes are as written. */
    public static PixelScale of(Kind kind, double rowMm, double columnMm) {
        return new PixelScale(kind, rowMm, columnMm, Optional.empty());
    }

    /** Sizes at the detector brought to the patient: divided by the magnification. */
    public static PixelScale magnified(double detectorRowMm, double detectorColumnMm, Magnification by) {
        return new PixelScale(
                Kind.MAGNIFIED, detectorRowMm / by.factor(), detectorColumnMm / by.factor(), Optional.of(by));
    }
}
