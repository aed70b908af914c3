package org.holdfast.intake;

import java.util.List;
import java.util.Objects;
import org.holdfast.finding.Finding;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.HuVolume;

/**
 * The HU of a stack with what is known about it. Immutable.
 *
 * @param volume HU with validity
 * @param acquisition how it was made
 * @param findings the stack's, and what loading added
 */
public record LoadedVolume(HuVolume volume, Acquisition acquisition, List<Finding> findings) {

    public LoadedVolume {
        Objects.requireNonNull(volume, "volume");
        Objects.requireNonNull(acquisition, "acquisition");
        findings = List.copyOf(findings);
    }
}
