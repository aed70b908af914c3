package org.holdfast.desktop.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import org.holdfast.desktop.render.FaceClass;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** That states and map classes stay apart for people who lack one kind of cone; shapes tell them apart besides. */
final class ColourVisionTest {

    /** The figures are stated as whole numbers. */
    private static final double ROUNDING = 0.5;

    private static final List<String> STATES = List.of("ok", "change", "fault", "doubt", "na");

    /** The stroke over what cannot be told, as the map draws it. */
    private static final int CANNOT_TELL_STROKE = 0x9AA3A0;

    private static final int MAP_GROUND = 0x0B0D0E;

    @Test
    void whiteAndBlackAreAHundredApart() {
        // Source: CIE 15, L* of the white point is 100, of black 0
        assertEquals(100, ColourVision.NORMAL.distance(0x000000, 0xFFFFFF), 0.01);
        // By hand: each row of each matrix adds up to 1, so greys stay as they are
        assertEquals(100, ColourVision.DEUTAN.distance(0x000000, 0xFFFFFF), 0.01);
    }

    @Test
    void redAndGreenComeCloserWithoutOneOfTheirCones() {
        double normal = ColourVision.NORMAL.distance(0xC03030, 0x608020);
        assertTrue(ColourVision.PROTAN.distance(0xC03030, 0x608020) < normal / 2);
        assertTrue(ColourVision.DEUTAN.distance(0xC03030, 0x608020) < normal / 2);
    }

    // Computed: Python, the same matrices and CIE76 in 64-bit floats, rounded to whole numbers
    @ParameterizedTest
    @CsvSource({
        "DARK, NORMAL, 32",
        "DARK, PROTAN, 19",
        "DARK, DEUTAN, 19",
        "DARK, TRITAN, 16",
        "LIGHT, NORMAL, 25",
        "LIGHT, PROTAN, 14",
        "LIGHT, DEUTAN, 21",
        "LIGHT, TRITAN, 14"
    })
    void theNearestStatesAreAsFarApartAsStated(Theme theme, ColourVision sight, double expected) throws IOException {
        ThemeTokens tokens = ThemeTokens.of(theme);
        int[] colours = STATES.stream().mapToInt(tokens::colour).toArray();
        assertEquals(expected, nearest(sight, colours), ROUNDING);
    }

    // Computed: as above
    @ParameterizedTest
    @CsvSource({"NORMAL, 25", "PROTAN, 13", "DEUTAN, 15", "TRITAN, 21"})
    void theNearestMapClassesAreAsFarApartAsStated(ColourVision sight, double expected) {
        int[] colours = {
            FaceClass.BRIDGED.colour(),
            FaceClass.CONTACT.colour(),
            FaceClass.NARROW_GAP.colour(),
            FaceClass.GAP.colour(),
            FaceClass.WIDE_GAP_OR_NO_BONE.colour(),
            CANNOT_TELL_STROKE
        };
        assertEquals(expected, nearest(sight, colours), ROUNDING);
    }

    @Test
    void aCellGivesLessLightTheLessBoneItShows() {
        double last = 1;
        for (FaceClass face : FaceClass.values()) {
            if (face == FaceClass.CANNOT_TELL) {
                continue;
            }
            double light = face.share() * face.share() * Contrast.luminance(face.colour());
            assertTrue(light < last, face + " is not darker as a whole cell than the class before");
            last = light;
        }
    }

    @Test
    void theDarkestMarkIsSeenOnTheMapsGround() {
        // Computed: Python, the WCAG 2.x formula
        assertEquals(3.54, Contrast.ratio(FaceClass.WIDE_GAP_OR_NO_BONE.colour(), MAP_GROUND), 0.005);
    }

    private static double nearest(ColourVision sight, int[] colours) {
        double least = Double.MAX_VALUE;
        for (int one = 0; one < colours.length; one++) {
            for (int other = one + 1; other < colours.length; other++) {
                least = Math.min(least, sight.distance(colours[one], colours[other]));
            }
        }
        return least;
    }
}
