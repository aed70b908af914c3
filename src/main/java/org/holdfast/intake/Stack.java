package org.holdfast.intake;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.holdfast.finding.Finding;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.VolumeGrid;

/**
 * Parallel slices of one series on one grid, ascending along their normal. Immutable.
 *
 * @param seriesInstanceUid the series
 * @param stackNumber 1-based number within the series
 * @param grid where the voxels lie
 * @param slices one file a slice, in the grid's order
 * @param whyNoHu why it cannot be loaded as HU; empty if it can
 * @param findings what a person should know about it
 */
public record Stack(
        String seriesInstanceUid,
        int stackNumber,
        VolumeGrid grid,
        List<Slice> slices,
        Optional<String> whyNoHu,
        List<Finding> findings) {

    public Stack {
        Objects.requireNonNull(seriesInstanceUid, "seriesInstanceUid");
        Objects.requireNonNull(grid, "grid");
        Objects.requireNonNull(whyNoHu, "whyNoHu");
        slices = List.copyOf(slices);
        findings = List.copyOf(findings);
        if (slices.size() != grid.slices()) {
            throw new IllegalArgumentException(
                    "the grid has " + grid.slices() + " slices, there are " + slices.size() + " files");
        }
    }

    /** How the stack was made, by its first slice; what differs between slices is in the findings. */
    public Acquisition acquisition() {
        return slices.get(0).acquisition();
    }

    /** The space that the positions refer to; empty text if not said. */
    public String frameOfReferenceUid() {
        return slices.get(0).identity().frameOfReferenceUid();
    }

    /** Where findings about this stack point to. */
    public String where() {
        return "series " + seriesInstanceUid + ", stack " + stackNumber;
    }
}
