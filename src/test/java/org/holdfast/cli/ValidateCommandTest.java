package org.holdfast.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.List;
import org.holdfast.app.Caution;
import org.junit.jupiter.api.Test;

class ValidateCommandTest {

    private final CapturedTerminal terminal = new CapturedTerminal();

    @Test
    void asksWhatToValidate() {
        assertEquals(ExitCode.WRONG_USE, terminal.run(CapturedTerminal::commands, "validate"));
        assertTrue(terminal.messages().contains("name what to validate: contact"), terminal.messages());
        assertEquals("", terminal.result());
    }

    @Test
    void refusesWhatItCannotValidate() {
        assertEquals(ExitCode.WRONG_USE, terminal.run(CapturedTerminal::commands, "validate", "everything"));
    }

    @Test
    void documentHasItsRows() throws Exception {
        int code = terminal.run(CapturedTerminal::commands, "validate", "contact", "--quick", "--json");
        assertEquals(ExitCode.DONE, code, terminal.messages());
        JsonNode document = new ObjectMapper().readTree(terminal.result());
        assertEquals(Caution.TEXT, document.get("caution").asText());
        assertTrue(document.get("software").isTextual());
        assertTrue(document.get("formatVersion").isInt());
        assertFalse(document.get("rows").isEmpty());
        boolean someGoal = false;
        for (JsonNode row : document.get("rows")) {
            for (String name : List.of("measure", "phantom", "metal")) {
                assertFalse(row.get(name).textValue().isBlank(), name);
            }
            assertTrue(row.get("n").isInt() && row.get("notApplicable").isInt());
            for (String name : List.of("bias", "lower", "upper", "goalBias", "goalLower", "goalUpper")) {
                assertTrue(
                        row.get(name).isNumber() || row.get(name).isNull() && row.hasNonNull(name + "Why"),
                        () -> name + " in " + row);
            }
            if (row.get("share").booleanValue()) {
                assertEquals(row.get("goalUpper").isNumber(), row.get("reached").isBoolean(), row.toString());
            } else if (row.get("goalBias").isNumber()) {
                someGoal = true;
                assertTrue(row.get("reached").booleanValue(), row.toString());
                assertTrue(
                        row.get("lower").doubleValue() >= row.get("goalLower").doubleValue());
                assertTrue(
                        row.get("upper").doubleValue() <= row.get("goalUpper").doubleValue());
            } else {
                assertTrue(row.get("reached").isNull() && row.hasNonNull("reachedWhy"), row.toString());
            }
        }
        assertTrue(someGoal);
    }
}
