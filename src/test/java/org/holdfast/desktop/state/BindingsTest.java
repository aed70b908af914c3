package org.holdfast.desktop.state;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import javafx.scene.input.KeyCode;
import org.holdfast.desktop.state.MouseAct.Held;
import org.junit.jupiter.api.Test;

final class BindingsTest {

    private static final Held NOTHING = new Held(false, false, false);
    private static final Held CONTROL = new Held(true, false, false);
    private static final Held SHIFT = new Held(false, true, false);
    private static final Held ALT = new Held(false, false, true);

    @Test
    void usualMouseStepsMagnifiesCrossesMovesAndWindows() {
        Bindings usual = Bindings.usual();
        assertEquals(Optional.of(MouseAct.STEP), usual.wheel(NOTHING));
        assertEquals(Optional.of(MouseAct.ZOOM), usual.wheel(CONTROL));
        assertEquals(Optional.of(MouseAct.STEP), usual.wheel(SHIFT));
        assertEquals(Optional.of(MouseAct.CROSSING), usual.drag(NOTHING));
        assertEquals(Optional.of(MouseAct.PAN), usual.drag(SHIFT));
        assertEquals(Optional.of(MouseAct.WINDOW), usual.drag(ALT));
        assertEquals(Optional.empty(), usual.drag(CONTROL));
    }

    @Test
    void ownKeysTakeThePlaceOfTheUsualOnes() {
        Bindings own = Bindings.of(Map.of("LINK", List.of("Ctrl+L", "F7")), Map.of());
        assertEquals(Optional.of(Act.LINK), own.act(Act.Area.REVIEW, KeyCode.L, true, false, false));
        assertEquals(Optional.of(Act.LINK), own.act(Act.Area.REVIEW, KeyCode.F7, false, false, false));
        assertEquals(Optional.empty(), own.act(Act.Area.REVIEW, KeyCode.J, false, false, false));
        assertEquals(Optional.of(Act.LENGTH), own.act(Act.Area.REVIEW, KeyCode.L, false, false, false));
        assertEquals("Ctrl L", own.keyWords(Act.LINK));
    }

    @Test
    void ownGesturesTakeThePlaceOfTheUsualOnes() {
        Bindings own = Bindings.of(Map.of(), Map.of("PAN", "Ctrl+drag", "STEP", "Shift+wheel"));
        assertEquals(Optional.of(MouseAct.PAN), own.drag(CONTROL));
        assertEquals(Optional.empty(), own.drag(SHIFT));
        assertEquals(Optional.of(MouseAct.STEP), own.wheel(SHIFT));
        assertEquals(Optional.empty(), own.wheel(NOTHING));
        assertEquals("Shift wheel", own.words(MouseAct.STEP));
    }

    @Test
    void anActMayBeLeftWithoutAKey() {
        Bindings own = Bindings.of(Map.of("THEME", List.of()), Map.of());
        assertEquals("", own.keyWords(Act.THEME));
        assertEquals(Optional.empty(), own.act(Act.Area.REVIEW, KeyCode.F9, false, false, false));
    }

    @Test
    void refusesWhatItDoesNotKnowAndSaysWhere() {
        refuses(Map.of("JUMP", List.of("J")), Map.of(), "JUMP");
        refuses(Map.of("LINK", List.of("Hyper+J")), Map.of(), "Hyper");
        refuses(Map.of("LINK", List.of("Nokey")), Map.of(), "Nokey");
        refuses(Map.of("LINK", List.of("Alt+J")), Map.of(), "Alt");
        refuses(Map.of(), Map.of("PAN", "Shift+wheel"), "drag");
    }

    @Test
    void refusesOneKeyForTwoActs() {
        refuses(Map.of("LINK", List.of("V")), Map.of(), "WHOLE_EXAM");
        refuses(Map.of(), Map.of("PAN", "drag"), "CROSSING");
    }

    private static void refuses(Map<String, List<String>> keys, Map<String, String> mouse, String named) {
        String message = assertThrows(IllegalArgumentException.class, () -> Bindings.of(keys, mouse))
                .getMessage();
        assertTrue(message.contains(named), message);
    }
}
