package org.holdfast.desktop.state;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import javafx.scene.input.KeyCode;
import org.holdfast.desktop.state.Act.Area;
import org.holdfast.desktop.state.Act.Combination;
import org.junit.jupiter.api.Test;

/** The one table of keys. */
final class ActTest {

    /** Letters that answers, key images, comments and the handling of proposals have in a reading. */
    // Source: the design's table of keys
    private static final Set<KeyCode> KEPT_FOR_OTHER_AREAS = Set.of(
            KeyCode.K,
            KeyCode.C,
            KeyCode.M,
            KeyCode.A,
            KeyCode.E,
            KeyCode.X,
            KeyCode.U,
            KeyCode.ENTER,
            KeyCode.BACK_SPACE);

    @Test
    void noKeyDoesTwoThingsAtOnePlace() {
        for (Act act : Act.values()) {
            for (Act other : Act.values()) {
                boolean apart = act == other || !act.area().meets(other.area());
                assertTrue(
                        apart || Collections.disjoint(act.combinations(), other.combinations()), act + " and " + other);
            }
        }
    }

    @Test
    void oneKeyMayDoTwoThingsOnTwoPages() {
        assertEquals(Optional.of(Act.REGION), Bindings.usual().act(Area.REVIEW, KeyCode.R, false, false, false));
        assertEquals(Optional.of(Act.SERIES_ROLE), Bindings.usual().act(Area.INTAKE, KeyCode.R, false, false, false));
        assertEquals(Optional.of(Act.KEYS), Bindings.usual().act(Area.INTAKE, KeyCode.F1, false, false, false));
        assertEquals(Optional.empty(), Bindings.usual().act(Area.INTAKE, KeyCode.J, false, false, false));
    }

    @Test
    void lettersAndDigitsOfOtherAreasStayFreeWhereAReadingCouldBe() {
        for (Act act : Act.values()) {
            for (Combination combination : act.combinations()) {
                boolean isBare = !combination.control() && !combination.shift();
                boolean isKept = act.area() != Area.INTAKE && KEPT_FOR_OTHER_AREAS.contains(combination.code());
                assertFalse(isBare && isKept, act.name());
                assertFalse(combination.code().isDigitKey() && !combination.control(), act.name());
            }
        }
    }

    @Test
    void everyActHasWordsAKeyAndAnArea() {
        int listed = 0;
        for (Area area : Area.values()) {
            listed += Act.in(area).size();
        }
        assertEquals(Act.values().length, listed);
        for (Act act : Act.values()) {
            assertFalse(act.words().isBlank(), act.name());
            assertFalse(act.keyWords().isBlank(), act.name());
        }
    }

    @Test
    void findsAnActByItsKeys() {
        assertEquals(Optional.of(Act.STEP_ON), Bindings.usual().act(Area.REVIEW, KeyCode.PERIOD, false, false, false));
        assertEquals(
                Optional.of(Act.STEP_ON_FIVE), Bindings.usual().act(Area.REVIEW, KeyCode.PERIOD, false, true, false));
        assertEquals(Optional.of(Act.UNDO), Bindings.usual().act(Area.REVIEW, KeyCode.Z, true, false, false));
        assertEquals(Optional.of(Act.REDO), Bindings.usual().act(Area.REVIEW, KeyCode.Z, true, true, false));
        assertEquals(Optional.empty(), Bindings.usual().act(Area.REVIEW, KeyCode.Z, false, false, false));
    }

    @Test
    void leavesAltToTheSystem() {
        for (Act act : Act.values()) {
            for (Combination keys : act.combinations()) {
                assertEquals(
                        Optional.empty(),
                        Bindings.usual().act(Area.REVIEW, keys.code(), keys.control(), keys.shift(), true));
            }
        }
    }

    @Test
    void theNumericKeypadMagnifiesToo() {
        assertEquals(Optional.of(Act.ZOOM_IN), Bindings.usual().act(Area.REVIEW, KeyCode.ADD, false, false, false));
        assertEquals(
                Optional.of(Act.ZOOM_OUT), Bindings.usual().act(Area.REVIEW, KeyCode.SUBTRACT, false, false, false));
    }

    @Test
    void writesKeysAsKeyboardsDo() {
        assertEquals("Ctrl Shift Z", new Combination(KeyCode.Z, true, true).words());
        assertEquals(
                List.of("↑", "↓", "←", "→"),
                List.of(
                        Act.PART_UP.keyWords(),
                        Act.PART_DOWN.keyWords(),
                        Act.EXAM_EARLIER.keyWords(),
                        Act.EXAM_LATER.keyWords()));
    }
}
