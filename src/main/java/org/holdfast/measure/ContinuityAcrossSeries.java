package org.holdfast.measure;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.holdfast.volume.Acquisition;

/**
 * What several series of one exam, and its radiograph, say together of one part.
 *
 * <p>Artefact reduction can draw a false break and hide a true one. So a break is confirmed if it is seen on a series known
 * to be without it, on two series that do not both have it, or on a radiograph; otherwise it is unconfirmed. The same
 * goes for a part on which none is seen. A radiograph on which no break is seen does not take back one that CT shows.
 */
public final class ContinuityAcrossSeries {

    private final ContinuitySettings settings;

    public ContinuityAcrossSeries(ContinuitySettings settings) {
        this.settings = Objects.requireNonNull(settings, "settings");
    }

    /**
     * The part on one series of the exam.
     *
     * @param seriesUid SeriesInstanceUID
     * @param artefactReduction whether the series reduces metal artefacts
     * @param continuity what was measured on it
     */
    public record SeriesReading(String seriesUid, Acquisition.Known artefactReduction, Continuity continuity) {}

    /** What a reader says of the part on a radiograph of the same visit. */
    public enum RadiographReading {
        NOT_READ,
        BREAK_SEEN,
        NO_BREAK_SEEN
    }

    /**
     * A break with who says so.
     *
     * @param found the break as stated on the series that counts most: without artefact reduction before others
     * @param seenOn series on which it is seen
     * @param notSeenOn series on which it should show and does not
     * @param status how sure it is
     */
    public record CombinedBreak(
            Continuity.Break found, List<String> seenOn, List<String> notSeenOn, Continuity.Status status) {

        public CombinedBreak {
            seenOn = List.copyOf(seenOn);
            notSeenOn = List.copyOf(notSeenOn);
        }
    }

    /**
     * All series together.
     *
     * @param breaks all breaks, along the part
     * @param noBreakSeen how sure it is that none is seen; empty where one is
     */
    public record Combined(List<CombinedBreak> breaks, Optional<Continuity.Status> noBreakSeen) {

        public Combined {
            breaks = List.copyOf(breaks);
        }
    }

    /**
     * Puts the series of one exam together.
     *
     * @param series at least one
     * @throws IllegalArgumentException if there is none
     */
    public Combined combine(List<SeriesReading> series, RadiographReading radiograph) {
        if (series.isEmpty()) {
            throw new IllegalArgumentException("at least one series is needed, got none");
        }
        List<SeriesReading> inOrder = series.stream()
                .sorted(Comparator.comparing(s -> rank(s.artefactReduction())))
                .toList();
        List<CombinedBreak> breaks = new ArrayList<>();
        for (SeriesReading reading : inOrder) {
            for (Continuity.Break found : reading.continuity().breaks()) {
                if (breaks.stream().noneMatch(b -> isSame(b.found(), found))) {
                    breaks.add(combined(found, inOrder, radiograph));
                }
            }
        }
        breaks.sort(Comparator.comparingDouble(b -> b.found().atMm()));
        if (!breaks.isEmpty()) {
            return new Combined(breaks, Optional.empty());
        }
        boolean radiographAgrees = radiograph == RadiographReading.NO_BREAK_SEEN;
        return new Combined(List.of(), Optional.of(status(inOrder, radiographAgrees)));
    }

    private CombinedBreak combined(Continuity.Break found, List<SeriesReading> series, RadiographReading radiograph) {
        List<SeriesReading> seen = series.stream()
                .filter(s -> s.continuity().breaks().stream().anyMatch(b -> isSame(b, found)))
                .toList();
        List<String> notSeen = series.stream()
                .filter(s -> !seen.contains(s) && shouldShow(s.continuity(), found))
                .map(SeriesReading::seriesUid)
                .toList();
        return new CombinedBreak(
                withStatus(found, status(seen, radiograph == RadiographReading.BREAK_SEEN)),
                seen.stream().map(SeriesReading::seriesUid).toList(),
                notSeen,
                status(seen, radiograph == RadiographReading.BREAK_SEEN));
    }

    private static Continuity.Status status(List<SeriesReading> agreeing, boolean radiographAgrees) {
        boolean anyWithout = agreeing.stream().anyMatch(s -> s.artefactReduction() == Acquisition.Known.NO);
        boolean twoNotBothReduced =
                agreeing.size() > 1 && agreeing.stream().anyMatch(s -> s.artefactReduction() != Acquisition.Known.YES);
        return anyWithout || twoNotBothReduced || radiographAgrees
                ? Continuity.Status.CONFIRMED
                : Continuity.Status.UNCONFIRMED;
    }

    private boolean isSame(Continuity.Break a, Continuity.Break b) {
        return Math.abs(a.atMm() - b.atMm()) <= settings.sameBreakMm();
    }

    /** Whether a series could have shown a break: its place is assessed and the gap is over what the series shows. */
    private static boolean shouldShow(Continuity other, Continuity.Break found) {
        boolean assessed =
                other.unassessed().stream().noneMatch(u -> u.fromMm() <= found.atMm() && found.atMm() <= u.toMm());
        double gap = found.gapAlongAxisMm().value().orElse(0);
        double limit = other.smallestVisibleBreakMm().value().orElse(Double.POSITIVE_INFINITY);
        return assessed && (gap >= limit || found.isDisplaced());
    }

    private static Continuity.Break withStatus(Continuity.Break b, Continuity.Status status) {
        return new Continuity.Break(
                b.atMm(),
                b.pointMm(),
                b.gapAlongAxisMm(),
                b.gapPerpendicularMm(),
                b.stepMm(),
                b.angulationDeg(),
                b.isDisplaced(),
                status);
    }

    private static int rank(Acquisition.Known artefactReduction) {
        return switch (artefactReduction) {
            case NO -> 0;
            case UNKNOWN -> 1;
            case YES -> 2;
        };
    }
}
