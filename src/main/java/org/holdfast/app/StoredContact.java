package org.holdfast.app;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.PatchSample;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.Obstacle;
import org.holdfast.measure.SampleReading;
import org.holdfast.measure.Stated;
import org.holdfast.measure.ThresholdContact;
import org.holdfast.measure.ThresholdContact.Spread;
import org.holdfast.measure.Tissue;

/** Reads contact by threshold of one interface in one exam back from its two documents. */
final class StoredContact {

    private static final int SAMPLE_COLUMNS = 8;

    private StoredContact() {}

    /**
     * The measurement.
     *
     * @param c its numbers
     * @param extra what only the samples' document has
     * @param face the interface
     * @param settings thresholds it was measured with
     */
    static ThresholdContact read(JsonCursor c, JsonCursor extra, BoneInterface face, MeasurementSettings settings)
            throws UseCaseException {
        try {
            return new ThresholdContact(
                    stated(c, "fraction"),
                    extra.field("low").number(),
                    extra.field("high").number(),
                    stated(c, "ofOppositeBone"),
                    stated(c, "bridged"),
                    c.field("notAssessable").number(),
                    obstacles(c.field("notAssessableCauses")),
                    stated(c, "smallestVisibleGapMm"),
                    stated(c, "smallestVisibleGapIfBlurrierMm"),
                    extra.field("limitSettled").yesOrNo(),
                    sensitivity(c.field("sensitivity")),
                    stated(c, "jitterSd"),
                    c.field("boneHu").number(),
                    c.field("boneHuRule").text(),
                    stated(c, "hostHu"),
                    stated(c, "noiseSdHu"),
                    spread(c.field("gapMm")),
                    spread(c.field("beyondGuardHu")),
                    c.field("guardMm").number(),
                    stated(c, "plateauHu"),
                    stated(c, "frontHu"),
                    c.field("areaMm2").number(),
                    readings(extra.field("samples"), face, settings));
        } catch (IllegalArgumentException e) {
            throw new UseCaseException(c.at() + ": " + e.getMessage(), e);
        }
    }

    private static Stated stated(JsonCursor node, String name) throws UseCaseException {
        OptionalDouble value = node.field(name).numberOrNull();
        return value.isPresent()
                ? Stated.of(value.getAsDouble())
                : Stated.not(node.field(name + "Why").text());
    }

    private static Map<Obstacle, Double> obstacles(JsonCursor causes) throws UseCaseException {
        Map<Obstacle, Double> shares = new EnumMap<>(Obstacle.class);
        for (String name : causes.names()) {
            try {
                shares.put(Obstacle.valueOf(name), causes.field(name).number());
            } catch (IllegalArgumentException e) {
                throw new UseCaseException(causes.at() + ": " + name + ": no such cause", e);
            }
        }
        return shares;
    }

    private static Map<Integer, Stated> sensitivity(JsonCursor node) throws UseCaseException {
        Map<Integer, Stated> changes = new TreeMap<>();
        for (String name : node.names()) {
            if (!name.endsWith("Why")) {
                try {
                    changes.put(Integer.parseInt(name), stated(node, name));
                } catch (NumberFormatException e) {
                    throw new UseCaseException(node.at() + ": " + name + ": expected a change in HU", e);
                }
            }
        }
        return changes;
    }

    private static Spread spread(JsonCursor node) throws UseCaseException {
        return new Spread(
                node.field("mean").numberOrNull(),
                node.field("p10").numberOrNull(),
                node.field("median").numberOrNull(),
                node.field("p90").numberOrNull());
    }

    private static List<SampleReading> readings(JsonCursor rows, BoneInterface face, MeasurementSettings settings)
            throws UseCaseException {
        List<PatchSample> samples = face.patches().stream()
                .flatMap(patch -> patch.samples(settings.sampleSpacingMm()).stream())
                .toList();
        List<JsonCursor> all = rows.list();
        if (all.size() != samples.size()) {
            throw new UseCaseException(
                    rows.at() + ": expected " + samples.size() + " samples of " + face.id() + ", found " + all.size());
        }
        List<SampleReading> readings = new ArrayList<>();
        for (int n = 0; n < all.size(); n++) {
            readings.add(reading(all.get(n), samples.get(n)));
        }
        return readings;
    }

    private static SampleReading reading(JsonCursor row, PatchSample sample) throws UseCaseException {
        List<JsonCursor> cells = row.list();
        if (cells.size() != SAMPLE_COLUMNS) {
            throw row.wrong(SAMPLE_COLUMNS + " values");
        }
        int flags = cells.get(7).integer();
        Optional<Obstacle> obstacle = cells.get(1).node().isNull()
                ? Optional.empty()
                : Optional.of(cells.get(1).oneOf(Obstacle.class));
        return new SampleReading(
                sample,
                cells.get(0).oneOf(Tissue.class),
                obstacle,
                cells.get(2).numberOrNull(),
                cells.get(3).numberOrNull(),
                cells.get(4).numberOrNull(),
                cells.get(5).numberOrNull(),
                cells.get(6).numberOrNull(),
                (flags & SamplesDocument.OPPOSITE_HOST_BONE) != 0,
                (flags & SamplesDocument.BRIDGED) != 0);
    }
}
