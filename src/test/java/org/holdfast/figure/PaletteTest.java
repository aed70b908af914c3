package org.holdfast.figure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

final class PaletteTest {

    // Source: W3C, Web Content Accessibility Guidelines 2.1 (2018), success criteria 1.4.3 and 1.4.11.
    private static final double LEAST_CONTRAST_OF_TEXT = 4.5;
    private static final double LEAST_CONTRAST_OF_MARKS = 3;

    @Test
    void lettersStandOutFromThePaper() {
        for (Colour colour : List.of(Palette.INK, Palette.INK_SOFT, Palette.INK_FAINT, Palette.CHANGE)) {
            assertTrue(contrast(colour, Palette.PAPER) >= LEAST_CONTRAST_OF_TEXT, colour::hex);
        }
    }

    @Test
    void marksStandOutFromTheirGround() {
        for (Colour colour : List.of(
                Palette.MAP_BRIDGED,
                Palette.MAP_CONTACT,
                Palette.MAP_NARROW_GAP,
                Palette.MAP_GAP,
                Palette.MAP_NONE,
                Palette.MAP_CANNOT_TELL_STROKE)) {
            assertTrue(contrast(colour, Palette.WELL) >= LEAST_CONTRAST_OF_MARKS, colour::hex);
        }
        assertTrue(contrast(Palette.BONE, Palette.PAPER) >= LEAST_CONTRAST_OF_MARKS);
        assertTrue(contrast(Palette.CANNOT_TELL, Palette.PAPER) >= LEAST_CONTRAST_OF_MARKS);
    }

    @Test
    void cellsOfAMapDarkenFromBoneToNone() {
        Face face = SampleFace.face();
        double[] brightness = FaceClasses.of(face).stream()
                .limit(5)
                .mapToDouble(PaletteTest::brightness)
                .toArray();
        for (int i = 1; i < brightness.length; i++) {
            assertTrue(brightness[i] < brightness[i - 1], Arrays.toString(brightness));
        }
    }

    @Test
    void blackOnWhiteHasTheGreatestContrast() {
        // Source: W3C, Web Content Accessibility Guidelines 2.1 (2018), definition of contrast ratio: 1 to 21.
        assertEquals(21, contrast(Colour.of(0x000000), Colour.of(0xFFFFFF)), 1e-9);
    }

    /** Mean luminance of a cell of the class on its well. */
    private static double brightness(FaceClasses.FaceClass each) {
        Drawing.Builder pen = new Drawing.Builder();
        each.mark().paint(pen, 10, 10, 20);
        BufferedImage cell = PngWriter.image(pen.build(20, 20, "cell", Palette.WELL), 1);
        double sum = 0;
        for (int y = 0; y < 20; y++) {
            for (int x = 0; x < 20; x++) {
                sum += luminance(Colour.of(cell.getRGB(x, y) & 0xFFFFFF));
            }
        }
        return sum / 400;
    }

    private static double contrast(Colour one, Colour other) {
        double lighter = Math.max(luminance(one), luminance(other));
        double darker = Math.min(luminance(one), luminance(other));
        return (lighter + 0.05) / (darker + 0.05);
    }

    /** Relative luminance as the guidelines define it. */
    private static double luminance(Colour colour) {
        return 0.2126 * linear(colour.rgb() >> 16)
                + 0.7152 * linear(colour.rgb() >> 8 & 0xFF)
                + 0.0722 * linear(colour.rgb() & 0xFF);
    }

    private static double linear(int channel) {
        double value = channel / 255.0;
        return value <= 0.03928 ? value / 12.92 : Math.pow((value + 0.055) / 1.055, 2.4);
    }
}
