package org.holdfast.architecture;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/**
 * Which package may use which: a row a package, in the order of the work, also for packages that have nothing in them
 * yet. {@code finding} and {@code progress} may be used by all.
 */
final class PackageTable {

    /** Packages that every package may use. */
    static final Set<String> FOR_ALL = Set.of("finding", "progress");

    /** The root package itself, where only the entry point lies. */
    static final String ENTRY_POINT = "";

    private static final String[] RETURNED_BY_APP = {
        "geometry", "volume", "construct", "measure", "regions", "statistics", "review", "evidence"
    };

    private final Map<String, Set<String>> mayUse = new LinkedHashMap<>();

    private PackageTable() {}

    static PackageTable ofHoldfast() {
        PackageTable table = new PackageTable();
        table.row("finding");
        table.row("progress");
        table.row("geometry");
        table.row("dicom", "finding");
        table.row("volume", "geometry", "finding");
        table.row("intake", "geometry", "dicom", "volume");
        table.row("construct", "geometry");
        table.row("registration", "geometry", "volume");
        table.row("proposal", "geometry", "volume", "construct", "registration");
        table.row("measure", "geometry", "volume", "construct", "registration");
        table.row("regions", "geometry", "volume");
        table.row("statistics");
        table.row("review", "geometry", "construct", "statistics");
        table.row("evidence", "geometry", "construct", "measure", "review", "statistics");
        table.row("figure", "geometry", "volume", "measure", "statistics", "review");
        table.row("store", "geometry", "volume", "construct", "measure", "review");
        table.row("exchange", table.allBut("store"));
        table.row("phantom", "geometry", "dicom", "volume", "construct");
        table.row(
                "validation",
                "phantom",
                "intake",
                "volume",
                "registration",
                "construct",
                "measure",
                "proposal",
                "statistics",
                "geometry");
        table.row("app", table.allBut());
        table.row("cli", with(RETURNED_BY_APP, "app"));
        table.row("desktop", with(RETURNED_BY_APP, "app", "figure"));
        table.row(ENTRY_POINT, "cli", "desktop");
        return table;
    }

    /** Names of all packages that have a row, without the root package. */
    Set<String> packages() {
        Set<String> names = new TreeSet<>(mayUse.keySet());
        names.remove(ENTRY_POINT);
        return names;
    }

    /** What the package may use besides itself and the packages for all. */
    Set<String> mayUse(String name) {
        return mayUse.get(name);
    }

    /** All rows, the root package's included. */
    Set<String> rows() {
        return mayUse.keySet();
    }

    private void row(String name, String... used) {
        mayUse.put(name, Set.of(used));
    }

    private String[] allBut(String... left) {
        Set<String> names = new TreeSet<>(mayUse.keySet());
        names.removeAll(Set.of(left));
        return names.toArray(String[]::new);
    }

    private static String[] with(String[] names, String... more) {
        List<String> all = new ArrayList<>(List.of(names));
        all.addAll(List.of(more));
        return all.toArray(String[]::new);
    }
}
