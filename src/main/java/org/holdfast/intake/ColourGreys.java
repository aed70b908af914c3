package org.holdfast.intake;

import java.util.Optional;
import org.holdfast.dicom.PixelLayout;

/**
 * Makes greys of a colour picture, such as a photographed film, for looking at: brightness Y = 0.299 R + 0.587 G + 0.114 B
 * (ITU-R BT.601, as YBR_FULL of PS3.3, section C.7.6.3.1.2). Stateless.
 */
final class ColourGreys {

    private static final double RED = 0.299;
    private static final double GREEN = 0.587;
    private static final double BLUE = 0.114;

    private ColourGreys() {}

    /** Why no greys can be made of such pixels; empty if they can. */
    static Optional<String> whyNot(PixelLayout layout) {
        boolean isGrey = layout.samples() == 1 && layout.photometric().startsWith("MONOCHROME");
        boolean isKnown = layout.samples() == 3
                && (layout.photometric().equals("RGB") || layout.photometric().startsWith("YBR_"));
        return isGrey || isKnown
                ? Optional.empty()
                : Optional.of(layout.samples() + " samples of "
                        + (layout.photometric().isEmpty()
                                ? "photometric interpretation not said"
                                : layout.photometric())
                        + " are not shown by this version");
    }

    /**
     * One word a pixel.
     *
     * @param samples three words a pixel
     * @param inPlanes whether each colour is a plane of its own
     */
    static short[] of(PixelLayout layout, short[] samples, boolean inPlanes) {
        int pixels = samples.length / 3;
        int mask = (1 << layout.bitsStored()) - 1;
        boolean isBrightnessFirst = layout.photometric().startsWith("YBR_");
        int step = inPlanes ? 1 : 3;
        int apart = inPlanes ? pixels : 1;
        short[] greys = new short[pixels];
        for (int n = 0; n < pixels; n++) {
            int first = samples[step * n] & mask;
            int second = samples[step * n + apart] & mask;
            int third = samples[step * n + 2 * apart] & mask;
            greys[n] = (short) (isBrightnessFirst ? first : Math.rint(RED * first + GREEN * second + BLUE * third));
        }
        return greys;
    }
}
