package org.holdfast.measure;

import org.holdfast.construct.Material;

/** HU that solid metals reach on an unclipped scale, for the model of a profile whose plateau the scale cuts off. */
final class NominalMetal {

    // Source: 16-bit maxima of rods at 120 kV in a CT phantom study, titanium 7140, stainless steel 13127 HU; cobalt
    // chromium is taken as steel (its density is near, 7.9 against 8.1 g/cm³), tantalum no lower than steel.
    static final double TITANIUM_HU = 7140;
    static final double STEEL_HU = 13127;

    private NominalMetal() {}

    /** The HU given in the settings where it is known, else the nominal one of the material. */
    static double hu(Material material, MeasurementSettings settings) {
        if (settings.knownMetalHu() > 0) {
            return settings.knownMetalHu();
        }
        return switch (material) {
            case TITANIUM_POROUS, TITANIUM_SOLID -> TITANIUM_HU;
            default -> STEEL_HU;
        };
    }
}
