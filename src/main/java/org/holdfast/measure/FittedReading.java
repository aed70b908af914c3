package org.holdfast.measure;

import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.construct.PatchSample;

/**
 * What the fit says of one sample of a face in one exam.
 *
 * @param sample the place on the face, in the reference exam
 * @param tissue what lies beside the implant there
 * @param obstacle why nothing can be said, where so
 * @param edgeMm fitted edge of the implant along the normal, mm from the laid-out patch
 * @param gapMm fitted width of the gap, mm, at least 0
 * @param gapSeMm its standard error, mm: noise, the unknown front and the point spread's own error together
 * @param frontHu fitted HU of the bone's front
 * @param deepHu fitted HU of the deeper bone
 * @param isOppositeHostBone whether host bone lies opposite on the reference exam
 * @param isBridged whether it is contact that is connected with host bone in depth
 */
public record FittedReading(
        PatchSample sample,
        Tissue tissue,
        Optional<Obstacle> obstacle,
        OptionalDouble edgeMm,
        OptionalDouble gapMm,
        OptionalDouble gapSeMm,
        OptionalDouble frontHu,
        OptionalDouble deepHu,
        boolean isOppositeHostBone,
        boolean isBridged) {

    public FittedReading {
        if (tissue == Tissue.NOT_ASSESSABLE != obstacle.isPresent()) {
            throw new IllegalArgumentException(
                    "a sample has an obstacle exactly if it is not assessable, got " + tissue + ", " + obstacle);
        }
    }
}
