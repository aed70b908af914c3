package org.holdfast.desktop.render;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.holdfast.construct.Patch;
import org.holdfast.construct.PatchSample;
import org.holdfast.figure.Face;
import org.holdfast.measure.Obstacle;
import org.holdfast.measure.SampleReading;
import org.holdfast.measure.Tissue;

/** Readings as a measurement would give them, by hand. */
final class SampleReadings {

    private SampleReadings() {}

    static List<SampleReading> of(Patch patch, double spacingMm, Function<PatchSample, SampleReading> reading) {
        return patch.samples(spacingMm).stream().map(reading).toList();
    }

    /** As a map by threshold shows them; the words tell the place in the list. */
    static List<MapCell> cells(List<SampleReading> readings) {
        return IntStream.range(0, readings.size())
                .mapToObj(n -> new MapCell(
                        readings.get(n).sample(),
                        FaceClass.of(readings.get(n), Face.GapLimits.USUAL),
                        Integer.toString(n)))
                .toList();
    }

    static SampleReading contact(PatchSample sample, boolean isBridged) {
        return reading(sample, Tissue.CONTACT, OptionalDouble.empty(), isBridged);
    }

    static SampleReading gap(PatchSample sample, double gapMm) {
        return reading(sample, Tissue.GAP, OptionalDouble.of(gapMm), false);
    }

    static SampleReading noBone(PatchSample sample) {
        return reading(sample, Tissue.NO_BONE, OptionalDouble.empty(), false);
    }

    static SampleReading cannotTell(PatchSample sample) {
        return reading(sample, Tissue.NOT_ASSESSABLE, OptionalDouble.empty(), false);
    }

    private static SampleReading reading(PatchSample sample, Tissue tissue, OptionalDouble gapMm, boolean isBridged) {
        OptionalDouble none = OptionalDouble.empty();
        Optional<Obstacle> obstacle =
                tissue == Tissue.NOT_ASSESSABLE ? Optional.of(Obstacle.DARK_STREAK) : Optional.empty();
        return new SampleReading(sample, tissue, obstacle, none, none, gapMm, none, none, false, isBridged);
    }
}
