package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.holdfast.construct.Construct;
import org.holdfast.construct.ConstructJson;
import org.junit.jupiter.api.Test;

class StaleKeyTest {

    private static final List<String> SERIES = List.of("aa", "bb");
    private static final MeasurementSettings SETTINGS = MeasurementSettings.withDefaults();
    private static final Construct CONSTRUCT =
            new LayeredFace(new ProfileModel(2100, 30, 700, 0.8, 260, 0.42)).construct;

    private static String key(MeasurementSettings settings) {
        return StaleKey.of(settings, CONSTRUCT, SERIES);
    }

    private static String keyWith(String from, String to) throws Exception {
        String json = ConstructJson.write(CONSTRUCT);
        assertTrue(json.contains(from), from);
        return StaleKey.of(SETTINGS, ConstructJson.parse(json.replaceFirst(from, to), "changed"), SERIES);
    }

    @Test
    void isAHashThatDoesNotChangeByItself() throws Exception {
        assertTrue(key(SETTINGS).matches("[0-9a-f]{64}"));
        assertEquals(key(SETTINGS), key(MeasurementSettings.withDefaults()));
        assertEquals(
                key(SETTINGS),
                StaleKey.of(SETTINGS, ConstructJson.parse(ConstructJson.write(CONSTRUCT), "written"), SERIES));
    }

    /** Another word of each setting that is a word. */
    private static final Map<String, String> OTHER_WORDS = Map.of(
            "boneThreshold", "FIXED",
            "comparison", "AT_LEAST",
            "judgedBy", "WIDEST_SECTOR",
            "preset", "TITANIUM_SOLID");

    @Test
    void everySettingEnters() throws Exception {
        Set<String> keys = new HashSet<>(Set.of(key(SETTINGS)));
        changeEach(SettingsJson.write(SETTINGS), "", "", keys);
    }

    /** Changes one setting after the other, in groups as well, and adds the key of each document. */
    private static void changeEach(ObjectNode defaults, String before, String after, Set<String> keys)
            throws SettingsException {
        for (Iterator<String> names = defaults.fieldNames(); names.hasNext(); ) {
            String name = names.next();
            JsonNode value = defaults.get(name);
            String opened = before + "{\"" + name + "\": ";
            if (value instanceof ObjectNode group) {
                changeEach(group, opened, "}" + after, keys);
                continue;
            }
            // A little off the default stays inside every setting's range, but for the one that is 8 at most.
            String changed = value.isTextual()
                    ? "\"" + OTHER_WORDS.get(name) + "\""
                    : Double.toString(name.equals("hostToMm") ? 7.5 : value.doubleValue() + 0.01);
            assertTrue(keys.add(key(SettingsJson.parse(opened + changed + "}" + after, "test"))), opened);
        }
    }

    @Test
    void theConstructsGeometryEnters() throws Exception {
        Set<String> keys = new HashSet<>(Set.of(key(SETTINGS)));
        assertTrue(keys.add(keyWith("\"halfUMm\" : 8.0", "\"halfUMm\" : 8.1")));
        assertTrue(keys.add(keyWith("\"depthMm\" : 3.0", "\"depthMm\" : 3.1")));
        assertTrue(keys.add(keyWith("titanium-porous", "tantalum")));
        assertTrue(keys.add(keyWith("\"implantedOn\" : \"2030-01-01\"", "\"implantedOn\" : \"2030-01-02\"")));
    }

    @Test
    void labelsDoNotEnter() throws Exception {
        assertEquals(key(SETTINGS), keyWith("cranial endplate", "upper endplate"));
        assertEquals(key(SETTINGS), keyWith("\"label\" : \"T12\"", "\"label\" : \"L1\""));
    }

    @Test
    void seriesAndTheirOrderEnter() {
        String key = key(SETTINGS);
        assertNotEquals(key, StaleKey.of(SETTINGS, CONSTRUCT, List.of("bb", "aa")));
        assertNotEquals(key, StaleKey.of(SETTINGS, CONSTRUCT, List.of("aa", "cc")));
        assertNotEquals(key, StaleKey.of(SETTINGS, CONSTRUCT, List.of("aa")));
    }
}
