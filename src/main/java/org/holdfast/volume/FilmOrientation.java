package org.holdfast.volume;

import java.util.Locale;
import java.util.Objects;
import java.util.Optional;

/**
 * How a radiograph lies, in the words of its file. Immutable.
 *
 * @param right direction in the patient of the row from left to right, as letters such as "L" or "AF" (PS3.3, section
 *     C.7.6.1.1.1); empty text if not said
 * @param down direction of the column from top to bottom; empty text if not said
 * @param laterality side of a paired part: "R", "L" or "B" for both; empty text if not said or not paired
 * @param viewPosition view as written, such as "AP" or "LL"; empty text if not said
 */
public record FilmOrientation(String right, String down, String laterality, String viewPosition) {

    /** From which way the patient was looked at. */
    public enum View {
        FRONT("front"),
        SIDE("side"),
        OBLIQUE("oblique"),
        UNKNOWN("view not said");

        private final String words;

        View(String words) {
            this.words = words;
        }

        /** The view in words. */
        public String words() {
            return words;
        }
    }

    private static final String LETTERS = "RLAPHF";
    private static final String OPPOSITES = "LRPAFH";

    public FilmOrientation {
        Objects.requireNonNull(viewPosition, "viewPosition");
        requireLetters("right", right);
        requireLetters("down", down);
        if (!laterality.matches("[RLB]?")) {
            throw new IllegalArgumentException("laterality must be R, L, B or empty, got " + laterality);
        }
    }

    /** Nothing is said. */
    public static FilmOrientation unknown() {
        return new FilmOrientation("", "", "", "");
    }

    /** Whether letters name a direction in the patient: R, L, A, P, H, F, none beside its opposite; empty text does not. */
    public static boolean isDirection(String letters) {
        if (!letters.matches("[" + LETTERS + "]{1,3}")) {
            return false;
        }
        for (char letter : letters.toCharArray()) {
            if (letters.indexOf(letter) != letters.lastIndexOf(letter) || letters.indexOf(opposite(letter)) >= 0) {
                return false;
            }
        }
        return true;
    }

    /** Letters of the opposite direction; empty text stays so. */
    public static String opposite(String letters) {
        StringBuilder out = new StringBuilder();
        letters.chars().forEach(letter -> out.append(opposite((char) letter)));
        return out.toString();
    }

    /** Direction from right to left. */
    public String left() {
        return opposite(right);
    }

    /** Direction from bottom to top. */
    public String up() {
        return opposite(down);
    }

    /** The view by its written position, else by the direction of the rows. */
    public View view() {
        return ofPosition().orElseGet(this::ofRows);
    }

    private Optional<View> ofPosition() {
        String written = viewPosition.toUpperCase(Locale.ROOT).trim();
        if (written.matches("AP|PA|FRONTAL|ANTERO-?POSTERIOR|POSTERO-?ANTERIOR")) {
            return Optional.of(View.FRONT);
        }
        if (written.matches("LL|RL|LAT|L|R|LATERAL|.*[ -]LATERAL")) {
            return Optional.of(View.SIDE);
        }
        return written.matches("[RL][AP]?O|[RLAP]{2}O|LLO|RLO|OBLIQUE|.* OBLIQUE")
                ? Optional.of(View.OBLIQUE)
                : Optional.empty();
    }

    private View ofRows() {
        char first = right.isEmpty() ? ' ' : right.charAt(0);
        return switch (first) {
            case 'R', 'L' -> View.FRONT;
            case 'A', 'P' -> View.SIDE;
            default -> View.UNKNOWN;
        };
    }

    private static char opposite(char letter) {
        int at = LETTERS.indexOf(letter);
        return at < 0 ? letter : OPPOSITES.charAt(at);
    }

    private static void requireLetters(String name, String letters) {
        if (!letters.isEmpty() && !isDirection(letters)) {
            throw new IllegalArgumentException(name + " must be letters of a direction or empty, got " + letters);
        }
    }
}
