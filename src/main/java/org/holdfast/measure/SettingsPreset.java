package org.holdfast.measure;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.Material;

/**
 * Sets of settings named by what they are for; each differs from the measurement definitions' values only where its
 * metal or scale asks for it, with the reason beside the value. The name is recorded with each result.
 */
public enum SettingsPreset {
    TITANIUM_POROUS("titanium-porous", "a porous titanium face: the values of the measurement definitions", List.of()),
    TITANIUM_SOLID(
            "titanium-solid",
            "solid titanium against bone, no porous face",
            List.of(
                    new Change(
                            "implantMinHu", 2500, "solid titanium reads as metal; what reads less is not the implant"),
                    new Change(
                            "knownMetalHu",
                            NominalMetal.TITANIUM_HU,
                            "where the scale cuts the metal off, the shift of its edge is corrected with titanium's HU"))),
    COBALT_CHROMIUM_OR_STEEL(
            "cobalt-chromium-or-steel",
            "cobalt-chromium or steel against bone, no porous face",
            List.of(
                    new Change("implantMinHu", 2500, "these metals read as metal; what reads less is not the implant"),
                    new Change(
                            "knownMetalHu",
                            NominalMetal.STEEL_HU,
                            "where the scale cuts the metal off, the shift of its edge is corrected with steel's HU"))),
    CLIPPED_DATA(
            "clipped-data",
            "a scale that cuts metal off, and metal that is not all solid titanium",
            List.of(new Change(
                    "guardSolidTitaniumMm",
                    2,
                    "at the ceiling one metal cannot be told from another: the guard of unknown metal for all that is"
                            + " solid"))),
    /** Values chosen one by one; they are not those of any preset. */
    AS_GIVEN("as-given", "values chosen one by one", List.of());

    /**
     * A value that differs from the measurement definitions'.
     *
     * @param setting name of the setting
     * @param value its value
     * @param reason why, in words
     */
    public record Change(String setting, double value, String reason) {}

    private static final Set<Material> STRONG = Set.of(Material.COBALT_CHROMIUM, Material.STEEL, Material.TANTALUM);

    private final String word;
    private final String purpose;
    private final List<Change> changes;

    SettingsPreset(String word, String purpose, List<Change> changes) {
        this.word = word;
        this.purpose = purpose;
        this.changes = changes;
    }

    /** Its name on a command line. */
    public String word() {
        return word;
    }

    /** What it is for, in words. */
    public String purpose() {
        return purpose;
    }

    /** What differs from the measurement definitions; empty where nothing does. */
    public List<Change> changes() {
        return changes;
    }

    /** The presets that can be asked for by name: all but {@link #AS_GIVEN}. */
    public static List<SettingsPreset> choices() {
        return Arrays.stream(values()).filter(p -> p != AS_GIVEN).toList();
    }

    /**
     * The preset of a name on a command line.
     *
     * @throws IllegalArgumentException if there is none, names those that there are
     */
    public static SettingsPreset ofWord(String word) {
        return choices().stream()
                .filter(p -> p.word.equals(word))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("preset must be one of "
                        + choices().stream().map(SettingsPreset::word).toList() + ", got '" + word + "'"));
    }

    /**
     * Its settings.
     *
     * @throws IllegalStateException for {@link #AS_GIVEN}, which has no values of its own
     */
    public MeasurementSettings settings() {
        if (this == AS_GIVEN) {
            throw new IllegalStateException("values chosen one by one are no preset");
        }
        Map<String, Double> values = changes.stream().collect(Collectors.toMap(Change::setting, Change::value));
        return SettingsJson.with(MeasurementSettings.withDefaults(), values, this);
    }

    /**
     * The preset that suits a construct on a scan, by the parts that are measured against bone (faces of interfaces, and
     * screws). A porous face decides over all else: under the others' limits it would not be found.
     *
     * @param clipped whether the scan's scale cuts metal off
     */
    public static SettingsPreset suggested(Construct construct, boolean clipped) {
        Set<String> faces =
                construct.interfaces().stream().map(BoneInterface::component).collect(Collectors.toSet());
        List<Component> measured = construct.components().stream()
                .filter(c -> faces.contains(c.id()) || c.kind().isScrew())
                .filter(c -> c.material().hasMetalEdge())
                .toList();
        boolean solidTitanium = !measured.isEmpty()
                && measured.stream()
                        .allMatch(c -> c.material() == Material.TITANIUM_SOLID
                                && c.porous().isEmpty());
        if (solidTitanium) {
            return TITANIUM_SOLID;
        }
        if (clipped) {
            return CLIPPED_DATA;
        }
        boolean strong = !measured.isEmpty()
                && measured.stream()
                        .allMatch(
                                c -> STRONG.contains(c.material()) && c.porous().isEmpty());
        return strong ? COBALT_CHROMIUM_OR_STEEL : TITANIUM_POROUS;
    }
}
