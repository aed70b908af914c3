package org.holdfast.intake;

import java.util.List;
import java.util.Objects;
import org.holdfast.finding.Finding;
import org.holdfast.volume.Radiograph;

/**
 * A radiograph with what is to be known about it. Immutable.
 *
 * @param film pixels and the way to their greys
 * @param findings what was odd about it
 */
public record LoadedRadiograph(Radiograph film, List<Finding> findings) {

    public LoadedRadiograph {
        Objects.requireNonNull(film, "film");
        findings = List.copyOf(findings);
    }
}
