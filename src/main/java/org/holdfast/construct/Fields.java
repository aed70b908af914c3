package org.holdfast.construct;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * One object of a JSON document, read strictly: a field that is missing, of another type or unknown is refused with its
 * path.
 */
final class Fields {

    /** Longest piece of a document that is repeated in a message. */
    private static final int QUOTE_LENGTH = 60;

    private final String source;
    private final String path;
    private final JsonNode node;

    private Fields(String source, String path, JsonNode node) {
        this.source = source;
        this.path = path;
        this.node = node;
    }

    /** Makes a value of one element of a list. */
    interface Reading<T> {
        T read(Fields fields) throws ConstructReadException;
    }

    static Fields root(String source, JsonNode node) throws ConstructReadException {
        return object(source, "", node);
    }

    private static Fields object(String source, String path, JsonNode node) throws ConstructReadException {
        if (!node.isObject()) {
            throw new ConstructReadException(source, path, "an object", describe(node), null);
        }
        return new Fields(source, path, node);
    }

    /** Refuses every field but these. */
    Fields only(String... allowed) throws ConstructReadException {
        Set<String> known = Set.of(allowed);
        Iterator<String> names = node.fieldNames();
        while (names.hasNext()) {
            String name = names.next();
            if (!known.contains(name)) {
                throw refusal(
                        name,
                        "no such field (known here: " + String.join(", ", allowed) + ")",
                        describe(node.get(name)));
            }
        }
        return this;
    }

    boolean has(String name) {
        return node.has(name);
    }

    Fields object(String name) throws ConstructReadException {
        return object(source, at(name), required(name, "an object"));
    }

    String text(String name) throws ConstructReadException {
        JsonNode value = required(name, "a string");
        if (!value.isTextual()) {
            throw refusal(name, "a string", describe(value));
        }
        return value.textValue();
    }

    int wholeNumber(String name) throws ConstructReadException {
        JsonNode value = required(name, "a whole number");
        if (!value.isIntegralNumber() || !value.canConvertToInt()) {
            throw refusal(name, "a whole number", describe(value));
        }
        return value.intValue();
    }

    double number(String name) throws ConstructReadException {
        return number(at(name), required(name, "a number"));
    }

    LocalDate date(String name) throws ConstructReadException {
        String text = text(name);
        try {
            return LocalDate.parse(text);
        } catch (DateTimeException e) {
            throw new ConstructReadException(source, at(name), "a day as yyyy-mm-dd", Rule.quoted(text), e);
        }
    }

    Optional<LocalDate> optionalDate(String name) throws ConstructReadException {
        return has(name) ? Optional.of(date(name)) : Optional.empty();
    }

    PatientPoint point(String name) throws ConstructReadException {
        return point(at(name), required(name, "3 numbers [x, y, z]"));
    }

    PatientVector vector(String name) throws ConstructReadException {
        return point(name).minus(PatientPoint.ORIGIN);
    }

    /** A list of numbers of a fixed length. */
    List<Double> numbers(String name, int count) throws ConstructReadException {
        return numbers(at(name), required(name, count + " numbers"), count);
    }

    /** A list of whole numbers. */
    List<Integer> wholeNumbers(String name) throws ConstructReadException {
        List<Integer> values = new ArrayList<>();
        JsonNode list = array(name, "a list of whole numbers");
        for (int n = 0; n < list.size(); n++) {
            JsonNode value = list.get(n);
            if (!value.isIntegralNumber() || !value.canConvertToInt()) {
                throw refusal(name + "[" + n + "]", "a whole number", describe(value));
            }
            values.add(value.intValue());
        }
        return values;
    }

    List<PatientPoint> points(String name) throws ConstructReadException {
        List<PatientPoint> points = new ArrayList<>();
        JsonNode list = array(name, "a list of points [x, y, z]");
        for (int n = 0; n < list.size(); n++) {
            points.add(point(at(name) + "[" + n + "]", list.get(n)));
        }
        return points;
    }

    List<PatientVector> vectors(String name) throws ConstructReadException {
        return points(name).stream().map(p -> p.minus(PatientPoint.ORIGIN)).toList();
    }

    <T> List<T> list(String name, Reading<T> reading) throws ConstructReadException {
        List<T> values = new ArrayList<>();
        JsonNode list = array(name, "a list of objects");
        for (int n = 0; n < list.size(); n++) {
            values.add(reading.read(object(source, at(name) + "[" + n + "]", list.get(n))));
        }
        return values;
    }

    <E extends Enum<E> & Worded> E word(String name, Class<E> type) throws ConstructReadException {
        String text = text(name);
        for (E constant : type.getEnumConstants()) {
            if (constant.word().equals(text)) {
                return constant;
            }
        }
        String words = Arrays.stream(type.getEnumConstants()).map(Worded::word).collect(Collectors.joining(", "));
        throw refusal(name, "one of " + words, Rule.quoted(text));
    }

    /** The one of these fields that is there. */
    String exactlyOne(String... names) throws ConstructReadException {
        List<String> present = Stream.of(names).filter(this::has).toList();
        if (present.size() != 1) {
            throw new ConstructReadException(
                    source,
                    path,
                    "exactly one of " + String.join(", ", names),
                    present.isEmpty() ? "none" : String.join(" and ", present),
                    null);
        }
        return present.get(0);
    }

    /** Makes a record; a rule that it finds broken is told with this object's path. */
    <T> T checked(Supplier<T> made) throws ConstructReadException {
        try {
            return made.get();
        } catch (InvalidField e) {
            throw new ConstructReadException(source, at(e.field()), e.expected(), e.got(), e);
        }
    }

    ConstructReadException refusal(String name, String expected, String got) {
        return new ConstructReadException(source, at(name), expected, got, null);
    }

    private String at(String name) {
        return path.isEmpty() ? name : path + "." + name;
    }

    private JsonNode required(String name, String expected) throws ConstructReadException {
        JsonNode value = node.get(name);
        if (value == null) {
            throw refusal(name, expected, "nothing (the field is missing)");
        }
        return value;
    }

    private JsonNode array(String name, String expected) throws ConstructReadException {
        JsonNode list = required(name, expected);
        if (!list.isArray()) {
            throw refusal(name, expected, describe(list));
        }
        return list;
    }

    private PatientPoint point(String where, JsonNode value) throws ConstructReadException {
        List<Double> xyz = numbers(where, value, 3);
        return new PatientPoint(xyz.get(0), xyz.get(1), xyz.get(2));
    }

    private List<Double> numbers(String where, JsonNode list, int count) throws ConstructReadException {
        if (!list.isArray() || list.size() != count) {
            throw new ConstructReadException(source, where, count + " numbers in a list", describe(list), null);
        }
        List<Double> values = new ArrayList<>();
        for (int n = 0; n < count; n++) {
            values.add(number(where + "[" + n + "]", list.get(n)));
        }
        return values;
    }

    private double number(String where, JsonNode value) throws ConstructReadException {
        if (!value.isNumber() || !Double.isFinite(value.doubleValue())) {
            throw new ConstructReadException(source, where, "a finite number", describe(value), null);
        }
        return value.doubleValue();
    }

    private static String describe(JsonNode value) {
        String text = value.toString();
        String piece = text.length() > QUOTE_LENGTH ? text.substring(0, QUOTE_LENGTH) + "…" : text;
        return switch (value.getNodeType()) {
            case OBJECT -> "an object";
            case ARRAY -> "a list of " + value.size() + (value.size() == 1 ? " element" : " elements");
            case STRING -> "the string " + piece;
            case NUMBER -> "the number " + piece;
            case MISSING -> "nothing";
            default -> piece;
        };
    }
}
