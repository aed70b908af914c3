package org.holdfast.intake;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdfast.dicom.Tag;

/**
 * DICOM PS3.15, table E.1-1: which attribute gets which action under the basic profile, with the choice that this
 * application makes where the table leaves one. Immutable. The rows, their edition and their sources are in the resource
 * {@code basic-profile.csv}.
 */
final class ProfileTable {

    /** Name of the row for what belongs to a manufacturer. */
    static final String PRIVATE = "(odd,xxxx)";

    private static final String CURVES = "(50xx,xxxx)";
    private static final String OVERLAYS = "(60xx,xxxx)";
    private static final String RESOURCE = "basic-profile.csv";
    private static final ProfileTable BASIC = load();

    private final List<Row> rows;
    private final Map<String, Row> byTag;

    /**
     * One attribute.
     *
     * @param tag as the standard writes it, or a pattern
     * @param keyword the standard's keyword
     * @param profile action or choice of actions in the basic profile; of our own rows the action
     * @param modifiedDates whether the option with modified dates keeps a changed value
     * @param plain what is done in an image of one frame
     * @param others what is done in all other objects
     * @param source T the table, M from memory, H our own
     */
    record Row(
            String tag,
            String keyword,
            String profile,
            boolean modifiedDates,
            ProfileAction plain,
            ProfileAction others,
            char source) {

        ProfileAction action(boolean plainImage) {
            return plainImage ? plain : others;
        }
    }

    private ProfileTable(List<Row> rows) {
        this.rows = List.copyOf(rows);
        this.byTag = new HashMap<>();
        rows.forEach(row -> byTag.put(row.tag, row));
    }

    static ProfileTable basic() {
        return BASIC;
    }

    /** All rows, patterns last where they sort so. */
    List<Row> rows() {
        return rows;
    }

    /** The row of an attribute; empty if the table says nothing about it. */
    Optional<Row> row(int tag) {
        if (Tag.isPrivate(tag)) {
            return Optional.of(byTag.get(PRIVATE));
        }
        Row row = byTag.get(Tag.format(tag));
        if (row != null) {
            return Optional.of(row);
        }
        return switch (tag >>> 24) {
            case 0x50 -> Optional.of(byTag.get(CURVES));
            case 0x60 -> Optional.of(byTag.get(OVERLAYS));
            default -> Optional.empty();
        };
    }

    private static ProfileTable load() {
        try (InputStream in = ProfileTable.class.getResourceAsStream(RESOURCE);
                BufferedReader lines = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
            return new ProfileTable(lines.lines()
                    .filter(line -> line.startsWith("("))
                    .map(ProfileTable::row)
                    .toList());
        } catch (IOException e) {
            throw new UncheckedIOException("the application's own table " + RESOURCE + " cannot be read", e);
        }
    }

    private static Row row(String line) {
        String[] cells = line.split(";", -1);
        return new Row(
                cells[0],
                cells[1],
                cells[2],
                cells[3].equals("C"),
                ProfileAction.of(cells[4]),
                ProfileAction.of(cells[5]),
                cells[6].charAt(0));
    }
}
