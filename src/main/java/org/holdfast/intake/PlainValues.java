package org.holdfast.intake;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.ValueRepresentations;
import org.holdfast.dicom.Vr;

/**
 * Values that the profile's table says nothing about and that may stay: numbers and codes that are what their standard
 * representation allows. Text in the place of a number, a code with a character that no code has, bulk data of unknown
 * content: none of them stays. Free text never does. Stateless.
 */
final class PlainValues {

    private static final Pattern CODE = Pattern.compile("[A-Z0-9 _]{0,32}");
    private static final Pattern DECIMAL = Pattern.compile(" *[+-]?(\\d+([.,]\\d*)?|[.,]\\d+)([Ee][+-]?\\d+)? *|");
    private static final Pattern WHOLE = Pattern.compile(" *[+-]?\\d+ *|");
    private static final Pattern AGE = Pattern.compile("\\d{3}[DWMY]|");

    /** Bulk data that images need: look-up tables of palette, modality and window. */
    private static final Set<Integer> TABLES = Set.of(
            0x00281201, 0x00281202, 0x00281203, 0x00281204, 0x00281221, 0x00281222, 0x00281223, 0x00281408, 0x00283006);

    private static final int SHORTEST_TEXT_BYTES = 8;
    private static final int LETTERS_IN_A_ROW = 4;

    /** A value that stays. */
    record Kept(Vr vr, byte[] value, boolean whole) {}

    private PlainValues() {}

    /** What stays of an element that is no sequence, date, UID, name or free text; empty if nothing does. */
    static Optional<Kept> of(DataSet data, int tag) {
        Vr standard = ValueRepresentations.of(tag);
        Vr written = data.vr(tag).orElseThrow();
        byte[] value = data.bytes(tag).orElse(new byte[0]);
        return switch (standard.kind()) {
            case TEXT -> written.kind() == Vr.Kind.NUMBER ? Optional.empty() : text(data, tag, standard, value);
            case NUMBER -> numbers(standard, written, value);
            case BYTES -> bulk(tag, standard, written, value);
            case SEQUENCE -> Optional.empty();
        };
    }

    private static Optional<Kept> text(DataSet data, int tag, Vr standard, byte[] value) {
        if (data.isBlank(tag)) {
            return Optional.of(new Kept(standard, new byte[0], true));
        }
        List<String> values = data.strings(tag);
        Pattern allowed =
                switch (standard) {
                    case CS -> CODE;
                    case DS -> DECIMAL;
                    case IS -> WHOLE;
                    case AS -> AGE;
                    default -> null;
                };
        if (allowed == null || values.isEmpty()) {
            return Optional.empty();
        }
        if (values.stream().allMatch(each -> allowed.matcher(each).matches())) {
            return Optional.of(new Kept(standard, value, true));
        }
        return standard == Vr.CS ? codes(values) : Optional.empty();
    }

    /** The codes among several values, each at its place; the others become empty. */
    private static Optional<Kept> codes(List<String> values) {
        List<String> left = new ArrayList<>();
        for (String value : values) {
            left.add(CODE.matcher(value).matches() ? value : "");
        }
        if (left.stream().allMatch(String::isEmpty)) {
            return Optional.empty();
        }
        byte[] bytes = String.join("\\", left).getBytes(StandardCharsets.US_ASCII);
        return Optional.of(new Kept(Vr.CS, bytes, false));
    }

    private static Optional<Kept> numbers(Vr standard, Vr written, byte[] value) {
        if (looksLikeText(value)) {
            return Optional.empty();
        }
        return switch (written.kind()) {
            case NUMBER -> Optional.of(new Kept(written, value, true));
            // One number whose representation was lost on the way; more than one cannot be told from anything else.
            case BYTES ->
                value.length == standard.unitBytes() ? Optional.of(new Kept(standard, value, true)) : Optional.empty();
            default -> Optional.empty();
        };
    }

    private static Optional<Kept> bulk(int tag, Vr standard, Vr written, byte[] value) {
        boolean numbers =
                switch (standard) {
                    case OF, OD, OL, OV -> true;
                    default -> TABLES.contains(tag);
                };
        boolean stays = numbers && written.kind() != Vr.Kind.TEXT && !looksLikeText(value);
        return stays ? Optional.of(new Kept(written == Vr.UN ? standard : written, value, true)) : Optional.empty();
    }

    /** Whether bytes that should be numbers read as words. */
    private static boolean looksLikeText(byte[] value) {
        int row = 0;
        int longest = 0;
        for (byte b : value) {
            if (b < ' ' && b != 0) {
                return false;
            }
            row = Character.isLetter(b) ? row + 1 : 0;
            longest = Math.max(longest, row);
        }
        return value.length >= SHORTEST_TEXT_BYTES && longest >= LETTERS_IN_A_ROW;
    }
}
