package org.holdfast.desktop;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import java.util.logging.Level;
import java.util.logging.Logger;
import javafx.application.Application;

/** Opens the window and waits until it is closed. */
public final class HoldfastWindow {

    /** Exit codes as the command line's: done, not possible here. */
    private static final int DONE = 0;

    private static final int NOT_POSSIBLE = 1;

    private HoldfastWindow() {}

    /**
     * Opens the window.
     *
     * @param folder a subject to show, or images to take in; empty for the first-run page
     * @return exit code of the process: 0 once the window is closed, 1 if there is no display
     */
    public static int open(Optional<Path> folder) {
        if (!hasDisplay()) {
            return withoutDisplay();
        }
        // The toolkit lies on the class path on purpose, as everything here does; its warning about that helps nobody.
        Logger toolkit = Logger.getLogger("javafx");
        toolkit.setLevel(Level.SEVERE);
        String[] arguments = folder.map(path -> new String[] {path.toString()}).orElse(new String[0]);
        try {
            Application.launch(HoldfastApplication.class, arguments);
        } catch (UnsupportedOperationException e) {
            return withoutDisplay();
        }
        return DONE;
    }

    /** Whether a window can be expected to open; only systems with a display server say so beforehand. */
    public static boolean hasDisplay() {
        boolean linux = System.getProperty("os.name").toLowerCase(Locale.ROOT).contains("linux");
        return !linux
                || isSet("DISPLAY")
                || isSet("WAYLAND_DISPLAY")
                || "Monocle".equals(System.getProperty("glass.platform"));
    }

    private static boolean isSet(String variable) {
        String value = System.getenv(variable);
        return value != null && !value.isBlank();
    }

    private static int withoutDisplay() {
        System.err.println("holdfast: there is no display to open a window on; every command works without one.");
        return NOT_POSSIBLE;
    }
}
