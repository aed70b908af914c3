package org.holdfast.desktop.view;

import atlantafx.base.theme.PrimerDark;
import atlantafx.base.theme.PrimerLight;
import java.net.URL;
import java.util.List;
import java.util.Objects;
import javafx.application.Application;
import javafx.scene.Scene;

/** Dark or light: the tokens of all colours. */
public enum Theme {
    DARK("tokens-dark.css"),
    LIGHT("tokens-light.css");

    private final String tokens;

    Theme(String tokens) {
        this.tokens = tokens;
    }

    /** Puts the theme onto a scene. */
    public void apply(Scene scene) {
        String base =
                this == DARK ? new PrimerDark().getUserAgentStylesheet() : new PrimerLight().getUserAgentStylesheet();
        Application.setUserAgentStylesheet(base);
        scene.getStylesheets()
                .setAll(List.of(sheet(tokens), sheet("holdfast.css"), sheet("review.css"), sheet("intake.css")));
    }

    private static String sheet(String name) {
        URL url = Theme.class.getResource("/org/holdfast/desktop/" + name);
        return Objects.requireNonNull(url, name).toExternalForm();
    }
}
