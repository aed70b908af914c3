package org.holdfast.construct;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.api.Test;

final class JsonFaultTest {

    @Test
    void namesLineAndColumnAndNothingOfTheParser() {
        JsonProcessingException fault =
                assertThrows(JsonProcessingException.class, () -> new ObjectMapper().readTree("{\n"));
        // By hand: the text ends at the start of its second line, in an object that was not closed.
        assertEquals(
                "Unexpected end-of-input: expected close marker for Object (line 2, column 1)", JsonFault.words(fault));
    }
}
