package org.holdfast.desktop.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** That every colour of the window comes from a token, so that both themes are whole. */
final class StyleSheetsTest {

    private static final Pattern RULE = Pattern.compile("([^{}]+)\\{([^{}]*)\\}");
    private static final Pattern SET = Pattern.compile("(-color-[a-z0-9-]+)\\s*:");
    private static final Pattern USED = Pattern.compile("(-color-[a-z0-9-]+)(?![a-z0-9-]*\\s*:)");
    private static final Pattern TOKEN = Pattern.compile("-hf-([a-z0-9-]+)");

    @Test
    void bothThemesHaveTheSameTokens() throws IOException {
        assertEquals(
                ThemeTokens.of(Theme.DARK).names(), ThemeTokens.of(Theme.LIGHT).names());
    }

    @ParameterizedTest
    @ValueSource(strings = {"holdfast.css", "review.css", "tokens-dark.css", "tokens-light.css"})
    void everyTokenThatIsUsedExists(String sheet) throws IOException {
        Set<String> missing = new TreeSet<>();
        Matcher matcher = TOKEN.matcher(ThemeTokens.sheet(sheet));
        while (matcher.find()) {
            missing.add(matcher.group(1));
        }
        assertFalse(missing.isEmpty(), sheet + " uses no token");
        missing.removeAll(ThemeTokens.of(Theme.DARK).names());
        assertEquals(Set.of(), missing);
    }

    /** Hue is kept for findings: no blue, green or red of the toolkit's base theme may come through. */
    @ParameterizedTest
    @EnumSource(Theme.class)
    void noColourOfTheBaseThemeShowsThrough(Theme theme) throws IOException {
        String name = theme.name().toLowerCase(Locale.ROOT);
        Set<String> ownOfBase = new TreeSet<>();
        Set<String> used = new TreeSet<>();
        Matcher rules = RULE.matcher(baseTheme(name));
        while (rules.find()) {
            boolean isRoot = rules.group(1).strip().equals(".root");
            collect(isRoot ? SET : USED, rules.group(2), isRoot ? ownOfBase : used);
        }
        used.retainAll(ownOfBase);
        used.removeIf(colour -> colour.startsWith("-color-chart"));
        Set<String> ours = new TreeSet<>();
        collect(SET, ThemeTokens.sheet("tokens-" + name + ".css"), ours);
        assertFalse(used.isEmpty(), "the base theme uses no colour of its own");
        used.removeAll(ours);
        assertEquals(Set.of(), used);
    }

    /** Images, and all that lies on them, are light on black in both themes; whole-exam.css has nothing else. */
    @Test
    void onlyWhatLiesOnImagesHasAColourOfItsOwn() throws IOException {
        Set<String> literal = new TreeSet<>();
        for (String sheet : List.of("holdfast.css", "review.css")) {
            Matcher rules = RULE.matcher(ThemeTokens.sheet(sheet).replaceAll("(?s)/\\*.*?\\*/", ""));
            while (rules.find()) {
                if (Pattern.compile("#[0-9A-Fa-f]{3,8}\\b|rgba?\\(")
                        .matcher(rules.group(2))
                        .find()) {
                    literal.add(rules.group(1).strip());
                }
            }
        }
        literal.removeIf(selector -> selector.matches(".*(image|hit).*"));
        assertEquals(Set.of(), literal);
    }

    private static void collect(Pattern pattern, String text, Set<String> into) {
        Matcher matcher = pattern.matcher(text);
        while (matcher.find()) {
            into.add(matcher.group(1));
        }
    }

    private static String baseTheme(String name) throws IOException {
        String file = "/atlantafx/base/theme/primer-" + name + ".css";
        try (InputStream stream = atlantafx.base.theme.Theme.class.getResourceAsStream(file)) {
            return new String(stream.readAllBytes(), StandardCharsets.UTF_8);
        }
    }
}
