package org.holdfast.measure;

import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.construct.PatchSample;

/**
 * What one sample of a face says in one exam.
 *
 * @param sample the place on the face, in the reference exam
 * @param tissue what lies beside the implant there
 * @param obstacle why nothing can be said, where so
 * @param edgeMm place of the implant's edge along the normal, mm from the laid-out patch
 * @param plateauHu HU of the implant under the face
 * @param gapMm width of the gap, where bone was found: the distance from the edge to where the threshold finds bone, for a
 *     gap less what the rule errs by on the model of this scan
 * @param hostHu median HU at the depth where host bone is read
 * @param beyondGuardHu mean HU over the 2 mm beyond the guard
 * @param isOppositeHostBone whether host bone lies opposite on the reference exam
 * @param isBridged whether it is contact that is connected with host bone in depth
 */
public record SampleReading(
        PatchSample sample,
        Tissue tissue,
        Optional<Obstacle> obstacle,
        OptionalDouble edgeMm,
        OptionalDouble plateauHu,
        OptionalDouble gapMm,
        OptionalDouble hostHu,
        OptionalDouble beyondGuardHu,
        boolean isOppositeHostBone,
        boolean isBridged) {

    public SampleReading {
        if (tissue == Tissue.NOT_ASSESSABLE != obstacle.isPresent()) {
            throw new IllegalArgumentException(
                    "a sample has an obstacle exactly if it is not assessable, got " + tissue + ", " + obstacle);
        }
    }
}
