package org.holdfast.app;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.Component;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.measure.Answer;
import org.holdfast.measure.Stated;

/**
 * Result records as JSON, each component under its own name, so that nothing that was measured is left out when a record
 * grows: a value that is not stated is null with the reason under the name with "Why"; interfaces and components are
 * written by their id; a list of small records is a table {@code {columns [], rows [[]]}}.
 */
final class RecordWriter {

    private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

    private RecordWriter() {}

    /** A record as an object. */
    static ObjectNode write(Record value) {
        ObjectNode node = NODES.objectNode();
        for (RecordComponent component : value.getClass().getRecordComponents()) {
            put(node, component.getName(), RecordTypes.value(component, value), component.getGenericType());
        }
        return node;
    }

    private static void put(ObjectNode node, String name, Object value, Type type) {
        if (RecordTypes.hasReason(type)) {
            node.set(name, stated(value, type));
            String why = why(value);
            if (!why.isEmpty()) {
                node.put(name + RecordTypes.WHY, why);
            }
        } else {
            node.set(name, node(value, type));
        }
    }

    private static JsonNode stated(Object value, Type type) {
        if (value instanceof Stated number) {
            return node(number.value(), OptionalDouble.class);
        }
        Object known = ((Answer<?>) value).value().orElse(null);
        return known == null ? NODES.nullNode() : node(known, RecordTypes.argument(type, 0));
    }

    private static String why(Object value) {
        return value instanceof Stated number ? number.why() : ((Answer<?>) value).why();
    }

    private static JsonNode node(Object value, Type type) {
        if (value instanceof Double number) {
            return number.isNaN() ? NODES.nullNode() : NODES.numberNode(number);
        }
        if (value instanceof OptionalDouble number) {
            return number.isPresent() ? NODES.numberNode(number.getAsDouble()) : NODES.nullNode();
        }
        if (value instanceof OptionalInt number) {
            return number.isPresent() ? NODES.numberNode(number.getAsInt()) : NODES.nullNode();
        }
        if (value instanceof Optional<?> known) {
            return known.isPresent() ? node(known.get(), RecordTypes.argument(type, 0)) : NODES.nullNode();
        }
        if (value instanceof Integer number) {
            return NODES.numberNode(number);
        }
        if (value instanceof Boolean is) {
            return NODES.booleanNode(is);
        }
        if (value instanceof String text) {
            return NODES.textNode(text);
        }
        if (value instanceof Enum<?> name) {
            return NODES.textNode(name.name());
        }
        return composed(value, type);
    }

    private static JsonNode composed(Object value, Type type) {
        if (value instanceof PatientPoint p) {
            return numbers(p.x(), p.y(), p.z());
        }
        if (value instanceof PatientVector v) {
            return numbers(v.x(), v.y(), v.z());
        }
        if (value instanceof RigidTransform pose) {
            return numbers(pose.toMatrix());
        }
        if (value instanceof BoneInterface face) {
            return NODES.textNode(face.id());
        }
        if (value instanceof Component component) {
            return NODES.textNode(component.id());
        }
        if (value instanceof Map<?, ?> map) {
            ObjectNode node = NODES.objectNode();
            map.forEach((key, each) -> put(
                    node,
                    key instanceof Enum<?> name ? name.name() : key.toString(),
                    each,
                    RecordTypes.argument(type, 1)));
            return node;
        }
        if (value instanceof List<?> list && RecordTypes.isRow(RecordTypes.argument(type, 0))) {
            return table(list, RecordTypes.raw(RecordTypes.argument(type, 0)));
        }
        if (value instanceof Collection<?> all) {
            ArrayNode array = NODES.arrayNode();
            all.stream().map(each -> node(each, RecordTypes.argument(type, 0))).forEach(array::add);
            return array;
        }
        if (value instanceof Record part) {
            return write(part);
        }
        throw new IllegalArgumentException("results hold no values of type " + type);
    }

    private static ObjectNode table(List<?> list, Class<?> element) {
        ObjectNode node = NODES.objectNode();
        ArrayNode columns = node.putArray(RecordTypes.COLUMNS);
        for (RecordComponent component : element.getRecordComponents()) {
            if (!RecordTypes.isSample(component)) {
                columns.add(component.getName());
                if (RecordTypes.hasReason(component.getGenericType())) {
                    columns.add(component.getName() + RecordTypes.WHY);
                }
            }
        }
        ArrayNode rows = node.putArray(RecordTypes.ROWS);
        list.forEach(each -> row(rows.addArray(), each, element));
        return node;
    }

    private static void row(ArrayNode row, Object of, Class<?> element) {
        for (RecordComponent component : element.getRecordComponents()) {
            Object value = RecordTypes.value(component, of);
            Type type = component.getGenericType();
            if (RecordTypes.isSample(component)) {
                continue;
            }
            if (RecordTypes.hasReason(type)) {
                row.add(stated(value, type));
                row.add(why(value).isEmpty() ? NODES.nullNode() : NODES.textNode(why(value)));
            } else {
                row.add(node(value, type));
            }
        }
    }

    private static ArrayNode numbers(double... values) {
        ArrayNode array = NODES.arrayNode();
        for (double value : values) {
            array.add(value);
        }
        return array;
    }
}
