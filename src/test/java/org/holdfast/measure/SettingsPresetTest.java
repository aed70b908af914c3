package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.Filler;
import org.holdfast.construct.Material;
import org.junit.jupiter.api.Test;

/** What the presets hold, when one is proposed, and that a name is kept only with its values. */
class SettingsPresetTest {

    private static Construct of(Material material) {
        return new LayeredFace(new ProfileModel(2100, 30, 700, 0.8, 260, 0.42), Filler.NONE, material).construct;
    }

    private static Construct withoutPores(Material material) {
        Construct layered = of(material);
        Component c = layered.components().get(0);
        Component solid = new Component(
                c.id(),
                c.number(),
                c.label(),
                c.kind(),
                c.material(),
                c.implantedOn(),
                c.removedOn(),
                Optional.empty(),
                c.shape());
        return new Construct(
                layered.id(),
                layered.version(),
                layered.operationDate(),
                layered.referenceSeriesUid(),
                layered.frameOfReferenceUid(),
                layered.axes(),
                layered.bones(),
                List.of(solid),
                layered.joins(),
                layered.interfaces());
    }

    @Test
    void porousTitaniumHoldsTheDefinitions() {
        assertEquals(MeasurementSettings.withDefaults(), SettingsPreset.TITANIUM_POROUS.settings());
        assertTrue(SettingsPreset.TITANIUM_POROUS.changes().isEmpty());
    }

    @Test
    void eachHoldsItsChangesUnderItsName() {
        for (SettingsPreset preset : SettingsPreset.choices()) {
            assertEquals(preset, preset.settings().preset());
            for (SettingsPreset.Change change : preset.changes()) {
                assertFalse(change.reason().isBlank(), change.setting());
            }
        }
        // Source: 16-bit maxima of titanium and steel rods at 120 kV, as in NominalMetal.
        assertEquals(7140, SettingsPreset.TITANIUM_SOLID.settings().knownMetalHu(), 0);
        // Source: as above.
        assertEquals(13127, SettingsPreset.COBALT_CHROMIUM_OR_STEEL.settings().knownMetalHu(), 0);
        // Source: measurement definitions, section 3, guard of clipped data of unknown metal.
        assertEquals(2, SettingsPreset.CLIPPED_DATA.settings().guardSolidTitaniumMm(), 0);
    }

    @Test
    void nameIsLostWithItsValues() throws Exception {
        MeasurementSettings named = SettingsJson.parse("{\"preset\": \"TITANIUM_SOLID\"}", "s.json");
        assertEquals(SettingsPreset.TITANIUM_SOLID.settings(), named);
        MeasurementSettings changed = SettingsJson.parse("{\"preset\": \"TITANIUM_SOLID\", \"fluidHu\": 20}", "s.json");
        assertEquals(SettingsPreset.AS_GIVEN, changed.preset());
        // Source: TITANIUM_SOLID's own value, which the document does not change.
        assertEquals(2500, changed.implantMinHu(), 0);
        assertEquals(
                SettingsPreset.AS_GIVEN,
                SettingsJson.parse("{\"fluidHu\": 20}", "s.json").preset());
    }

    @Test
    void whatIsWrittenIsReadUnderTheSameName() throws Exception {
        for (SettingsPreset preset : SettingsPreset.choices()) {
            MeasurementSettings settings = preset.settings();
            assertEquals(
                    settings, SettingsJson.parse(SettingsJson.write(settings).toString(), "again"));
        }
        MeasurementSettings own = SettingsJson.parse("{\"fluidHu\": 20}", "s.json");
        assertEquals(own, SettingsJson.parse(SettingsJson.write(own).toString(), "again"));
    }

    @Test
    void suggestsByMetalAndScale() {
        assertEquals(SettingsPreset.TITANIUM_POROUS, SettingsPreset.suggested(of(Material.TITANIUM_POROUS), false));
        assertEquals(SettingsPreset.CLIPPED_DATA, SettingsPreset.suggested(of(Material.TITANIUM_POROUS), true));
        assertEquals(SettingsPreset.TITANIUM_SOLID, SettingsPreset.suggested(of(Material.TITANIUM_SOLID), false));
        assertEquals(SettingsPreset.TITANIUM_SOLID, SettingsPreset.suggested(of(Material.TITANIUM_SOLID), true));
        assertEquals(SettingsPreset.COBALT_CHROMIUM_OR_STEEL, SettingsPreset.suggested(of(Material.STEEL), false));
        assertEquals(SettingsPreset.CLIPPED_DATA, SettingsPreset.suggested(of(Material.COBALT_CHROMIUM), true));
    }

    @Test
    void aPorousFoamKeepsTheLimitOfPorousFaces() {
        assertEquals(SettingsPreset.TITANIUM_POROUS, SettingsPreset.suggested(of(Material.TANTALUM), false));
        assertEquals(
                SettingsPreset.COBALT_CHROMIUM_OR_STEEL,
                SettingsPreset.suggested(withoutPores(Material.TANTALUM), false));
    }

    @Test
    void isFoundByItsWord() {
        assertEquals(SettingsPreset.CLIPPED_DATA, SettingsPreset.ofWord("clipped-data"));
        IllegalArgumentException refusal =
                assertThrows(IllegalArgumentException.class, () -> SettingsPreset.ofWord("as-given"));
        assertTrue(refusal.getMessage().contains("titanium-solid"), refusal.getMessage());
        assertThrows(IllegalStateException.class, SettingsPreset.AS_GIVEN::settings);
    }
}
