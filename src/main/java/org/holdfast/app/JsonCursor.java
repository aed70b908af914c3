package org.holdfast.app;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.OptionalDouble;

/**
 * A place in a document that is read back: whoever asks for a value that is not there is told file, place, what was
 * expected and what was found.
 *
 * @param node what stands there
 * @param at file and place
 */
record JsonCursor(JsonNode node, String at) {

    /** The field of an object; a missing one is found when its value is asked for. */
    JsonCursor field(String name) {
        return new JsonCursor(node.path(name), at + "." + name);
    }

    /** The names of an object's fields. */
    List<String> names() throws UseCaseException {
        require(node.isObject(), "an object");
        List<String> names = new ArrayList<>();
        for (Iterator<String> each = node.fieldNames(); each.hasNext(); ) {
            names.add(each.next());
        }
        return names;
    }

    /** The elements of an array. */
    List<JsonCursor> list() throws UseCaseException {
        require(node.isArray(), "an array");
        List<JsonCursor> elements = new ArrayList<>();
        for (int n = 0; n < node.size(); n++) {
            elements.add(new JsonCursor(node.get(n), at + "[" + n + "]"));
        }
        return elements;
    }

    String text() throws UseCaseException {
        require(node.isTextual(), "a text");
        return node.textValue();
    }

    double number() throws UseCaseException {
        require(node.isNumber(), "a number");
        return node.doubleValue();
    }

    int integer() throws UseCaseException {
        require(node.isInt(), "a whole number");
        return node.intValue();
    }

    boolean yesOrNo() throws UseCaseException {
        require(node.isBoolean(), "true or false");
        return node.booleanValue();
    }

    /** A number, or null for none. */
    OptionalDouble numberOrNull() throws UseCaseException {
        return node.isNull() ? OptionalDouble.empty() : OptionalDouble.of(number());
    }

    /** One of a set of names. */
    <E extends Enum<E>> E oneOf(Class<E> type) throws UseCaseException {
        String name = text();
        for (E each : type.getEnumConstants()) {
            if (each.name().equals(name)) {
                return each;
            }
        }
        throw wrong("one of " + List.of(type.getEnumConstants()));
    }

    /** What to throw where something else was expected. */
    UseCaseException wrong(String expected) {
        return new UseCaseException(at + ": expected " + expected + ", found " + JsonFile.found(node));
    }

    private void require(boolean isSo, String expected) throws UseCaseException {
        if (!isSo) {
            throw wrong(expected);
        }
    }
}
