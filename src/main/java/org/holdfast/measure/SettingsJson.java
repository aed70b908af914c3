package org.holdfast.measure;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.RecordComponent;
import java.util.Arrays;
import java.util.Iterator;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.holdfast.construct.JsonFault;

/**
 * Measurement settings as a JSON object: one field a setting, under the names of {@link MeasurementSettings}. A document
 * may give only the fields that differ from the defaults; an unknown field is refused.
 */
public final class SettingsJson {

    private static final JsonMapper MAPPER = JsonMapper.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();

    private SettingsJson() {}

    /**
     * Reads settings; fields that are not given keep their default.
     *
     * @param json a JSON object
     * @param source what the text came from, for messages
     * @throws SettingsException if the text is not such an object, names the field at fault
     */
    public static MeasurementSettings parse(String json, String source) throws SettingsException {
        JsonNode root;
        try {
            root = MAPPER.readTree(json);
        } catch (JsonProcessingException e) {
            throw new SettingsException(source + ": not JSON: " + JsonFault.words(e), e);
        }
        if (!(root instanceof ObjectNode object)) {
            throw new SettingsException(source + ": expected a JSON object of settings, found " + root.getNodeType());
        }
        Set<String> known = Arrays.stream(MeasurementSettings.class.getRecordComponents())
                .map(RecordComponent::getName)
                .collect(Collectors.toCollection(java.util.TreeSet::new));
        for (Iterator<String> names = object.fieldNames(); names.hasNext(); ) {
            String name = names.next();
            if (!known.contains(name)) {
                throw new SettingsException(source + ": unknown setting '" + name + "'; known are " + known);
            }
        }
        return build(object, source);
    }

    /** All settings as a JSON object, fields in alphabetical order. */
    public static ObjectNode write(MeasurementSettings settings) {
        TreeMap<String, Object> values = new TreeMap<>();
        for (RecordComponent component : MeasurementSettings.class.getRecordComponents()) {
            values.put(component.getName(), valueOf(component, settings));
        }
        ObjectNode node = MAPPER.createObjectNode();
        values.forEach((name, value) -> {
            if (value instanceof Double number) {
                node.put(name, number);
            } else {
                node.put(name, value.toString());
            }
        });
        return node;
    }

    private static MeasurementSettings build(ObjectNode object, String source) throws SettingsException {
        RecordComponent[] components = MeasurementSettings.class.getRecordComponents();
        Object[] values = new Object[components.length];
        MeasurementSettings defaults = MeasurementSettings.withDefaults();
        for (int n = 0; n < components.length; n++) {
            JsonNode given = object.get(components[n].getName());
            values[n] = given == null ? valueOf(components[n], defaults) : read(components[n], given, source);
        }
        try {
            return MeasurementSettings.class
                    .getDeclaredConstructor(Arrays.stream(components)
                            .map(RecordComponent::getType)
                            .toArray(Class<?>[]::new))
                    .newInstance(values);
        } catch (InvocationTargetException e) {
            throw new SettingsException(source + ": " + e.getCause().getMessage(), e.getCause());
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException("the settings record has no canonical constructor", e);
        }
    }

    private static Object read(RecordComponent component, JsonNode given, String source) throws SettingsException {
        if (component.getType() == double.class) {
            if (!given.isNumber()) {
                throw new SettingsException(
                        source + ": setting '" + component.getName() + "' expects a number, found " + given);
            }
            return given.doubleValue();
        }
        try {
            return BoneThreshold.valueOf(given.asText());
        } catch (IllegalArgumentException e) {
            throw new SettingsException(
                    source + ": setting '" + component.getName() + "' expects one of "
                            + Arrays.toString(BoneThreshold.values()) + ", found " + given,
                    e);
        }
    }

    private static Object valueOf(RecordComponent component, MeasurementSettings settings) {
        try {
            return component.getAccessor().invoke(settings);
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException("a record component can always be read", e);
        }
    }
}
