package org.holdfast.desktop.state;

import java.io.File;
import java.nio.file.Path;

/** A path as a person knows it: below their home it begins with a tilde, so that pictures of the screen name nobody. */
public final class ShownPath {

    private ShownPath() {}

    /** The path in words. */
    public static String of(Path path) {
        return of(path, Path.of(System.getProperty("user.home")));
    }

    /** The name of a file in words: its path, or that of an archive and the entry in it. */
    public static String of(String name) {
        String home = System.getProperty("user.home") + File.separator;
        return name.startsWith(home) ? "~" + File.separator + name.substring(home.length()) : name;
    }

    static String of(Path path, Path home) {
        return path.startsWith(home)
                ? Path.of("~").resolve(home.relativize(path)).toString()
                : path.toString();
    }
}
