package org.holdfast.desktop.state;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import javafx.scene.input.KeyCode;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** The one table of keys. */
final class ActTest {

    @Test
    void givesEachKeyOneAct() {
        Map<Act.Combination, Act> acts = new HashMap<>();
        for (Act act : Act.values()) {
            for (Act.Combination combination : act.combinations()) {
                assertNull(acts.put(combination, act), combination.words() + " has two acts");
            }
        }
    }

    @ParameterizedTest
    @EnumSource(Act.class)
    void findsAnActByEachOfItsKeysAndSaysWhatItDoes(Act act) {
        assertFalse(act.combinations().isEmpty());
        assertFalse(act.words().isBlank());
        for (Act.Combination each : act.combinations()) {
            assertEquals(Optional.of(act), Act.of(each.code(), each.control(), each.shift(), false));
        }
    }

    // By hand: the keys that the users' guide and the page of keys promise, those of the numeric keypad among them
    @ParameterizedTest
    @CsvSource({
        "ADD,false,false,ZOOM_IN",
        "SUBTRACT,false,false,ZOOM_OUT",
        "EQUALS,false,true,ZOOM_IN",
        "PERIOD,false,true,STEP_ON_FIVE",
        "COMMA,false,false,STEP_BACK",
        "Z,true,true,REDO",
        "Z,true,false,UNDO",
        "O,true,false,OPEN_SUBJECT",
        "M,true,false,MEASURE_AGAIN",
        "DELETE,false,false,REMOVE_MARK",
        "F1,false,false,KEYS",
        "F2,false,false,LIMITS",
        "F9,false,false,THEME"
    })
    void knowsTheKeysThatAreUsedMost(KeyCode code, boolean control, boolean shift, Act act) {
        assertEquals(Optional.of(act), Act.of(code, control, shift, false));
    }

    @Test
    void leavesKeysWithAltToTheSystem() {
        assertEquals(Optional.empty(), Act.of(KeyCode.LEFT, false, false, true));
    }

    @Test
    void doesNothingOnAKeyHeldWithAnotherThanItsOwn() {
        assertEquals(Optional.empty(), Act.of(KeyCode.W, true, false, false));
        assertEquals(Optional.empty(), Act.of(KeyCode.O, false, false, false));
    }

    @Test
    void writesKeysAsTheyStandOnTheKeyboard() {
        assertEquals("Ctrl Shift Z", Act.REDO.keyWords());
        assertEquals("\u2212", Act.ZOOM_OUT.keyWords());
    }
}
