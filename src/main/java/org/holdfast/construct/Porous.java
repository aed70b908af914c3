package org.holdfast.construct;

/**
 * A porous layer at a component's surface.
 *
 * @param porosity share of the layer's volume that is pores, above 0 and below 1
 * @param depthMm depth of the layer from the surface, mm, above 0
 */
public record Porous(double porosity, double depthMm) {
    public Porous {
        if (!(porosity > 0 && porosity < 1)) {
            throw new InvalidField("porosity", "a fraction above 0 and below 1", porosity);
        }
        Rule.positive("depthMm", depthMm);
    }
}
