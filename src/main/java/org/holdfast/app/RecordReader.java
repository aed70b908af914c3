package org.holdfast.app;

import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.PatchSample;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.measure.Answer;
import org.holdfast.measure.Stated;

/** Reads back what {@link RecordWriter} wrote. Who finds something else is told place, what was expected and found. */
final class RecordReader {

    private final Construct construct;
    private final double sampleSpacingMm;

    /**
     * @param construct names the interfaces and components that results refer to
     * @param sampleSpacingMm distance between samples on a face when the results were made
     */
    RecordReader(Construct construct, double sampleSpacingMm) {
        this.construct = construct;
        this.sampleSpacingMm = sampleSpacingMm;
    }

    /**
     * A record from its object.
     *
     * @throws UseCaseException if it is not such an object
     */
    <R extends Record> R read(JsonCursor node, Class<R> type) throws UseCaseException {
        return type.cast(record(node, type, List.of()));
    }

    private Object record(JsonCursor node, Class<?> type, List<PatchSample> samples) throws UseCaseException {
        node.names();
        RecordComponent[] components = type.getRecordComponents();
        Object[] values = new Object[components.length];
        List<PatchSample> ofFace = samples;
        for (int n = 0; n < components.length; n++) {
            values[n] = field(node, components[n].getName(), components[n].getGenericType(), ofFace);
            if (values[n] instanceof BoneInterface face) {
                ofFace = face.patches().stream()
                        .flatMap(patch -> patch.samples(sampleSpacingMm).stream())
                        .toList();
            }
        }
        return make(node, type, values);
    }

    private Object field(JsonCursor node, String name, Type type, List<PatchSample> samples) throws UseCaseException {
        return RecordTypes.hasReason(type)
                ? stated(node.field(name), node.field(name + RecordTypes.WHY), type, samples)
                : value(node.field(name), type, samples);
    }

    private Object stated(JsonCursor value, JsonCursor why, Type type, List<PatchSample> samples)
            throws UseCaseException {
        boolean isNumber = RecordTypes.raw(type) == Stated.class;
        if (!value.node().isNull()) {
            return isNumber
                    ? Stated.of(value.number())
                    : Answer.of(value(value, RecordTypes.argument(type, 0), samples));
        }
        String reason = why.text();
        if (reason.isEmpty()) {
            throw why.wrong("a reason");
        }
        return isNumber ? Stated.not(reason) : Answer.not(reason);
    }

    private Object value(JsonCursor node, Type type, List<PatchSample> samples) throws UseCaseException {
        Class<?> known = RecordTypes.raw(type);
        if (known == double.class || known == Double.class) {
            return node.node().isNull() ? Double.NaN : node.number();
        }
        if (known == OptionalDouble.class) {
            return node.numberOrNull();
        }
        if (known == int.class || known == Integer.class) {
            return node.integer();
        }
        if (known == OptionalInt.class) {
            return node.node().isNull() ? OptionalInt.empty() : OptionalInt.of(node.integer());
        }
        if (known == boolean.class || known == Boolean.class) {
            return node.yesOrNo();
        }
        if (known == String.class) {
            return node.text();
        }
        if (known.isEnum()) {
            return constant(node, known);
        }
        if (known == Optional.class) {
            return node.node().isNull()
                    ? Optional.empty()
                    : Optional.of(value(node, RecordTypes.argument(type, 0), samples));
        }
        return composed(node, type, known, samples);
    }

    private Object composed(JsonCursor node, Type type, Class<?> known, List<PatchSample> samples)
            throws UseCaseException {
        if (known == PatientPoint.class) {
            double[] xyz = numbers(node, 3);
            return new PatientPoint(xyz[0], xyz[1], xyz[2]);
        }
        if (known == PatientVector.class) {
            double[] xyz = numbers(node, 3);
            return new PatientVector(xyz[0], xyz[1], xyz[2]);
        }
        if (known == RigidTransform.class) {
            return pose(node);
        }
        if (known == BoneInterface.class) {
            String id = node.text();
            return construct.interfaces().stream()
                    .filter(each -> each.id().equals(id))
                    .findFirst()
                    .orElseThrow(() -> node.wrong("an interface of construct " + construct.id()));
        }
        if (known == Component.class) {
            String id = node.text();
            return construct.components().stream()
                    .filter(each -> each.id().equals(id))
                    .findFirst()
                    .orElseThrow(() -> node.wrong("a component of construct " + construct.id()));
        }
        if (known == Map.class) {
            return map(node, type, samples);
        }
        if (known == List.class && RecordTypes.isRow(RecordTypes.argument(type, 0))) {
            return table(node, RecordTypes.raw(RecordTypes.argument(type, 0)), samples);
        }
        if (known == List.class || known == Set.class) {
            List<Object> all = new ArrayList<>();
            for (JsonCursor each : node.list()) {
                all.add(value(each, RecordTypes.argument(type, 0), samples));
            }
            return known == List.class ? all : new LinkedHashSet<>(all);
        }
        if (known.isRecord()) {
            return record(node, known, samples);
        }
        throw new IllegalArgumentException("results hold no values of type " + type);
    }

    private Map<Object, Object> map(JsonCursor node, Type type, List<PatchSample> samples) throws UseCaseException {
        Class<?> keys = RecordTypes.raw(RecordTypes.argument(type, 0));
        Type values = RecordTypes.argument(type, 1);
        Map<Object, Object> map = new LinkedHashMap<>();
        for (String name : node.names()) {
            boolean isReason = RecordTypes.hasReason(values)
                    && name.endsWith(RecordTypes.WHY)
                    && node.node().has(name.substring(0, name.length() - RecordTypes.WHY.length()));
            if (!isReason) {
                map.put(key(node, name, keys), field(node, name, values, samples));
            }
        }
        return map;
    }

    private static Object key(JsonCursor node, String name, Class<?> type) throws UseCaseException {
        if (type == Integer.class) {
            try {
                return Integer.valueOf(name);
            } catch (NumberFormatException e) {
                throw new UseCaseException(node.at() + ": " + name + ": expected a whole number", e);
            }
        }
        if (!type.isEnum()) {
            return name;
        }
        return Arrays.stream(type.getEnumConstants())
                .filter(each -> ((Enum<?>) each).name().equals(name))
                .findFirst()
                .orElseThrow(() -> new UseCaseException(
                        node.at() + ": " + name + ": expected one of " + List.of(type.getEnumConstants())));
    }

    private List<Object> table(JsonCursor node, Class<?> element, List<PatchSample> samples) throws UseCaseException {
        List<JsonCursor> columns = node.field(RecordTypes.COLUMNS).list();
        List<JsonCursor> rows = node.field(RecordTypes.ROWS).list();
        boolean isOfSamples = Arrays.stream(element.getRecordComponents()).anyMatch(RecordTypes::isSample);
        if (isOfSamples && rows.size() != samples.size()) {
            throw new UseCaseException(node.field(RecordTypes.ROWS).at() + ": expected " + samples.size()
                    + " samples of the face, found " + rows.size());
        }
        List<Object> all = new ArrayList<>();
        for (int n = 0; n < rows.size(); n++) {
            all.add(row(rows.get(n), columns, element, isOfSamples ? samples.get(n) : null));
        }
        return all;
    }

    private Object row(JsonCursor row, List<JsonCursor> columns, Class<?> element, PatchSample sample)
            throws UseCaseException {
        List<JsonCursor> cells = row.list();
        if (cells.size() != columns.size()) {
            throw row.wrong(columns.size() + " values");
        }
        RecordComponent[] components = element.getRecordComponents();
        Object[] values = new Object[components.length];
        int next = 0;
        for (int n = 0; n < components.length; n++) {
            Type type = components[n].getGenericType();
            if (RecordTypes.isSample(components[n])) {
                values[n] = sample;
                continue;
            }
            int width = RecordTypes.hasReason(type) ? 2 : 1;
            if (next + width > cells.size() || !columns.get(next).text().equals(components[n].getName())) {
                throw row.wrong("column " + components[n].getName());
            }
            values[n] = width == 2
                    ? stated(cells.get(next), cells.get(next + 1), type, List.of())
                    : value(cells.get(next), type, List.of());
            next += width;
        }
        return make(row, element, values);
    }

    private static Object make(JsonCursor node, Class<?> type, Object[] values) throws UseCaseException {
        try {
            return type.getDeclaredConstructor(Arrays.stream(type.getRecordComponents())
                            .map(RecordComponent::getType)
                            .toArray(Class<?>[]::new))
                    .newInstance(values);
        } catch (InvocationTargetException e) {
            throw new UseCaseException(node.at() + ": " + e.getCause().getMessage(), e);
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException("a result record has a public canonical constructor", e);
        }
    }

    private static Object constant(JsonCursor node, Class<?> type) throws UseCaseException {
        String name = node.text();
        return Arrays.stream(type.getEnumConstants())
                .filter(each -> ((Enum<?>) each).name().equals(name))
                .findFirst()
                .orElseThrow(() -> node.wrong("one of " + List.of(type.getEnumConstants())));
    }

    private static RigidTransform pose(JsonCursor node) throws UseCaseException {
        try {
            return RigidTransform.ofMatrix(numbers(node, 16));
        } catch (IllegalArgumentException e) {
            throw new UseCaseException(node.at() + ": " + e.getMessage(), e);
        }
    }

    private static double[] numbers(JsonCursor node, int count) throws UseCaseException {
        List<JsonCursor> all = node.list();
        if (all.size() != count) {
            throw node.wrong(count + " numbers");
        }
        double[] values = new double[count];
        for (int n = 0; n < count; n++) {
            values[n] = all.get(n).number();
        }
        return values;
    }
}
