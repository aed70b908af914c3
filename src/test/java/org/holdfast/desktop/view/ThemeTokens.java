package org.holdfast.desktop.view;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The tokens of a theme as its style sheet states them, read as text: no toolkit is needed. */
final class ThemeTokens {

    private static final Pattern TOKEN = Pattern.compile("-hf-([a-z0-9-]+):\\s*#([0-9A-Fa-f]{6})\\s*;");

    private final String name;
    private final Map<String, Integer> colours;

    private ThemeTokens(String name, Map<String, Integer> colours) {
        this.name = name;
        this.colours = colours;
    }

    static ThemeTokens of(Theme theme) throws IOException {
        String name = theme.name().toLowerCase(Locale.ROOT);
        Map<String, Integer> colours = new LinkedHashMap<>();
        Matcher matcher = TOKEN.matcher(sheet("tokens-" + name + ".css"));
        while (matcher.find()) {
            colours.put(matcher.group(1), Integer.parseInt(matcher.group(2), 16));
        }
        return new ThemeTokens(name, colours);
    }

    /** The text of a style sheet of the program. */
    static String sheet(String file) throws IOException {
        try (InputStream stream = ThemeTokens.class.getResourceAsStream("/org/holdfast/desktop/" + file)) {
            return new String(Objects.requireNonNull(stream, file).readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    /** 0xRRGGBB. */
    int colour(String token) {
        if (!colours.containsKey(token)) {
            throw new AssertionError("the " + name + " theme has no colour -hf-" + token);
        }
        return colours.get(token);
    }

    Set<String> names() {
        return colours.keySet();
    }
}
