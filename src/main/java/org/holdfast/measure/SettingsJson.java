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
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.holdfast.construct.JsonFault;

/**
 * Measurement settings as a JSON object: one field a setting, under the names of {@link MeasurementSettings}. A document
 * may give only the fields that differ from the defaults, or from the preset that it names; an unknown field is refused.
 * Settings keep a preset's name only where all their values are the preset's.
 */
public final class SettingsJson {

    private static final String PRESET = "preset";

    private static final JsonMapper MAPPER = JsonMapper.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();

    private SettingsJson() {}

    /**
     * Reads settings; fields that are not given have the value of the preset that the document names, else their default.
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
        MeasurementSettings base = base(object, source);
        MeasurementSettings read = build(base, object, "", source);
        // A named preset with other values would be a false name.
        return read.equals(base) ? base : renamed(read, SettingsPreset.AS_GIVEN);
    }

    private static MeasurementSettings base(ObjectNode object, String source) throws SettingsException {
        MeasurementSettings defaults = MeasurementSettings.withDefaults();
        JsonNode given = object.get(PRESET);
        if (given == null) {
            return defaults;
        }
        SettingsPreset named = (SettingsPreset) read(defaults.preset(), given, PRESET, source);
        return named == SettingsPreset.AS_GIVEN ? defaults : named.settings();
    }

    /** Settings with some numbers changed, under the name of a preset; the numbers are named as in a document. */
    static MeasurementSettings with(MeasurementSettings settings, Map<String, Double> changes, SettingsPreset preset) {
        ObjectNode object = MAPPER.createObjectNode();
        changes.forEach(object::put);
        try {
            return renamed(build(settings, object, "", preset.word()), preset);
        } catch (SettingsException e) {
            throw new IllegalStateException("a preset's own values are valid settings", e);
        }
    }

    private static MeasurementSettings renamed(MeasurementSettings settings, SettingsPreset preset) {
        ObjectNode object = MAPPER.createObjectNode().put(PRESET, preset.name());
        try {
            return build(settings, object, "", preset.word());
        } catch (SettingsException e) {
            throw new IllegalStateException("settings stay valid under another name", e);
        }
    }

    /** All settings as a JSON object, fields in alphabetical order; a group of settings is an object of its own. */
    public static ObjectNode write(MeasurementSettings settings) {
        return writeRecord(settings);
    }

    private static ObjectNode writeRecord(Record settings) {
        TreeMap<String, Object> values = new TreeMap<>();
        for (RecordComponent component : settings.getClass().getRecordComponents()) {
            values.put(component.getName(), valueOf(component, settings));
        }
        ObjectNode node = MAPPER.createObjectNode();
        values.forEach((name, value) -> {
            if (value instanceof Double number) {
                node.put(name, number);
            } else if (value instanceof Record group) {
                node.set(name, writeRecord(group));
            } else {
                node.put(name, value.toString());
            }
        });
        return node;
    }

    /** A record of settings with the fields given in an object; what is not given keeps its default. */
    private static <R extends Record> R build(R defaults, ObjectNode object, String path, String source)
            throws SettingsException {
        RecordComponent[] components = defaults.getClass().getRecordComponents();
        requireKnown(components, object, path, source);
        Object[] values = new Object[components.length];
        for (int n = 0; n < components.length; n++) {
            JsonNode given = object.get(components[n].getName());
            Object usual = valueOf(components[n], defaults);
            values[n] = given == null ? usual : read(usual, given, path + components[n].getName(), source);
        }
        try {
            @SuppressWarnings("unchecked")
            R made = (R) defaults.getClass()
                    .getDeclaredConstructor(Arrays.stream(components)
                            .map(RecordComponent::getType)
                            .toArray(Class<?>[]::new))
                    .newInstance(values);
            return made;
        } catch (InvocationTargetException e) {
            throw new SettingsException(source + ": " + path + e.getCause().getMessage(), e.getCause());
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException("the settings record has no canonical constructor", e);
        }
    }

    private static void requireKnown(RecordComponent[] components, ObjectNode object, String path, String source)
            throws SettingsException {
        Set<String> known = Arrays.stream(components)
                .map(RecordComponent::getName)
                .collect(Collectors.toCollection(java.util.TreeSet::new));
        for (Iterator<String> names = object.fieldNames(); names.hasNext(); ) {
            String name = names.next();
            if (!known.contains(name)) {
                throw new SettingsException(source + ": unknown setting '" + path + name + "'; known are " + known);
            }
        }
    }

    private static Object read(Object usual, JsonNode given, String name, String source) throws SettingsException {
        if (usual instanceof Record group) {
            if (!(given instanceof ObjectNode object)) {
                throw new SettingsException(
                        source + ": setting '" + name + "' expects an object of settings, found " + given);
            }
            return build(group, object, name + ".", source);
        }
        if (usual instanceof Double) {
            if (!given.isNumber()) {
                throw new SettingsException(source + ": setting '" + name + "' expects a number, found " + given);
            }
            return given.doubleValue();
        }
        Object[] words = usual.getClass().getEnumConstants();
        for (Object word : words) {
            if (word.toString().equals(given.asText())) {
                return word;
            }
        }
        throw new SettingsException(
                source + ": setting '" + name + "' expects one of " + Arrays.toString(words) + ", found " + given);
    }

    private static Object valueOf(RecordComponent component, Record settings) {
        try {
            return component.getAccessor().invoke(settings);
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException("a record component can always be read", e);
        }
    }
}
