package org.holdfast.desktop.view;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import javafx.scene.text.Font;

/** The fonts that come with the program, so that text is the same on every machine. */
public final class Fonts {

    private static final String[] FILES = {"NotoSans-Regular.ttf", "NotoSans-Medium.ttf", "NotoSans-SemiBold.ttf"};
    private static final double ANY_SIZE = 12;

    private Fonts() {}

    /**
     * Makes the fonts known to the toolkit.
     *
     * @throws IllegalStateException if the toolkit refuses one
     */
    public static void load() {
        for (String file : FILES) {
            try (InputStream stream = Fonts.class.getResourceAsStream("/org/holdfast/desktop/fonts/" + file)) {
                if (Font.loadFont(stream, ANY_SIZE) == null) {
                    throw new IllegalStateException("font " + file + " cannot be loaded");
                }
            } catch (IOException e) {
                throw new UncheckedIOException(file, e);
            }
        }
    }
}
