package org.holdfast.measure;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.HuVolume;

/** Measures one break: how far its ends have stepped and turned, its gap and the tilt of its cut. */
final class BreakSite {

    /** The ends' directions are taken over this length, mm, … */
    private static final double END_MM = 8;
    /** … so far from the break that a cut at 45° does not move the centroid, beyond the radius, mm. */
    private static final double CLEAR_MM = 1;
    /** Or as much of it as there is, at least this, mm. */
    private static final double SHORT_END_MM = 3;
    /** Ends that stepped aside by more than this share of the diameter, or turned by more, have no common core. */
    private static final double COMMON_CORE_STEP = 0.35;

    private static final double COMMON_CORE_DEG = 10;
    /** An end beside the other is read so far off its axis, as a share of its core's radius. */
    private static final double AWAY_OF_RADIUS = 0.6;

    private final ExamScan exam;
    private final PartTrack track;
    private final int first;
    private final int last;
    private final double metalHu;
    private final MeasurementSettings settings;
    private final double atMm;
    private final List<DipRule.Dip> allDips;
    private final Optional<SideFit> before;
    private final Optional<SideFit> after;
    private final Optional<SideFit> changeBefore;
    private final Optional<SideFit> changeAfter;

    /**
     * @param referenceOrNull the part on the reference exam
     * @param dip stations of the break
     * @param allDips stations of all breaks
     * @param metalHu true HU of the metal
     */
    BreakSite(
            ExamScan exam,
            PartTrack track,
            PartTrack referenceOrNull,
            DipRule.Dip dip,
            List<DipRule.Dip> allDips,
            double metalHu,
            MeasurementSettings settings) {
        this.exam = exam;
        this.track = track;
        this.first = dip.first();
        this.last = dip.last();
        this.allDips = allDips;
        this.metalHu = metalHu;
        this.settings = settings;
        this.atMm = deepestMm();
        this.before = end(-1, null);
        this.after = end(1, null);
        this.changeBefore = referenceOrNull == null ? before : end(-1, referenceOrNull);
        this.changeAfter = referenceOrNull == null ? after : end(1, referenceOrNull);
    }

    /** Middle of the missing metal, weighted by how much is missing. */
    private double deepestMm() {
        double sum = 0;
        double weights = 0;
        for (int n = first; n <= last; n++) {
            double missing = Math.max(1, track.plateauHu() - track.coreHu()[n]);
            weights += missing;
            sum += missing * track.axis().station(n).atMm();
        }
        return sum / weights;
    }

    /** The line through one end; side −1 before the break, 1 after it. */
    private Optional<SideFit> end(int side, PartTrack referenceOrNull) {
        int clear = track.axis().stationsIn(track.axis().radiusMm() + CLEAR_MM);
        return longest(side, clear, referenceOrNull, SteadyStations.clear(track, referenceOrNull, allDips))
                .or(() -> longest(side, clear, referenceOrNull, SteadyStations.all(track, referenceOrNull)));
    }

    private Optional<SideFit> longest(int side, int clear, PartTrack referenceOrNull, boolean[] isUsable) {
        for (double length = END_MM; length >= SHORT_END_MM; length -= 1) {
            Optional<SideFit> fit = stretch(side, clear, length, referenceOrNull, isUsable);
            if (fit.isPresent()) {
                return fit;
            }
        }
        return Optional.empty();
    }

    private Optional<SideFit> stretch(
            int side, int clear, double lengthMm, PartTrack referenceOrNull, boolean[] isUsable) {
        int length = track.axis().stationsIn(lengthMm);
        return side < 0
                ? SideFit.of(track, referenceOrNull, isUsable, first - clear - length, first - clear)
                : SideFit.of(track, referenceOrNull, isUsable, last + clear, last + clear + length);
    }

    private static final String NO_END = "too little of the part beside the break";

    private Stated step() {
        return changeBefore.isPresent() && changeAfter.isPresent()
                ? Stated.of(changeBefore.get().stepMm(changeAfter.get(), atMm))
                : Stated.not(NO_END);
    }

    private Stated angulation() {
        return changeBefore.isPresent() && changeAfter.isPresent()
                ? Stated.of(changeBefore.get().angleDeg(changeAfter.get()))
                : Stated.not(NO_END);
    }

    /** The break as it is stated. */
    Continuity.Break measure(Continuity.Status status, boolean isDip) {
        Stated step = step();
        Stated angle = angulation();
        BreakGap.Width width = !isDip
                ? BreakGap.Width.not("no gap seen: the ends touch, or the part is kinked without a break")
                : width();
        boolean displaced = isSharp() || across(width) > stepLimitMm();
        return new Continuity.Break(
                atMm, pointMm(), width.alongMm(), width.perpendicularMm(), step, angle, displaced, status);
    }

    private static double across(BreakGap.Width width) {
        return width.perpendicularMm().value().orElse(width.alongMm().value().orElse(0));
    }

    /** Whether the ends have stepped aside or turned beyond the limits; false where that cannot be told. */
    boolean isSharp() {
        return step().value().orElse(0) > stepLimitMm()
                || angulation().value().orElse(0) > settings.continuity().angulationDeg();
    }

    private double stepLimitMm() {
        return settings.continuity().stepShare() * track.axis().diameterMm();
    }

    private PatientPoint pointMm() {
        int n = nearest();
        return track.axis().station(n).across(track.uMm()[n], track.vMm()[n]);
    }

    private int nearest() {
        return Math.max(
                first, Math.min(last, (int) Math.round(atMm / track.axis().stepMm())));
    }

    private BreakGap.Width width() {
        // One end that shows too little lies on the other's line; where neither shows, on the laid-out line.
        SideFit a = before.or(() -> after).orElseGet(this::atPlace);
        SideFit b = after.orElse(a);
        double step = a.stepMm(b, atMm);
        if (step > COMMON_CORE_STEP * track.axis().diameterMm() || a.angleDeg(b) > COMMON_CORE_DEG) {
            return endToEnd(a, b);
        }
        boolean[] inImage = new boolean[track.size()];
        boolean[] clear = new boolean[track.size()];
        for (int n = 0; n < inImage.length; n++) {
            inImage[n] = !Double.isNaN(track.coreHu()[n]);
            clear[n] = track.isAssessable(n);
        }
        double free = Math.min(reach(-1, clear), reach(1, clear));
        PartAxis.Station here = track.axis().station(nearest());
        PartAxis.Station middle = new PartAxis.Station(
                atMm,
                here.across(0.5 * (a.uAt(atMm) + b.uAt(atMm)), 0.5 * (a.vAt(atMm) + b.vAt(atMm)))
                        .along(here.along(), atMm - here.atMm()),
                turned(here, 0.5 * (a.slopeU() + b.slopeU()), 0.5 * (a.slopeV() + b.slopeV())),
                here.u(),
                here.v());
        return new BreakGap(exam, track, metalHu, settings)
                .measure(BreakGap.upright(middle), step, reach(-1, inImage), reach(1, inImage), free);
    }

    private SideFit atPlace() {
        int n = nearest();
        return new SideFit(atMm, track.uMm()[n], track.vMm()[n], 0, 0, 0);
    }

    private static PatientVector turned(PartAxis.Station s, double slopeU, double slopeV) {
        return s.along().plus(s.u().times(slopeU)).plus(s.v().times(slopeV)).unit();
    }

    /** How far from the break the part runs on in the image, at most what is needed, mm; with or without its joints. */
    private double reach(int side, boolean[] isRead) {
        double wanted =
                0.5 * (last - first) * track.axis().stepMm() + 2 * track.axis().radiusMm() + 3;
        int n = nearest();
        while (n >= 0 && n < track.size() && isRead[n]) {
            n += side;
        }
        return Math.min(wanted, Math.abs(n - nearest()) * track.axis().stepMm());
    }

    /** Gap of ends that lie beside each other: from where the one ends to where the other begins, each on its own line. */
    private BreakGap.Width endToEnd(SideFit a, SideFit b) {
        double endOfA = crossing(a, b, first, 1);
        double startOfB = crossing(b, a, last, -1);
        if (Double.isNaN(endOfA) || Double.isNaN(startOfB)) {
            return BreakGap.Width.not("the ends lie beside each other and one of them does not show");
        }
        PatientVector along = track.axis().station(nearest()).along();
        double sigma = exam.pointSpread().sigmaAlongMm(along, exam.volume().grid());
        double shift = GapModel.shiftOfEndMm(sigma, metalHu, settings.fluidHu(), track.levelHu());
        double gap = startOfB - endOfA + 2 * shift;
        return gap < 0
                ? BreakGap.Width.not(String.format(Locale.ROOT, "the ends lie beside each other over %.1f mm", -gap))
                : new BreakGap.Width(Stated.of(gap), Stated.not("the ends lie beside each other"));
    }

    /** Where the core on a line falls under the metal's level, going from inside an end towards the break; NaN if never. */
    private double crossing(SideFit line, SideFit other, int from, int direction) {
        HuVolume volume = exam.volume();
        CrossSection section = new CrossSection(volume, track.axis().diameterMm());
        // Away from the other end, whose side would else be taken for this one's metal.
        double apart = Math.max(line.stepMm(other, atMm), 1e-6);
        double away =
                AWAY_OF_RADIUS * track.axis().coreOfRadius() * track.axis().radiusMm() / apart;
        double asideU = away * (other.uAt(atMm) - line.uAt(atMm));
        double asideV = away * (other.vAt(atMm) - line.vAt(atMm));
        int start = from - direction * track.axis().stationsIn(SHORT_END_MM);
        int end = from + direction * (last - first + track.axis().stationsIn(2 * END_MM));
        double inner = Double.NaN;
        for (int n = start; n >= 0 && n < track.size() && n != end; n += direction) {
            double at = track.axis().station(n).atMm();
            double hu = section.coreHu(track.axis().station(n), line.uAt(at) - asideU, line.vAt(at) - asideV);
            if (inner >= track.levelHu() && hu < track.levelHu()) {
                return at - direction * track.axis().stepMm() * (track.levelHu() - hu) / (inner - hu);
            }
            inner = hu;
        }
        return Double.NaN;
    }
}
