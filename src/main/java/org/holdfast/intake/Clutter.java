package org.holdfast.intake;

import java.util.List;
import java.util.Locale;
import java.util.Set;

/** Files that operating systems leave beside those of people. */
final class Clutter {

    private static final Set<String> NAMES = Set.of(".ds_store", "thumbs.db", "desktop.ini", "ehthumbs.db");
    private static final String RESOURCE_FOLDER = "__MACOSX";

    private Clutter() {}

    /** Whether a path, with slashes of either kind, names such a file or one in such a folder. */
    static boolean isClutter(String path) {
        String[] parts = path.split("[/\\\\]");
        String name = parts.length == 0 ? "" : parts[parts.length - 1].toLowerCase(Locale.ROOT);
        return name.startsWith("._") || NAMES.contains(name) || isClutterFolder(path);
    }

    static boolean isClutterFolder(String path) {
        return List.of(path.split("[/\\\\]")).contains(RESOURCE_FOLDER);
    }
}
