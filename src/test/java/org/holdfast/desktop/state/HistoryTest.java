package org.holdfast.desktop.state;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Optional;
import org.junit.jupiter.api.Test;

final class HistoryTest {

    private final History<String> history = new History<>("a");

    @Test
    void takesTheLastActBackAndDoesItAgain() {
        history.become("b", "first", 1);
        history.become("c", "second", 2);
        assertEquals(Optional.of("second"), history.undo());
        assertEquals("b", history.now());
        assertEquals(Optional.of("first"), history.undo());
        assertEquals("a", history.now());
        assertEquals(Optional.of("first"), history.redo());
        assertEquals(Optional.of("second"), history.redo());
        assertEquals("c", history.now());
    }

    @Test
    void takesOneGestureBackAtOnce() {
        history.become("b", "window", "drag 1");
        history.become("c", "window", "drag 1");
        history.become("d", "window", "drag 2");
        history.undo();
        assertEquals("c", history.now());
        history.undo();
        assertEquals("a", history.now());
    }

    @Test
    void sameGestureAfterAnUndoIsANewAct() {
        history.become("b", "step", "wheel");
        history.become("c", "step", "wheel");
        history.undo();
        history.become("d", "step", "wheel");
        assertEquals(Optional.empty(), history.redo());
        history.undo();
        assertEquals("a", history.now());
    }

    @Test
    void saysWhenThereIsNothing() {
        assertEquals(Optional.empty(), history.undo());
        assertEquals(Optional.empty(), history.redo());
        history.become("a", "nothing new", 1);
        assertEquals(Optional.empty(), history.nextUndo());
    }

    @Test
    void forgetsTheOldestBeyondItsDepth() {
        for (int n = 0; n < 250; n++) {
            history.become("state " + n, "act", n);
        }
        int taken = 0;
        while (history.undo().isPresent()) {
            taken++;
        }
        // By hand: the depth that the class states.
        assertEquals(200, taken);
    }
}
