package org.holdfast.desktop.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** That every colour of both themes can be read where it stands, computed from the style sheets themselves. */
final class ContrastTest {

    /** The figures are stated with two decimals. */
    private static final double ROUNDING = 0.01;

    private static final double LEAST_TEXT = 4.5;
    private static final double LEAST_OUTLINE = 3;

    private static final List<String> GROUNDS = List.of("window", "panel", "raised");
    private static final List<String> TEXT =
            List.of("ink", "ink2", "ink3", "pick", "ok", "change", "fault", "doubt", "na");

    @Test
    void blackOnWhiteIsTheGreatestContrast() {
        // By hand: (1 + 0.05) / (0 + 0.05)
        assertEquals(21, Contrast.ratio(0x000000, 0xFFFFFF), 1e-9);
        // By hand: equal colours
        assertEquals(1, Contrast.ratio(0x6E7876, 0x6E7876), 1e-9);
        // Source: WCAG 2.1, understanding 1.4.3: #767676 on white is the lightest grey that reaches 4.5, 4.54
        assertEquals(4.54, Contrast.ratio(0x767676, 0xFFFFFF), ROUNDING / 2);
    }

    // Computed: Python, the WCAG 2.x formula in 64-bit floats over the colours of the design, rounded to 2 decimals
    @ParameterizedTest
    @CsvSource({
        "DARK, control, 3.99, 3.68, 3.23",
        "DARK, ink, 15.26, 14.10, 12.35",
        "DARK, ink2, 9.49, 8.77, 7.68",
        "DARK, ink3, 6.13, 5.67, 4.96",
        "DARK, pick, 16.20, 14.97, 13.12",
        "DARK, ok, 9.44, 8.72, 7.64",
        "DARK, change, 10.76, 9.95, 8.71",
        "DARK, fault, 6.94, 6.41, 5.61",
        "DARK, doubt, 8.50, 7.86, 6.88",
        "DARK, na, 5.75, 5.32, 4.66",
        "LIGHT, control, 3.18, 3.54, 3.73",
        "LIGHT, ink, 14.06, 15.63, 16.47",
        "LIGHT, ink2, 7.17, 7.98, 8.40",
        "LIGHT, ink3, 5.43, 6.04, 6.36",
        "LIGHT, pick, 15.12, 16.81, 17.71",
        "LIGHT, ok, 5.87, 6.53, 6.88",
        "LIGHT, change, 5.68, 6.32, 6.66",
        "LIGHT, fault, 6.78, 7.54, 7.94",
        "LIGHT, doubt, 6.37, 7.09, 7.47",
        "LIGHT, na, 5.43, 6.04, 6.36"
    })
    void eachColourHasItsStatedContrast(Theme theme, String token, double window, double panel, double raised)
            throws IOException {
        ThemeTokens tokens = ThemeTokens.of(theme);
        assertEquals(window, on(tokens, token, "window"), ROUNDING);
        assertEquals(panel, on(tokens, token, "panel"), ROUNDING);
        assertEquals(raised, on(tokens, token, "raised"), ROUNDING);
    }

    @ParameterizedTest
    @CsvSource({
        // Computed: as above
        "DARK, on-pick, pick, 14.97",
        "LIGHT, on-pick, pick, 16.81",
        "LIGHT, ink3, shade, 4.82",
        "DARK, na, col, 5.07",
        "DARK, na, row, 4.95",
        "LIGHT, ink3, col, 5.09",
        "LIGHT, ink3, row, 4.96"
    })
    void theLeastOnOtherGroundsAreAsStated(Theme theme, String token, String ground, double expected)
            throws IOException {
        assertEquals(expected, on(ThemeTokens.of(theme), token, ground), ROUNDING);
    }

    @ParameterizedTest
    @EnumSource(Theme.class)
    void allTextCanBeReadOnAllGrounds(Theme theme) throws IOException {
        ThemeTokens tokens = ThemeTokens.of(theme);
        for (String ground : List.of("window", "panel", "raised", "shade", "col", "row")) {
            for (String token : TEXT) {
                assertAtLeast(LEAST_TEXT, tokens, token, ground);
            }
        }
        assertAtLeast(LEAST_TEXT, tokens, "on-pick", "pick");
    }

    @ParameterizedTest
    @EnumSource(Theme.class)
    void allOutlinesCanBeSeenOnAllGroundsOfControls(Theme theme) throws IOException {
        ThemeTokens tokens = ThemeTokens.of(theme);
        for (String ground : GROUNDS) {
            assertAtLeast(LEAST_OUTLINE, tokens, "control", ground);
        }
    }

    @ParameterizedTest
    @EnumSource(Theme.class)
    void theLightFillOfAChangeIsTwentyEightPercentOverTheWindow(Theme theme) throws IOException {
        ThemeTokens tokens = ThemeTokens.of(theme);
        // By hand: 0.28 of the one and 0.72 of the other in each channel, rounded
        assertEquals(
                Contrast.over(tokens.colour("change"), 0.28, tokens.colour("window")), tokens.colour("change-light"));
    }

    @Test
    void writingOnImagesCanBeReadOverTheBrightestImage() {
        // Source: review.css, .on-image: black at 64 %
        int scrimOverWhite = Contrast.over(0x000000, 0.64, 0xFFFFFF);
        // Computed: as above
        assertEquals(5.62, Contrast.ratio(0xE9ECEA, scrimOverWhite), ROUNDING);
    }

    private static double on(ThemeTokens tokens, String token, String ground) {
        return Contrast.ratio(tokens.colour(token), tokens.colour(ground));
    }

    private static void assertAtLeast(double least, ThemeTokens tokens, String token, String ground) {
        double ratio = on(tokens, token, ground);
        assertTrue(ratio >= least, () -> "-hf-" + token + " on -hf-" + ground + ": " + ratio + " is below " + least);
    }
}
