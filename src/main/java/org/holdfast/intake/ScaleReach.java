package org.holdfast.intake;

import java.util.Locale;
import java.util.OptionalDouble;
import org.holdfast.dicom.PixelLayout;
import org.holdfast.volume.Rescale;
import org.holdfast.volume.VolumeStatistics;

/**
 * How far the HU scale of a stack reaches up, which decides whether metals can be told apart. Immutable.
 *
 * @param kind whether metal is clipped
 * @param topHu the highest HU that the scale can hold, or at which it is seen to be clipped
 * @param brightestHu the highest HU of a voxel; empty if the pixels were not looked at
 */
public record ScaleReach(Kind kind, double topHu, OptionalDouble brightestHu) {

    /** Whether metal is clipped. */
    public enum Kind {
        /** Reaches over every metal of an implant. */
        EXTENDED,
        /** The header leaves room; only the pixels tell whether the scanner used it. */
        POSSIBLY_EXTENDED,
        /** Ends below titanium. */
        CLIPPED
    }

    /** Solid titanium reads 7000 HU and more at usual tube voltages; a scale that ends under this clips it. */
    private static final double METAL_HU = 8000;

    /** Where most scanners clip a scale that is not extended: 4095 stored. */
    private static final double USUAL_CEILING_HU = 3095;

    /** By the header alone: slope, intercept and bits of each slice; the slice with the lowest top decides. */
    public static ScaleReach ofHeader(Stack stack) {
        double top = Double.POSITIVE_INFINITY;
        double slope = 0;
        for (Slice slice : stack.slices()) {
            Rescale line = slice.huScale().rescale().orElse(null);
            if (line != null) {
                top = Math.min(top, line.hu(largestStored(slice.layout())));
                slope = Math.max(slope, line.slope());
            }
        }
        if (top < METAL_HU || top == Double.POSITIVE_INFINITY) {
            return new ScaleReach(Kind.CLIPPED, top, OptionalDouble.empty());
        }
        // A scale of 1 HU in 16 bits says nothing: most scanners clip such values at 3071 all the same.
        return new ScaleReach(slope >= 2 ? Kind.EXTENDED : Kind.POSSIBLY_EXTENDED, top, OptionalDouble.empty());
    }

    /**
     * By header and pixels: a ceiling that many voxels have clips metal wherever it is under that; values above every
     * clipped 12-bit scale show that the room is used.
     */
    public static ScaleReach ofPixels(Stack stack, VolumeStatistics seen) {
        OptionalDouble brightest = seen.validVoxels() > 0 ? OptionalDouble.of(seen.maxHu()) : OptionalDouble.empty();
        if (seen.ceilingHu().isPresent()) {
            double top = seen.ceilingHu().getAsDouble();
            return new ScaleReach(top < METAL_HU ? Kind.CLIPPED : Kind.EXTENDED, top, brightest);
        }
        ScaleReach header = ofHeader(stack);
        boolean used = brightest.isPresent() && brightest.getAsDouble() > USUAL_CEILING_HU;
        boolean shown = header.kind == Kind.POSSIBLY_EXTENDED && used;
        return new ScaleReach(shown ? Kind.EXTENDED : header.kind, header.topHu, brightest);
    }

    private static double largestStored(PixelLayout layout) {
        int bits = layout.bitsStored() - (layout.signed() ? 1 : 0);
        return Math.scalb(1.0, bits) - 1;
    }

    /** The reach in words, with its top. */
    public String words() {
        String top = String.format(Locale.ROOT, "%.0f HU", topHu);
        return switch (kind) {
            case EXTENDED -> "extended scale, up to " + top;
            case POSSIBLY_EXTENDED -> "the scale has room up to " + top + "; " + whetherUsed();
            case CLIPPED -> "the scale ends at " + top + ": metal is clipped";
        };
    }

    private String whetherUsed() {
        return brightestHu.isEmpty()
                ? "only the pixels show whether it is used"
                : String.format(
                        Locale.ROOT,
                        "the brightest voxel has %.0f, so no metal shows whether it is used",
                        brightestHu.getAsDouble());
    }
}
