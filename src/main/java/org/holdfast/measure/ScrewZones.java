package org.holdfast.measure;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.Component;
import org.holdfast.construct.ComponentKind;
import org.holdfast.construct.Construct;
import org.holdfast.construct.Filler;
import org.holdfast.construct.ScrewShape;
import org.holdfast.geometry.RigidTransform;

/**
 * The lucent zone round one screw through a course: by fit on voxels, which decides near 1 mm, and by threshold on single
 * samples. The reference exam fixes which stations lie in host bone and what was there from the start. The exam's pose
 * must be the screw's own. Thread-safe; uses all cores.
 */
public final class ScrewZones {

    private static final String NO_METAL = "no metal seen in the laid-out screw";
    private static final String NO_HOST = "no station of the screw lies in host bone";

    private final Construct construct;
    private final Component component;
    private final ScrewShape screw;
    private final MeasurementSettings settings;
    private final List<Component> others;
    private final ContactByThreshold threshold;

    /**
     * @param construct the construct on its reference exam
     * @param component the screw
     * @param settings thresholds
     * @throws IllegalArgumentException if the component is no screw
     */
    public ScrewZones(Construct construct, Component component, MeasurementSettings settings) {
        if (!(component.shape() instanceof ScrewShape shape)) {
            throw new IllegalArgumentException(
                    "a zone is measured round a screw, got " + component.kind().word() + " " + component.id());
        }
        this.construct = construct;
        this.component = component;
        this.screw = shape;
        this.settings = settings;
        this.others = construct.components().stream()
                .filter(c -> !c.id().equals(component.id()))
                .toList();
        this.threshold = new ContactByThreshold(construct, surface(component, shape), settings);
    }

    private static BoneInterface surface(Component component, ScrewShape shape) {
        return new BoneInterface(
                component.id(),
                1,
                component.label(),
                component.id(),
                shape.bone(),
                Filler.NONE,
                List.of(shape.inBonePatch()));
    }

    /**
     * A measurement with what later exams keep of it.
     *
     * @param lucency the zone, or why there is none
     * @param reference what the reference exam says of the screw; empty where it says nothing
     */
    public record Measured(Answer<ScrewLucency> lucency, Optional<Reference> reference) {}

    /** What the reference exam says of a screw; opaque, given back when later exams are measured. */
    public static final class Reference {
        private final ContactByThreshold.Reference threshold;
        private final boolean[] host;
        private final double[][] depthOverHu;
        private final ZoneStations fitted;
        private final double[] thresholdMeans;

        private Reference(
                ContactByThreshold.Reference threshold,
                boolean[] host,
                double[][] depthOverHu,
                ZoneStations fitted,
                double[] thresholdMeans) {
            this.threshold = threshold;
            this.host = host;
            this.depthOverHu = depthOverHu;
            this.fitted = fitted;
            this.thresholdMeans = thresholdMeans;
        }
    }

    /** Measures the reference exam of a course. */
    public Measured measureReference(ExamScan exam) {
        return measure(exam, Optional.empty());
    }

    /** Measures a later exam of the course: stretch and host bone are those of the reference exam. */
    public Measured measureFollowUp(ExamScan exam, Reference reference) {
        return measure(exam, Optional.of(reference));
    }

    private Measured measure(ExamScan exam, Optional<Reference> kept) {
        ScrewAxis laidOut = ScrewAxis.of(screw, construct.axes(), exam.referenceToExam());
        Optional<ScrewInExam> read = ScrewInExam.read(screw, laidOut, exam, others, settings);
        if (read.isEmpty()) {
            return new Measured(Answer.not(NO_METAL), Optional.empty());
        }
        ScrewInExam seen = read.get();
        ContactByThreshold.Measured samples = kept.map(k -> threshold.measureFollowUp(exam, k.threshold))
                .orElseGet(() -> threshold.measureReference(exam));
        double nominal = NominalMetal.hu(component.material(), settings);
        ScrewRings whole = new ScrewRings(
                seen, exam.volume().grid(), exam.pointSpread(), nominal, readTo(seen, seen.rings()), settings);
        boolean[] host = kept.map(k -> k.host).orElseGet(() -> HostStations.of(seen, whole, settings));
        boolean isApart =
                component.kind() == ComponentKind.ILIAC_SCREW || component.kind() == ComponentKind.S2_ALAR_ILIAC_SCREW;
        int[][] depth = BoneDepth.of(seen, whole, settings.fluidHu());
        StreakSectors streaks = new StreakSectors(seen, whole, depth, settings);
        String[][] why = streaks.why(
                others,
                exam.referenceToExam(),
                exam.volume().grid().normal(),
                kept.map(k -> k.depthOverHu).orElse(null));
        leaveOut(seen, why, depth);
        ScrewSpread spread =
                ScrewSpread.of(seen, exam.volume().grid(), exam.pointSpread(), nominal, depth, host, settings);
        ScrewRings rings = new ScrewRings(seen, exam.volume().grid(), spread.estimate(), nominal, depth, settings);
        ZoneStations stations = ZoneStations.of(seen, rings, host, isApart, why, spread.widthSeMm(), settings);
        ThresholdZone bySample = new ThresholdZone(
                seen,
                samples.contact(),
                ScrewAxis.of(screw, construct.axes(), RigidTransform.IDENTITY),
                host,
                settings);
        Reference reference = kept.orElseGet(() ->
                new Reference(samples.reference(), host, streaks.depthOverMedianHu(), stations, bySample.means()));
        ScrewLucency lucency = new ScrewLucency(
                fitted(seen, stations, host, isApart, kept), byThreshold(samples.contact(), bySample, kept));
        return new Measured(Answer.of(lucency), Optional.of(reference));
    }

    private Answer<ScrewLucency.Zone> fitted(
            ScrewInExam seen, ZoneStations stations, boolean[] host, boolean isApart, Optional<Reference> kept) {
        boolean hasHost = false;
        for (boolean in : host) {
            hasHost |= in;
        }
        if (!hasHost && !isApart) {
            return Answer.not(NO_HOST);
        }
        return Answer.of(FittedZone.of(seen, stations, kept.map(k -> k.fitted).orElse(null), settings.lucency()));
    }

    private Answer<ScrewLucency.Zone> byThreshold(
            ThresholdContact contact, ThresholdZone bySample, Optional<Reference> kept) {
        if (contact.smallestVisibleGapMm().value().isEmpty()) {
            return Answer.not("estimator does not apply: "
                    + contact.smallestVisibleGapMm().why());
        }
        return Answer.of(bySample.zone(
                contact.smallestVisibleGapMm(), kept.map(k -> k.thresholdMeans).orElse(null), settings.lucency()));
    }

    private static int[][] readTo(ScrewInExam seen, int rings) {
        int[][] depth = new int[seen.slabs()][ScrewVoxels.SECTORS];
        for (int[] slab : depth) {
            Arrays.fill(slab, rings);
        }
        return depth;
    }

    /** Cells near other metal join those that look like streaks, and both are read to depth 0. */
    private void leaveOut(ScrewInExam seen, String[][] why, int[][] depth) {
        for (int slab = 0; slab < why.length; slab++) {
            boolean[] nearMetal = seen.otherMetal(slab, settings.metalHu());
            for (int n = 0; n < ScrewVoxels.SECTORS; n++) {
                if (nearMetal[n]) {
                    why[slab][n] = Obstacle.OTHER_METAL.words();
                }
                if (!why[slab][n].isEmpty()) {
                    depth[slab][n] = 0;
                }
            }
        }
    }
}
