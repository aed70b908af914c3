package org.holdfast.app;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.OptionalDouble;
import org.holdfast.measure.Stated;

/** What all result documents have in common: a value that is not stated is null, with the reason beside it. */
final class JsonDocument {

    private static final ObjectMapper MAPPER = new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

    private JsonDocument() {}

    /** An empty document. */
    static ObjectNode empty() {
        return MAPPER.createObjectNode();
    }

    /** The document as text, indented. */
    static String text(ObjectNode document) {
        try {
            return MAPPER.writeValueAsString(document);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a tree of plain values can always be written", e);
        }
    }

    /** The document as text on one line, for what is read by programs only. */
    static String line(ObjectNode document) {
        return document.toString();
    }

    /** Puts a number, or null and why it is not stated. */
    static void number(ObjectNode node, String name, OptionalDouble value, String why) {
        if (value.isPresent()) {
            node.put(name, value.getAsDouble());
        } else {
            absent(node, name, why);
        }
    }

    /** Puts a number, or null and why it is not stated. */
    static void stated(ObjectNode node, String name, Stated value) {
        number(node, name, value.value(), value.why());
    }

    /** Puts the three numbers of a vector. */
    static void xyz(ObjectNode node, String name, double x, double y, double z) {
        node.putArray(name).add(x).add(y).add(z);
    }

    /** Puts null and, under the name with "Why", the reason. */
    static void absent(ObjectNode node, String name, String why) {
        node.putNull(name);
        node.put(name + "Why", why);
    }
}
