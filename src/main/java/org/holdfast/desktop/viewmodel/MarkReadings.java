package org.holdfast.desktop.viewmodel;

import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.holdfast.desktop.state.ImageMark;
import org.holdfast.volume.HuVolume;

/**
 * What marks measure, read once each. A mark whose exam's images are not there yet is read when they are; what was read
 * stays when they are let go again.
 */
public final class MarkReadings {

    private final Map<ImageMark, MarkReading> readings = new HashMap<>();
    private final Set<ImageMark> readOnImages = new HashSet<>();

    /**
     * What a mark measures, as far as can be told now.
     *
     * @param mark the mark; changed in shape it is another one
     * @param volume the exam's volume; empty while it is not there
     */
    public MarkReading of(ImageMark mark, Optional<HuVolume> volume) {
        if (volume.isPresent() && readOnImages.add(mark)) {
            readings.put(mark, MarkReading.of(mark, volume));
        }
        return readings.computeIfAbsent(mark, unread -> MarkReading.of(unread, volume));
    }

    /** Forgets all but these. */
    public void keepOnly(Collection<ImageMark> marks) {
        readings.keySet().retainAll(marks);
        readOnImages.retainAll(marks);
    }
}
