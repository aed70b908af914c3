package org.holdfast.desktop.state;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import javafx.scene.input.KeyCode;
import org.holdfast.desktop.state.Act.Area;
import org.holdfast.desktop.state.Act.Combination;
import org.holdfast.desktop.state.MouseAct.Held;

/** Which key and which gesture of the mouse does what: the usual ones, or a person's own. Immutable. */
public final class Bindings {

    private static final Bindings USUAL = new Bindings(usualKeys(), usualMouse());

    private final Map<Act, List<Combination>> keys;
    private final Map<MouseAct, Held> mouse;

    private Bindings(Map<Act, List<Combination>> keys, Map<MouseAct, Held> mouse) {
        this.keys = keys;
        this.mouse = mouse;
    }

    /** The usual ones. */
    public static Bindings usual() {
        return USUAL;
    }

    /**
     * The usual ones with changes.
     *
     * @param keyChanges keys such as {@code Ctrl+Shift+Z} by the name of the act; an empty list takes its keys away
     * @param mouseChanges gestures such as {@code Ctrl+wheel} or {@code Shift+drag} by the name of the act
     * @throws IllegalArgumentException if an act or key is unknown, or two acts would have one key; names it
     */
    public static Bindings of(Map<String, List<String>> keyChanges, Map<String, String> mouseChanges) {
        Map<Act, List<Combination>> keys = usualKeys();
        keyChanges.forEach((name, each) -> {
            Act act = named(Act.class, name, "keys");
            keys.put(
                    act,
                    each.stream().map(key -> combination(key, "keys." + name)).toList());
        });
        Map<MouseAct, Held> mouse = usualMouse();
        mouseChanges.forEach((name, gesture) -> {
            MouseAct act = named(MouseAct.class, name, "mouse");
            mouse.put(act, held(gesture, act, "mouse." + name));
        });
        requireApart(keys, mouse);
        return new Bindings(keys, mouse);
    }

    /**
     * What a key does; empty if nothing, and always with Alt, which belongs to the system.
     *
     * @param place where the person is: acts of areas that do not meet it are none
     */
    public Optional<Act> act(Area place, KeyCode code, boolean control, boolean shift, boolean alt) {
        Combination pressed = new Combination(code, control, shift);
        return alt
                ? Optional.empty()
                : keys.entrySet().stream()
                        .filter(entry -> entry.getKey().area().meets(place)
                                && entry.getValue().contains(pressed))
                        .map(Map.Entry::getKey)
                        .findFirst();
    }

    /** The first key of an act in words; empty text if it has none. */
    public String keyWords(Act act) {
        List<Combination> all = keys.get(act);
        return all.isEmpty() ? "" : all.get(0).words();
    }

    /** What the wheel does with these keys held down; Shift beside what a step needs makes it five. */
    public Optional<MouseAct> wheel(Held held) {
        Optional<MouseAct> exact = mouseAct(MouseAct.Kind.WHEEL, held);
        return exact.isPresent() || !held.shift()
                ? exact
                : mouseAct(MouseAct.Kind.WHEEL, new Held(held.control(), false, held.alt()))
                        .filter(act -> act == MouseAct.STEP);
    }

    /** What dragging does with these keys held down. */
    public Optional<MouseAct> drag(Held held) {
        return mouseAct(MouseAct.Kind.DRAG, held);
    }

    /** The gesture of an act in words. */
    public String words(MouseAct act) {
        return mouse.get(act).words() + act.kind().words();
    }

    private Optional<MouseAct> mouseAct(MouseAct.Kind kind, Held held) {
        return mouse.entrySet().stream()
                .filter(entry ->
                        entry.getKey().kind() == kind && entry.getValue().equals(held))
                .map(Map.Entry::getKey)
                .findFirst();
    }

    private static Map<Act, List<Combination>> usualKeys() {
        Map<Act, List<Combination>> keys = new EnumMap<>(Act.class);
        for (Act act : Act.values()) {
            keys.put(act, act.combinations());
        }
        return keys;
    }

    private static Map<MouseAct, Held> usualMouse() {
        Map<MouseAct, Held> mouse = new EnumMap<>(MouseAct.class);
        for (MouseAct act : MouseAct.values()) {
            mouse.put(act, act.usual());
        }
        return mouse;
    }

    private static void requireApart(Map<Act, List<Combination>> keys, Map<MouseAct, Held> mouse) {
        keys.forEach((act, all) -> keys.forEach((other, others) -> {
            if (act.compareTo(other) < 0 && act.area().meets(other.area())) {
                all.stream().filter(others::contains).findFirst().ifPresent(key -> {
                    throw new IllegalArgumentException(
                            "keys: " + key.words() + " is given to " + act + " and to " + other);
                });
            }
        }));
        Map<String, MouseAct> gestures = new HashMap<>();
        mouse.forEach((act, held) -> {
            MouseAct other = gestures.put(held.words() + act.kind().words(), act);
            if (other != null) {
                throw new IllegalArgumentException(
                        "mouse: " + held.words() + act.kind().words() + " is given to " + other + " and to " + act);
            }
        });
    }

    private static <E extends Enum<E>> E named(Class<E> type, String name, String place) {
        for (E each : type.getEnumConstants()) {
            if (each.name().equals(name)) {
                return each;
            }
        }
        throw new IllegalArgumentException(
                place + ": " + name + ": expected one of " + Arrays.toString(type.getEnumConstants()));
    }

    private static Combination combination(String key, String place) {
        List<String> words = new ArrayList<>(List.of(key.split("\\+")));
        String last = words.remove(words.size() - 1).strip();
        Held held = held(words, place + ": " + key);
        if (held.alt()) {
            throw new IllegalArgumentException(place + ": " + key + ": Alt belongs to the system");
        }
        KeyCode code = Arrays.stream(KeyCode.values())
                .filter(each ->
                        each.name().equalsIgnoreCase(last) || each.getName().equalsIgnoreCase(last))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException(
                        place + ": " + key + ": expected a key such as L, F6, Up or Period, found " + last));
        return new Combination(code, held.control(), held.shift());
    }

    private static Held held(String gesture, MouseAct act, String place) {
        List<String> words = new ArrayList<>(List.of(gesture.split("\\+")));
        String last = words.remove(words.size() - 1).strip();
        if (!last.equalsIgnoreCase(act.kind().words())) {
            throw new IllegalArgumentException(
                    place + ": expected a gesture with the " + act.kind().words() + ", found " + gesture);
        }
        return held(words, place + ": " + gesture);
    }

    private static Held held(List<String> words, String place) {
        boolean control = false;
        boolean shift = false;
        boolean alt = false;
        for (String word : words) {
            switch (word.strip().toLowerCase(Locale.ROOT)) {
                case "ctrl" -> control = true;
                case "shift" -> shift = true;
                case "alt" -> alt = true;
                default -> throw new IllegalArgumentException(place + ": expected Ctrl, Shift or Alt, found " + word);
            }
        }
        return new Held(control, shift, alt);
    }
}
