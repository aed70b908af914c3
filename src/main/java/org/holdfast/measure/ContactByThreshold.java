package org.holdfast.measure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.PatchSample;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.VolumeGrid;

/**
 * Interface contact by threshold: the transparent estimator, what people do by eye, with what it cannot see.
 *
 * <p>Along the outward normal of each sample the implant's edge is found at the half-maximum against its own plateau;
 * inside a guard beyond it nothing is concluded; bone at the guard's end is contact. The rule is then run on the model of
 * the profile with this scan's blur, plateau and bone: where a gap of 0 would not be called contact it does not apply,
 * else the smallest gap that it can see is part of the result. Thread-safe; uses all cores.
 */
public final class ContactByThreshold {

    /** Changes of the bone threshold at which the fraction is given as well, HU. */
    private static final int[] SENSITIVITY_HU = {-100, -50, 50, 100};

    private final Construct construct;
    private final BoneInterface face;
    private final Component component;
    private final MeasurementSettings settings;
    private final List<PatchSample> samples;
    private final FaceLayer layer;

    /**
     * @param construct the construct on its reference exam
     * @param face the interface to be measured
     * @param settings thresholds
     */
    public ContactByThreshold(Construct construct, BoneInterface face, MeasurementSettings settings) {
        this.construct = construct;
        this.face = face;
        this.component = construct.component(face.component());
        this.settings = settings;
        this.samples = face.patches().stream()
                .flatMap(p -> p.samples(settings.sampleSpacingMm()).stream())
                .toList();
        this.layer = FaceLayer.of(component, samples, settings);
    }

    /**
     * A measurement with what later exams keep of it.
     *
     * @param contact the result of this exam
     * @param reference what the reference exam says of the face
     */
    public record Measured(ThresholdContact contact, Reference reference) {}

    /** What the reference exam says of a face; opaque, given back when later exams are measured. */
    public static final class Reference {
        private final ReferenceFace face;

        private Reference(ReferenceFace face) {
            this.face = face;
        }
    }

    /** Measures the reference exam of a course. */
    public Measured measureReference(ExamScan exam) {
        return measure(exam, Optional.empty());
    }

    /** Measures a later exam of the course: threshold, host bone and edges are those of the reference exam. */
    public Measured measureFollowUp(ExamScan exam, Reference reference) {
        return measure(exam, Optional.of(reference));
    }

    private Measured measure(ExamScan exam, Optional<Reference> given) {
        FaceProfiles profiles = read(exam, new PatientVector(0, 0, 0));
        ImplantEdge[] edges = edges(profiles, exam, given.map(r -> r.face));
        ReferenceFace reference = given.map(r -> r.face).orElseGet(() -> referenceOf(profiles, edges, exam));
        HostBone host = reference.host();
        double ceiling = exam.ceilingHuOrNaN();
        boolean clipped = isMostlyClipped(edges);
        SampleClassifier classifier =
                classifier(host.boneHu(), clipped, profiles, exam.volume().grid());
        List<SampleClassifier.Outcome> outcomes = classify(profiles, edges, classifier);
        AreaShares shares = new AreaShares(samples, outcomes);

        double plateau = Quantiles.median(Arrays.stream(edges)
                .mapToDouble(ImplantEdge::plateauHu)
                .filter(hu -> !Double.isNaN(hu))
                .toArray());
        Stated noise = Stated.ofOrNot(
                HostBone.noiseSd(profiles, edges, exam.volume(), settings),
                "too few voxels at the depth where host bone is read");
        double sigma = exam.pointSpread()
                .sigmaAlongMm(meanNormal(profiles), exam.volume().grid());
        DetectionLimit.Limit limit = DetectionLimit.Limit.not(
                host.hostHu().value().isPresent()
                        ? "no implant seen under the face"
                        : host.hostHu().why());
        Stated front = limit.smallestVisibleGapMm();
        if (!Double.isNaN(plateau) && host.hostHu().value().isPresent()) {
            double deep = deepHu(profiles, edges, host);
            double unclipped = clipped ? NominalMetal.hu(component.material(), settings) : plateau;
            BoneFront bone =
                    BoneFront.fit(profiles, edges, layer, unclipped, deep, sigma, host.boneHu(), ceiling, settings);
            ProfileModel model = new ProfileModel(
                    unclipped, settings.fluidHu(), bone.frontHu(), settings.frontMm(), bone.deepHu(), sigma);
            limit = DetectionLimit.find(
                    model, classifier, layer, ceiling, noise.value().orElse(0));
            front = Stated.of(bone.frontHu());
        }
        ThresholdContact contact = result(
                exam,
                profiles,
                edges,
                outcomes,
                shares,
                reference,
                given.map(r -> r.face),
                classifier,
                limit,
                front,
                plateau,
                noise);
        return new Measured(contact, new Reference(reference));
    }

    private ThresholdContact result(
            ExamScan exam,
            FaceProfiles profiles,
            ImplantEdge[] edges,
            List<SampleClassifier.Outcome> outcomes,
            AreaShares shares,
            ReferenceFace reference,
            Optional<ReferenceFace> kept,
            SampleClassifier classifier,
            DetectionLimit.Limit limit,
            Stated front,
            double plateau,
            Stated noise) {
        double total = shares.totalMm2();
        double hidden = shares.notAssessableMm2() / total;
        String refusal = refusal(hidden, limit.smallestVisibleGapMm());
        Map<Integer, Stated> sensitivity = new TreeMap<>();
        for (int change : SENSITIVITY_HU) {
            SampleClassifier other = new SampleClassifier(classifier.guardMm(), classifier.boneHu() + change, settings);
            sensitivity.put(
                    change,
                    stated(new AreaShares(samples, classify(profiles, edges, other)).contactOfAssessable(), refusal));
        }
        Bridging.Result bridging = refusal.isEmpty()
                ? Bridging.of(face, construct, exam, profiles, edges, outcomes, classifier, plateau)
                : Bridging.Result.not(refusal, samples.size());
        List<SampleReading> readings = readings(profiles, edges, outcomes, classifier, reference, bridging);
        return new ThresholdContact(
                stated(shares.contactOfAssessable(), refusal),
                shares.contactMm2() / total,
                (shares.contactMm2() + shares.notAssessableMm2()) / total,
                refusal.isEmpty()
                        ? Stated.ofOrNot(
                                shares.contactAmong(reference.oppositeBone()),
                                "no host bone opposite the face on the reference exam")
                        : Stated.not(refusal),
                bridging.share(),
                hidden,
                shares.obstacleShares(),
                limit.smallestVisibleGapMm(),
                limit.ifBlurrierMm(),
                limit.isSettled(),
                sensitivity,
                refusal.isEmpty() ? jitterSd(exam, kept, classifier) : Stated.not(refusal),
                classifier.boneHu(),
                reference.host().rule(),
                reference.host().hostHu(),
                noise,
                spread(readings.stream()
                        .filter(r -> r.tissue() == Tissue.GAP)
                        .map(SampleReading::gapMm)
                        .toList()),
                spread(readings.stream()
                        .filter(r -> r.tissue() != Tissue.NOT_ASSESSABLE)
                        .map(SampleReading::beyondGuardHu)
                        .toList()),
                classifier.guardMm(),
                Stated.ofOrNot(plateau, "no implant seen under the face"),
                front,
                total,
                readings);
    }

    /** Why no fraction is stated; empty where one is. */
    private String refusal(double hiddenShare, Stated limit) {
        if (1 - hiddenShare < settings.minAssessable()) {
            return String.format(
                    java.util.Locale.ROOT,
                    "only %.0f %% of the face is assessable, %.0f %% are needed",
                    100 * (1 - hiddenShare),
                    100 * settings.minAssessable());
        }
        return limit.value().isPresent() ? "" : "estimator does not apply: " + limit.why();
    }

    private static Stated stated(double value, String refusal) {
        return refusal.isEmpty() ? Stated.ofOrNot(value, "nothing is assessable") : Stated.not(refusal);
    }

    private FaceProfiles read(ExamScan exam, PatientVector shiftMm) {
        List<Component> others = construct.components().stream()
                .filter(c -> !c.id().equals(component.id()))
                .toList();
        return FaceProfiles.read(samples, exam, shiftMm, layer, others, settings);
    }

    /** The edges of this exam; where the reference exam has an edge it is kept, the plateau is this exam's own. */
    private ImplantEdge[] edges(FaceProfiles profiles, ExamScan exam, Optional<ReferenceFace> reference) {
        ImplantEdge[] edges = new ImplantEdge[samples.size()];
        double ceiling = exam.ceilingHuOrNaN();
        for (int n = 0; n < edges.length; n++) {
            double sigma = exam.pointSpread()
                    .sigmaAlongMm(profiles.normals()[n], exam.volume().grid());
            ImplantEdge own = ImplantEdge.find(profiles.profiles()[n], layer, ceiling, sigma, settings);
            double kept = reference.isPresent() ? reference.get().edgeMm()[n] : Double.NaN;
            edges[n] = own.obstacle() == null && !Double.isNaN(kept)
                    ? new ImplantEdge(kept, own.plateauHu(), own.isClipped(), null)
                    : own;
        }
        return edges;
    }

    private ReferenceFace referenceOf(FaceProfiles profiles, ImplantEdge[] edges, ExamScan exam) {
        HostBone host = HostBone.read(profiles, edges, exam.volume(), settings);
        double[] edgeMm = new double[edges.length];
        boolean[] opposite = new boolean[edges.length];
        for (int n = 0; n < edges.length; n++) {
            edgeMm[n] = edges[n].tMm();
            opposite[n] = HostBone.depthHu(profiles.profiles()[n], edgeMm[n], profiles.cutsMm()[n], settings)
                    >= host.boneHu();
        }
        return new ReferenceFace(edgeMm, host, opposite);
    }

    /** HU of the deeper bone in this exam; the reference exam's where this one does not show it. */
    private double deepHu(FaceProfiles profiles, ImplantEdge[] edges, HostBone host) {
        double[] depth = new double[edges.length];
        int count = 0;
        for (int n = 0; n < edges.length; n++) {
            double hu = HostBone.depthHu(profiles.profiles()[n], edges[n].tMm(), profiles.cutsMm()[n], settings);
            if (!Double.isNaN(hu)) {
                depth[count++] = hu;
            }
        }
        return count > 0
                ? Quantiles.median(Arrays.copyOf(depth, count))
                : host.hostHu().value().orElseThrow();
    }

    private SampleClassifier classifier(double boneHu, boolean clipped, FaceProfiles profiles, VolumeGrid grid) {
        boolean unknownMetal = clipped && settings.knownMetalHu() <= 0;
        double guard = layer.guardMm(grid.voxelExtentMm(meanNormal(profiles)), unknownMetal, settings);
        return new SampleClassifier(guard, boneHu, settings);
    }

    private static List<SampleClassifier.Outcome> classify(
            FaceProfiles profiles, ImplantEdge[] edges, SampleClassifier classifier) {
        List<SampleClassifier.Outcome> outcomes = new ArrayList<>(edges.length);
        for (int n = 0; n < edges.length; n++) {
            outcomes.add(
                    edges[n].obstacle() != null
                            ? new SampleClassifier.Outcome(Tissue.NOT_ASSESSABLE, edges[n].obstacle(), Double.NaN)
                            : classifier.classify(profiles.profiles()[n], edges[n].tMm(), profiles.cutsMm()[n]));
        }
        return outcomes;
    }

    /** On the reference exam a shifted face finds its edge anew; on a later one the kept edge shifts with the face. */
    private Stated jitterSd(ExamScan exam, Optional<ReferenceFace> kept, SampleClassifier classifier) {
        VolumeGrid grid = exam.volume().grid();
        double pitch = grid.pitchMm().orElse(0);
        List<Double> fractions = new ArrayList<>();
        for (int corner = 0; corner < 8; corner++) {
            PatientVector shift = grid.rowDirection()
                    .times(0.5 * grid.columnSpacingMm() * ((corner & 1) == 0 ? -1 : 1))
                    .plus(grid.columnDirection().times(0.5 * grid.rowSpacingMm() * ((corner & 2) == 0 ? -1 : 1)))
                    .plus(grid.normal().times(0.5 * pitch * ((corner & 4) == 0 ? -1 : 1)));
            FaceProfiles shifted = read(exam, shift);
            ImplantEdge[] edges = edges(shifted, exam, kept);
            double fraction = new AreaShares(samples, classify(shifted, edges, classifier)).contactOfAssessable();
            if (!Double.isNaN(fraction)) {
                fractions.add(fraction);
            }
        }
        if (fractions.size() < 8) {
            return Stated.not("a shifted face is not assessable");
        }
        double mean = fractions.stream().mapToDouble(f -> f).average().orElseThrow();
        double squares =
                fractions.stream().mapToDouble(f -> (f - mean) * (f - mean)).sum();
        return Stated.of(Math.sqrt(squares / (fractions.size() - 1)));
    }

    private List<SampleReading> readings(
            FaceProfiles profiles,
            ImplantEdge[] edges,
            List<SampleClassifier.Outcome> outcomes,
            SampleClassifier classifier,
            ReferenceFace reference,
            Bridging.Result bridging) {
        List<SampleReading> readings = new ArrayList<>(edges.length);
        for (int n = 0; n < edges.length; n++) {
            Profile profile = profiles.profiles()[n];
            SampleClassifier.Outcome outcome = outcomes.get(n);
            double edge = edges[n].tMm();
            readings.add(new SampleReading(
                    samples.get(n),
                    outcome.tissue(),
                    Optional.ofNullable(outcome.obstacle()),
                    optional(edge),
                    optional(edges[n].plateauHu()),
                    optional(outcome.boneAtMm() - edge),
                    optional(HostBone.depthHu(profile, edge, profiles.cutsMm()[n], settings)),
                    outcome.tissue() == Tissue.NOT_ASSESSABLE
                            ? OptionalDouble.empty()
                            : optional(classifier.beyondGuardHu(profile, edge)),
                    reference.oppositeBone()[n],
                    bridging.bridged()[n]));
        }
        return readings;
    }

    private static boolean isMostlyClipped(ImplantEdge[] edges) {
        long clipped = Arrays.stream(edges).filter(ImplantEdge::isClipped).count();
        long found = Arrays.stream(edges).filter(e -> e.obstacle() == null).count();
        return 2 * clipped > found;
    }

    private static PatientVector meanNormal(FaceProfiles profiles) {
        PatientVector sum = new PatientVector(0, 0, 0);
        for (PatientVector n : profiles.normals()) {
            sum = sum.plus(n);
        }
        // A closed ring of normals (a cylinder) has no mean; its first normal stands for the blur then.
        return sum.norm() > 0.1 * profiles.normals().length ? sum.unit() : profiles.normals()[0];
    }

    private static ThresholdContact.Spread spread(List<OptionalDouble> values) {
        return ThresholdContact.Spread.of(values.stream()
                .filter(OptionalDouble::isPresent)
                .mapToDouble(OptionalDouble::getAsDouble)
                .toArray());
    }

    private static OptionalDouble optional(double value) {
        return Double.isNaN(value) ? OptionalDouble.empty() : OptionalDouble.of(value);
    }
}
