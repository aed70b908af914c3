package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;

import java.util.List;
import java.util.Optional;
import org.holdfast.desktop.state.ImageMark;
import org.holdfast.desktop.state.ImageMark.RegionMark.Kind;
import org.holdfast.volume.HuVolume;
import org.junit.jupiter.api.Test;

/** When marks are read: once, as soon as the images are there. */
final class MarkReadingsTest {

    private static final String NOT_THERE = "the exam's images are not there now";

    private final Optional<HuVolume> volume = Optional.of(SampleExam.straight());
    private final ImageMark region = Marks.region(Kind.RECTANGLE, Marks.AXIAL, -8, 21.5, -5, 24.5);
    private final MarkReadings readings = new MarkReadings();

    @Test
    void readsARegionWhenTheImagesCome() {
        assertEquals(NOT_THERE, readings.of(region, Optional.empty()).words());
        assertEquals(MarkReading.of(region, volume), readings.of(region, volume));
    }

    @Test
    void keepsWhatWasReadWhenTheImagesAreLetGo() {
        MarkReading read = readings.of(region, volume);
        assertSame(read, readings.of(region, Optional.empty()));
        assertSame(read, readings.of(region, volume));
    }

    @Test
    void readsAChangedShapeAnew() {
        readings.of(region, volume);
        ImageMark moved = region.moved(1, Marks.at(-4, 25));
        assertEquals(MarkReading.of(moved, volume), readings.of(moved, volume));
    }

    @Test
    void forgetsMarksThatAreGone() {
        readings.of(region, volume);
        readings.keepOnly(List.of());
        assertEquals(NOT_THERE, readings.of(region, Optional.empty()).words());
    }
}
