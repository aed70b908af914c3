package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.desktop.state.Words;
import org.holdfast.volume.Slab;
import org.holdfast.volume.Slab.Projection;

/**
 * A layer that can be drawn into one picture. Immutable.
 *
 * @param slab the layer; empty for the plane alone
 */
public record SlabChoice(Optional<Slab> slab) {

    private static final double[] THICKNESSES_MM = {1, 2, 5, 10, 20};

    /** The plane alone, then means and maxima of growing thickness. */
    public static List<SlabChoice> all() {
        List<SlabChoice> choices = new ArrayList<>();
        choices.add(new SlabChoice(Optional.empty()));
        for (Projection projection : Projection.values()) {
            for (double thickness : THICKNESSES_MM) {
                choices.add(new SlabChoice(Optional.of(new Slab(thickness, projection))));
            }
        }
        return choices;
    }

    /** The choice that a layer is. */
    public static SlabChoice of(Optional<Slab> slab) {
        return new SlabChoice(slab);
    }

    /** The choice in words. */
    public String words() {
        return slab.map(layer -> (layer.projection() == Projection.MEAN ? "mean of " : "maximum of ")
                        + Words.quantity(layer.thicknessMm(), 0, "mm"))
                .orElse("plane");
    }

    @Override
    public String toString() {
        return words();
    }
}
