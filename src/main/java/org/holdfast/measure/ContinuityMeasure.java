package org.holdfast.measure;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.IntStream;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.volume.Acquisition;

/**
 * Whether a rod or screw is whole.
 *
 * <p>The part is followed along its laid-out centre line; a break is a dip of its core (on a clipped scale also of its
 * area), a step aside, or a kink that was not there on the reference exam. Where a known joint holds the part, nothing is
 * concluded and the stretch is named. With the breaks goes the narrowest one that this scan would show. Thread-safe.
 */
public final class ContinuityMeasure {

    private static final String NO_METAL = "no metal found along the laid-out part";
    private static final String HIDES = "artefact reduction can hide a break: \"no break seen\" needs another series";
    private static final String MAY_HIDE = "it is not known whether artefact reduction was used; it can hide a break";
    /** The end of a part is blurred and laid out by hand: metal missing over less than this there says nothing, mm. */
    private static final double END_MM = 3;

    private final Component part;
    private final MeasurementSettings settings;
    private final PartAxis laidOut;
    private final KnownJoints joints;

    /**
     * @param construct the construct on its reference exam
     * @param part the rod or screw
     * @param settings thresholds
     * @throws IllegalArgumentException if the part is neither rod nor screw
     */
    public ContinuityMeasure(Construct construct, Component part, MeasurementSettings settings) {
        this.part = part;
        this.settings = settings;
        this.laidOut = PartAxis.of(part, settings.continuity().stationMm());
        this.joints = new KnownJoints(construct, part, laidOut.radiusMm(), settings.continuity());
    }

    /** Whether continuity can be asked of a component: a rod or a screw. */
    public static boolean appliesTo(Component component) {
        return PartAxis.isKnownFor(component);
    }

    /**
     * A measurement with what later exams keep of it.
     *
     * @param continuity the result of this exam, or why there is none
     * @param reference the bend that the reference exam shows
     */
    public record Measured(Answer<Continuity> continuity, Reference reference) {}

    /** What the reference exam says of a part's bend; opaque, given back when later exams are measured. */
    public static final class Reference {
        private final PartTrack trackOrNull;

        private Reference(PartTrack trackOrNull) {
            this.trackOrNull = trackOrNull;
        }
    }

    /** Measures the reference exam of a course. Kinks are not told there: they may be the contour given to a rod. */
    public Measured measureReference(ExamScan exam) {
        return measure(exam, null);
    }

    /** Measures a later exam of the course against the bend of the reference exam. */
    public Measured measureFollowUp(ExamScan exam, Reference reference) {
        return measure(exam, reference);
    }

    private Measured measure(ExamScan exam, Reference given) {
        if (!part.material().hasMetalEdge()) {
            return new Measured(
                    Answer.not(part.material().word() + " has no metal edge: reader only"), keep(given, null));
        }
        Optional<PartTrack> found = PartTrack.follow(exam, laidOut, joints, settings);
        if (found.isEmpty()) {
            return new Measured(Answer.not(NO_METAL), keep(given, null));
        }
        PartTrack track = found.get();
        PartTrack reference = given == null ? null : given.trackOrNull;
        return new Measured(Answer.of(new Reading(exam, track, reference).continuity()), keep(given, track));
    }

    private static Reference keep(Reference given, PartTrack track) {
        return given == null ? new Reference(track) : given;
    }

    /** The followed part of one exam, read. */
    private final class Reading {

        private final ExamScan exam;
        private final PartTrack track;
        private final PartTrack referenceOrNull;
        private final double metalHu;
        private final List<DipRule.Dip> dips;
        private final List<Continuity.Unassessed> unassessed = new ArrayList<>();

        Reading(ExamScan exam, PartTrack track, PartTrack referenceOrNull) {
            this.exam = exam;
            this.track = track;
            this.referenceOrNull = referenceOrNull;
            this.metalHu = track.isClipped()
                    ? Math.max(track.plateauHu(), NominalMetal.hu(part.material(), settings))
                    : track.plateauHu();
            this.dips = new DipRule(DipRule.Profile.of(track), settings.continuity()).dips();
        }

        Continuity continuity() {
            noteJointsAndImage();
            List<DipRule.Dip> inner = dips.stream().filter(d -> !isEnd(d)).toList();
            PartBend bend = new PartBend(track, referenceOrNull, dips, settings.continuity());
            List<Continuity.Break> breaks = new ArrayList<>();
            inner.forEach(dip -> breaks.add(site(dip).measure(status(), true)));
            bend.sharpPlaces()
                    .forEach(n -> breaks.add(site(new DipRule.Dip(n, n)).measure(status(), false)));
            breaks.sort(Comparator.comparingDouble(Continuity.Break::atMm));
            List<Integer> places = breaks.stream()
                    .map(b -> (int) Math.round(b.atMm() / track.axis().stepMm()))
                    .toList();
            Optional<PartBend.Change> change = bend.change(places);
            unassessed.sort(Comparator.comparingDouble(Continuity.Unassessed::fromMm));
            return new Continuity(
                    breaks,
                    new VisibleBreak(exam, track, metalHu, noiseHu(), settings).smallestMm(),
                    change.map(PartBend.Change::deg),
                    change.map(c -> c.isOver(settings.continuity().bendDeg())).orElse(false),
                    Stated.of(track.plateauHu()),
                    track.isClipped(),
                    stations(),
                    unassessed,
                    caution());
        }

        private BreakSite site(DipRule.Dip dip) {
            return new BreakSite(exam, track, referenceOrNull, dip, dips, metalHu, settings);
        }

        private Continuity.Status status() {
            return exam.acquisition().artefactReduction() == Acquisition.Known.NO
                    ? Continuity.Status.CONFIRMED
                    : Continuity.Status.UNCONFIRMED;
        }

        private String caution() {
            return switch (exam.acquisition().artefactReduction()) {
                case YES -> HIDES;
                case UNKNOWN -> MAY_HIDE;
                case NO -> "";
            };
        }

        /** Robust standard deviation of the core along the whole part, HU. */
        private double noiseHu() {
            return DipRule.sd(IntStream.range(0, track.size())
                    .filter(n -> track.isFollowed()[n] && track.isAssessable(n))
                    .mapToDouble(n -> track.coreHu()[n])
                    .toArray());
        }

        /** A dip that runs into an end of the part, or out of the image, is that end. */
        private boolean isEnd(DipRule.Dip dip) {
            boolean atStart = isNothingBeyond(dip.first() - 1, -1);
            boolean atEnd = isNothingBeyond(dip.last() + 1, 1);
            if (!atStart && !atEnd) {
                return false;
            }
            double from = track.axis().station(atStart ? 0 : dip.first()).atMm();
            double to =
                    track.axis().station(atEnd ? track.size() - 1 : dip.last()).atMm();
            if (to - from > END_MM + track.axis().diameterMm()) {
                String why = String.format(
                        Locale.ROOT,
                        "no metal over the last %.1f mm: the part ends here, or a piece of it lies elsewhere",
                        to - from);
                unassessed.add(new Continuity.Unassessed(from, to, why));
            }
            return true;
        }

        /** Whether no station from here outwards shows the part. */
        private boolean isNothingBeyond(int from, int direction) {
            for (int n = from; n >= 0 && n < track.size(); n += direction) {
                if (track.isFollowed()[n] || track.isJoint(n)) {
                    return false;
                }
            }
            return true;
        }

        private void noteJointsAndImage() {
            int start = 0;
            for (int n = 1; n <= track.size(); n++) {
                if (n == track.size() || !cause(n).equals(cause(start))) {
                    if (!cause(start).isEmpty()) {
                        unassessed.add(new Continuity.Unassessed(
                                track.axis().station(start).atMm(),
                                track.axis().station(n - 1).atMm(),
                                cause(start)));
                    }
                    start = n;
                }
            }
        }

        private String cause(int n) {
            if (track.isJoint(n)) {
                return "held by a known joint (" + track.jointOrNull()[n]
                        + "): a break under it, or right beside it, cannot be seen";
            }
            return Double.isNaN(track.coreHu()[n]) ? "outside the image" : "";
        }

        private List<Continuity.Station> stations() {
            return IntStream.range(0, track.size())
                    .mapToObj(n -> new Continuity.Station(
                            track.axis().station(n).atMm(),
                            track.axis().station(n).across(track.uMm()[n], track.vMm()[n]),
                            track.areaMm2()[n],
                            track.coreHu()[n],
                            track.isJoint(n)))
                    .toList();
        }
    }
}
