package org.holdfast.intake;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;
import org.holdfast.volume.PaddingRange;
import org.holdfast.volume.Rescale;

/**
 * How stored values of a slice become HU, or why they do not. Immutable.
 *
 * @param rescale line to HU (PS3.3, section C.11.1); empty if there is none or the result is not HU
 * @param whyNotHu reason; empty exactly where {@code rescale} is present
 * @param padding stored values outside the reconstructed field (PS3.3, section C.7.5.1.1.2), if named
 */
public record HuScale(Optional<Rescale> rescale, String whyNotHu, Optional<PaddingRange> padding) {

    /** Values of ImageType that name a map of something else than attenuation, derived from CT. */
    private static final Set<String> MAP_TYPES = Set.of(
            "PERFUSION",
            "CBF",
            "CBV",
            "MTT",
            "RCBF",
            "RCBV",
            "RMTT",
            "TTP",
            "TTD",
            "TMAX",
            "PMB",
            "BLOOD_FLOW",
            "BLOOD_VOLUME",
            "TTP_MAP",
            "PERM",
            "PERMEABILITY",
            "EFF_ATOMIC_NUM",
            "ELECTRON_DENSITY",
            "MAT_SPECIFIC",
            "MAT_FRACTIONAL",
            "VALUE_MAP");

    static HuScale of(DataSet d, String modality) {
        Optional<PaddingRange> padding = padding(d);
        Optional<String> why = whyNot(d, modality);
        if (why.isPresent()) {
            return new HuScale(Optional.empty(), why.get(), padding);
        }
        double slope = d.decimal(Tag.RESCALE_SLOPE).orElseThrow();
        double intercept = d.decimal(Tag.RESCALE_INTERCEPT).orElseThrow();
        return new HuScale(Optional.of(new Rescale(slope, intercept)), "", padding);
    }

    private static Optional<String> whyNot(DataSet d, String modality) {
        if (!modality.equals("CT")) {
            return Optional.of("modality " + (modality.isEmpty() ? "not said" : modality) + " has no HU");
        }
        if (!d.items(Tag.MODALITY_LUT_SEQUENCE).isEmpty()) {
            return Optional.of("a modality look-up table instead of a line to HU");
        }
        Optional<String> map = d.strings(Tag.IMAGE_TYPE).stream()
                .map(value -> value.toUpperCase(Locale.ROOT))
                .filter(MAP_TYPES::contains)
                .findFirst();
        if (map.isPresent()) {
            return Optional.of("a map of something else than attenuation, by ImageType " + map.get());
        }
        if (d.string(Tag.PIXEL_PRESENTATION).orElse("").equals("COLOR")) {
            return Optional.of("a map in colours, by PixelPresentation COLOR");
        }
        String type = d.string(Tag.RESCALE_TYPE).orElse("");
        if (!type.isEmpty() && !type.toUpperCase(Locale.ROOT).equals("HU")) {
            return Optional.of("RescaleType is " + type + ", not HU");
        }
        OptionalDouble slope = d.decimal(Tag.RESCALE_SLOPE);
        OptionalDouble intercept = d.decimal(Tag.RESCALE_INTERCEPT);
        if (slope.isEmpty() || intercept.isEmpty()) {
            String missing = slope.isEmpty() ? "RescaleSlope" : "RescaleIntercept";
            boolean blank = d.isBlank(slope.isEmpty() ? Tag.RESCALE_SLOPE : Tag.RESCALE_INTERCEPT);
            return Optional.of(blank ? "no " + missing : missing + " is not a number");
        }
        return slope.getAsDouble() == 0 ? Optional.of("RescaleSlope is 0") : Optional.empty();
    }

    /** Stored values that the header names as padding. */
    static Optional<PaddingRange> padding(DataSet d) {
        OptionalInt value = d.integer(Tag.PIXEL_PADDING_VALUE);
        if (value.isEmpty()) {
            return Optional.empty();
        }
        int first = value.getAsInt();
        int limit = d.integer(Tag.PIXEL_PADDING_RANGE_LIMIT).orElse(first);
        return Optional.of(new PaddingRange(Math.min(first, limit), Math.max(first, limit)));
    }
}
