package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.lang.reflect.RecordComponent;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Ranges of the settings, and their document. */
class MeasurementSettingsTest {

    private static MeasurementSettings with(String name, String value) throws SettingsException {
        return SettingsJson.parse("{\"" + name + "\": " + value + "}", "s.json");
    }

    private static void assertRefused(String json, String... words) {
        SettingsException refusal = assertThrows(SettingsException.class, () -> SettingsJson.parse(json, "s.json"));
        assertTrue(refusal.getMessage().startsWith("s.json: "), refusal.getMessage());
        for (String word : words) {
            assertTrue(refusal.getMessage().contains(word), refusal.getMessage());
        }
    }

    private static List<String> numbers() {
        return Arrays.stream(MeasurementSettings.class.getRecordComponents())
                .filter(c -> c.getType() == double.class)
                .map(RecordComponent::getName)
                .toList();
    }

    @Test
    void everyNumberHasARangeAndIsNamedWhenOutsideIt() {
        assertEquals(28, numbers().size());
        for (String name : numbers()) {
            for (String value : new String[] {"-1e6", "1e6", "1e999"}) {
                assertRefused("{\"" + name + "\": " + value + "}", name + " must lie in [", "got ");
            }
        }
    }

    @Test
    void windowsStayInsideTheProfile() throws Exception {
        // By hand: the profile ends at 8 mm.
        assertEquals(7, with("hostToMm", "7").hostToMm(), 0);
        for (String name : List.of("hostToMm", "gapLimitMm", "bridgingDepthMm")) {
            assertRefused("{\"" + name + "\": 8.1}", name + " must lie in [");
        }
        // By hand: the host's window must be half a millimetre long at least.
        assertRefused("{\"hostFromMm\": 7.6}", "hostToMm must lie in [8.1, 8.0]");
        assertEquals(7.5, with("hostFromMm", "7.5").hostFromMm(), 0);
    }

    @Test
    void fieldsLeftOutKeepTheirDefault() throws Exception {
        assertEquals(MeasurementSettings.withDefaults(), SettingsJson.parse("{}", "s.json"));
        MeasurementSettings fixed =
                SettingsJson.parse("{\"boneThreshold\": \"FIXED\", \"fixedBoneHu\": 200}", "s.json");
        assertEquals(BoneThreshold.FIXED, fixed.boneThreshold());
        assertEquals(200, fixed.fixedBoneHu(), 0);
        assertEquals(MeasurementSettings.withDefaults().fluidHu(), fixed.fluidHu(), 0);
    }

    @Test
    void writtenSettingsAreReadAsTheSame() throws Exception {
        MeasurementSettings settings =
                SettingsJson.parse("{\"boneThreshold\": \"FIXED\", \"profileStepMm\": 0.0625}", "s.json");
        assertEquals(settings, SettingsJson.parse(SettingsJson.write(settings).toString(), "again"));
    }

    @Test
    void aGroupIsReadByPartsAndNamedByItsPath() throws Exception {
        MeasurementSettings read = SettingsJson.parse("{\"lucency\": {\"limitMm\": 2}}", "s.json");
        assertEquals(2, read.lucency().limitMm(), 0);
        assertEquals(LucencySettings.withDefaults().comparison(), read.lucency().comparison());
        assertEquals(FitSettings.withDefaults(), read.fit());
        assertEquals(read, SettingsJson.parse(SettingsJson.write(read).toString(), "again"));
        assertRefused("{\"lucency\": {\"limitMm\": -1}}", "lucency.limitMm must lie in [", "got -1");
        assertRefused("{\"lucency\": {\"limit\": 1}}", "unknown setting 'lucency.limit'", "limitMm");
        assertRefused("{\"lucency\": {\"limitMm\": \"1\"}}", "setting 'lucency.limitMm' expects a number");
        assertRefused("{\"lucency\": 1}", "setting 'lucency' expects an object of settings, found 1");
    }

    @Test
    void refusesWhatIsNoSetting() {
        assertRefused("{\"boneHu\": 250}", "unknown setting 'boneHu'", "fixedBoneHu");
        assertRefused("{\"fluidHu\": \"30\"}", "setting 'fluidHu' expects a number, found \"30\"");
        assertRefused("{\"fluidHu\": null}", "setting 'fluidHu' expects a number, found null");
        assertRefused(
                "{\"boneThreshold\": \"OTHER\"}", "'boneThreshold' expects one of [HOST_RELATIVE, FIXED]", "OTHER");
        assertRefused("{\"boneThreshold\": 1}", "'boneThreshold' expects one of");
    }

    @Test
    void refusesWhatIsNoSettingsDocument() {
        assertRefused("[]", "expected a JSON object of settings, found ARRAY");
        assertRefused("", "expected a JSON object of settings");
        assertRefused("{\"fluidHu\": ", "not JSON");
    }
}
