package org.holdfast.intake;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import org.holdfast.volume.Acquisition;

/**
 * What a header says of one of its frames. Immutable.
 *
 * @param plane where the frame lies in the patient; empty if the header does not say so in full
 * @param huScale how stored values become HU
 * @param acquisition how the frame was made
 * @param variants attributes that may tell images at one position apart
 */
record FrameFacts(
        Optional<SlicePlane> plane, HuScale huScale, Acquisition acquisition, Map<SplitAttribute, String> variants) {

    FrameFacts {
        variants = Collections.unmodifiableMap(new EnumMap<>(variants));
    }
}
