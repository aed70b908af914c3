package org.holdfast.intake;

import java.util.Locale;
import org.holdfast.dicom.PixelLayout;
import org.holdfast.volume.Rescale;

/**
 * How far the HU scale of a stack reaches up, which decides whether metals can be told apart. Immutable.
 *
 * @param kind whether metal is clipped
 * @param topHu the highest HU that the scale can hold, or at which it is seen to be clipped
 */
public record ScaleReach(Kind kind, double topHu) {

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

    /** By the header alone: slope, intercept and bits of each slice; the slice with the lowest top decides. */
    static ScaleReach ofHeader(Stack stack) {
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
            return new ScaleReach(Kind.CLIPPED, top);
        }
        // A scale of 1 HU in 16 bits says nothing: most scanners clip such values at 3071 all the same.
        return new ScaleReach(slope >= 2 ? Kind.EXTENDED : Kind.POSSIBLY_EXTENDED, top);
    }

    private static double largestStored(PixelLayout layout) {
        int bits = layout.bitsStored() - (layout.signed() ? 1 : 0);
        return Math.scalb(1.0, bits) - 1;
    }

    /** The reach in words, with its top. */
    public String words() {
        return switch (kind) {
            case EXTENDED -> String.format(Locale.ROOT, "extended scale, up to %.0f HU", topHu);
            case POSSIBLY_EXTENDED ->
                String.format(
                        Locale.ROOT,
                        "the scale has room up to %.0f HU; only the pixels show whether it is used",
                        topHu);
            case CLIPPED -> String.format(Locale.ROOT, "the scale ends at %.0f HU: metal is clipped", topHu);
        };
    }
}
