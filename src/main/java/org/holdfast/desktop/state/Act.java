package org.holdfast.desktop.state;

import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import javafx.scene.input.KeyCode;

/**
 * Everything that a key does: the one table that feeds the keyboard, the page of all keys and tooltips. Keys count by their
 * place on the keyboard, not by the letter that a layout gives them.
 */
public enum Act {
    PART_UP(Area.REVIEW, "part above", key(KeyCode.UP)),
    PART_DOWN(Area.REVIEW, "part below", key(KeyCode.DOWN)),
    EXAM_EARLIER(Area.REVIEW, "exam before", key(KeyCode.LEFT)),
    EXAM_LATER(Area.REVIEW, "exam after", key(KeyCode.RIGHT)),
    EXAM_FIRST(Area.REVIEW, "first exam", key(KeyCode.HOME)),
    EXAM_LAST(Area.REVIEW, "last exam", key(KeyCode.END)),
    LINK(Area.REVIEW, "link the exams, or set them free", key(KeyCode.J)),
    WHOLE_EXAM(Area.REVIEW, "the whole exam: original slices and three planes", key(KeyCode.V)),
    NEXT_MAP(Area.REVIEW, "the next map: by fit, by threshold, change; zone, straightened", key(KeyCode.T)),
    OUTLINE(Area.REVIEW, "outline of the construct, on or off", key(KeyCode.O)),
    NUDGE(
            Area.REVIEW,
            "nudge the construct: then ↑ ↓ ← → and Page ↑ ↓ move, with Shift turn, Enter keeps, Esc restores",
            key(KeyCode.G)),
    MEASURE_AGAIN(Area.REVIEW, "measure all exams anew", control(KeyCode.M)),
    SERIES_UP(Area.INTAKE, "series above", key(KeyCode.UP)),
    SERIES_DOWN(Area.INTAKE, "series below", key(KeyCode.DOWN)),
    SERIES_LEFT(Area.INTAKE, "series to the left", key(KeyCode.LEFT)),
    SERIES_RIGHT(Area.INTAKE, "series to the right", key(KeyCode.RIGHT)),
    SERIES_OPEN(Area.INTAKE, "the whole series", key(KeyCode.ENTER)),
    SERIES_ROLE(Area.INTAKE, "what becomes of the series", key(KeyCode.R)),
    NEXT_QUESTION(Area.INTAKE, "the first open question", key(KeyCode.M)),
    TAKE_IN(Area.INTAKE, "take the exams in", control(KeyCode.ENTER)),
    STEP_ON(Area.IMAGE, "one step along the cut's normal", key(KeyCode.PERIOD)),
    STEP_BACK(Area.IMAGE, "one step back", key(KeyCode.COMMA)),
    STEP_ON_FIVE(Area.IMAGE, "five steps", shift(KeyCode.PERIOD)),
    STEP_BACK_FIVE(Area.IMAGE, "five steps back", shift(KeyCode.COMMA)),
    ZOOM_IN(Area.IMAGE, "magnify", key(KeyCode.PLUS), key(KeyCode.EQUALS), shift(KeyCode.EQUALS), key(KeyCode.ADD)),
    ZOOM_OUT(Area.IMAGE, "show more", key(KeyCode.MINUS), key(KeyCode.SUBTRACT)),
    FITTED(Area.IMAGE, "back to the fitted view", key(KeyCode.SPACE)),
    WINDOW(Area.IMAGE, "window: then ↑ ↓ width, ← → centre, Enter keeps, Esc restores", key(KeyCode.W)),
    LENGTH(Area.IMAGE, "measure a length", key(KeyCode.L)),
    ANGLE(Area.IMAGE, "measure an angle", key(KeyCode.N)),
    REGION(Area.IMAGE, "HU in a region: ellipse, rectangle, polygon in turn", key(KeyCode.R)),
    REMOVE_MARK(Area.IMAGE, "remove the mark drawn last, or the chosen one", key(KeyCode.DELETE)),
    UNDO(Area.EVERYWHERE, "take the last act back", control(KeyCode.Z)),
    REDO(Area.EVERYWHERE, "do it again", controlShift(KeyCode.Z)),
    NEXT_REGION(Area.EVERYWHERE, "next region of the window", key(KeyCode.F6)),
    READ_FOLDER(Area.EVERYWHERE, "read a folder of images", control(KeyCode.I)),
    READ_FILES(Area.EVERYWHERE, "read files or a zip", controlShift(KeyCode.I)),
    OPEN_SUBJECT(Area.EVERYWHERE, "open a subject's folder", control(KeyCode.O)),
    KEYS(Area.EVERYWHERE, "all keys", key(KeyCode.F1)),
    LIMITS(Area.EVERYWHERE, "what it measures, and what CT cannot show", key(KeyCode.F2)),
    THEME(Area.EVERYWHERE, "dark or light", key(KeyCode.F9)),
    ESCAPE(Area.EVERYWHERE, "leave a page, put a tool away", key(KeyCode.ESCAPE));

    /** Where a key counts. */
    public enum Area {
        REVIEW("Parts and exams"),
        IMAGE("On a cut"),
        INTAKE("On the intake page"),
        EVERYWHERE("Everywhere");

        private final String words;

        Area(String words) {
            this.words = words;
        }

        /** The area in words. */
        public String words() {
            return words;
        }

        /** Whether keys of both areas count at one place, so that none of them may be the same. */
        public boolean meets(Area other) {
            return (this == INTAKE) == (other == INTAKE) || this == EVERYWHERE || other == EVERYWHERE;
        }
    }

    /**
     * A key with those held down with it.
     *
     * @param code the key
     * @param control with Ctrl
     * @param shift with Shift
     */
    public record Combination(KeyCode code, boolean control, boolean shift) {

        /** As it is written on a keyboard. */
        public String words() {
            return (control ? "Ctrl " : "") + (shift ? "Shift " : "") + name();
        }

        private String name() {
            return switch (code) {
                case UP -> "↑";
                case DOWN -> "↓";
                case LEFT -> "←";
                case RIGHT -> "→";
                case PERIOD -> ".";
                case COMMA -> ",";
                case PLUS -> "+";
                case MINUS -> "−";
                case ESCAPE -> "Esc";
                default -> code.getName();
            };
        }
    }

    private final Area area;
    private final String words;
    private final List<Combination> combinations;

    Act(Area area, String words, Combination... combinations) {
        this.area = area;
        this.words = words;
        this.combinations = List.of(combinations);
    }

    /** Where it counts. */
    public Area area() {
        return area;
    }

    /** What it does. */
    public String words() {
        return words;
    }

    /** Its keys, the one to be shown first. */
    public List<Combination> combinations() {
        return combinations;
    }

    /** Its first key in words. */
    public String keyWords() {
        return combinations.get(0).words();
    }

    /** All acts of an area, in the order of the table. */
    public static List<Act> in(Area area) {
        return Arrays.stream(values()).filter(act -> act.area == area).collect(Collectors.toUnmodifiableList());
    }

    private static Combination key(KeyCode code) {
        return new Combination(code, false, false);
    }

    private static Combination shift(KeyCode code) {
        return new Combination(code, false, true);
    }

    private static Combination control(KeyCode code) {
        return new Combination(code, true, false);
    }

    private static Combination controlShift(KeyCode code) {
        return new Combination(code, true, true);
    }
}
