package org.holdfast.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.function.Predicate;
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

    private static final String NO_FRONT = "too few profiles show the front of the bone";
    private static final String NO_IMPLANT = "no implant seen under the face";

    private final Construct construct;
    private final BoneInterface face;
    private final Component component;
    private final MeasurementSettings settings;
    private final List<PatchSample> samples;
    private final FaceLayer layer;
    private final double[] cutsMm;

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
        List<Component> others = construct.components().stream()
                .filter(c -> !c.id().equals(component.id()))
                .toList();
        this.cutsMm = FaceProfiles.cutsMm(samples, others, settings);
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

        HostBone host() {
            return face.host();
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
        Optional<ReferenceFace> kept = given.map(r -> r.face);
        FaceInExam seen = read(exam, new PatientVector(0, 0, 0), kept);
        double noiseSdHu = HostBone.noiseSd(seen, exam.volume(), settings);
        Stated noise = Stated.ofOrNot(noiseSdHu, "too few voxels at the depth where host bone is read");
        ReferenceFace reference = kept.orElseGet(() -> referenceOf(seen, noiseSdHu));
        SampleClassifier classifier = classifier(reference.host().boneHu(), seen, exam);
        Model model = model(exam, seen, reference.host());
        DetectionLimit rule = new DetectionLimit(classifier, layer, exam.ceilingHuOrNaN(), seen.keptBeyondOwnMm());
        DetectionLimit.Limit limit = model.profile
                .map(profile -> rule.find(profile, noise.value().orElse(0)))
                .orElseGet(() -> DetectionLimit.Limit.not(model.frontHu.why()));
        Visible visible = new Visible(limit, widths(rule, limit, model));
        return new Measured(
                result(exam, seen, reference, kept, classifier, visible, model, noise), new Reference(reference));
    }

    /** What the rule can see by the model: its limit, and how wide gaps are for where it finds bone. */
    private record Visible(DetectionLimit.Limit limit, GapWidth widths) {}

    private static GapWidth widths(DetectionLimit rule, DetectionLimit.Limit limit, Model model) {
        return limit.smallestVisibleGapMm().value().isPresent()
                ? rule.widths(
                        model.profile.orElseThrow(),
                        limit.smallestVisibleGapMm().value().getAsDouble())
                : GapWidth.none();
    }

    /**
     * The model of this exam's profiles.
     *
     * @param profile the model; empty where there is none
     * @param frontHu HU of the bone's front, or why it is not known; the model then takes the deeper bone for it
     */
    private record Model(Optional<ProfileModel> profile, Stated frontHu) {
        static Model none(String why) {
            return new Model(Optional.empty(), Stated.not(why));
        }
    }

    private Model model(ExamScan exam, FaceInExam seen, HostBone host) {
        double plateau = seen.plateauHu();
        if (Double.isNaN(plateau)) {
            return Model.none(NO_IMPLANT);
        }
        if (host.hostHu().value().isEmpty()) {
            return Model.none(host.hostHu().why());
        }
        double own = seen.hostHu(settings);
        double deep = Double.isNaN(own) ? host.hostHu().value().getAsDouble() : own;
        double sigma =
                exam.pointSpread().sigmaAlongMm(seen.meanNormal(), exam.volume().grid());
        double implant = seen.isMostlyClipped() ? NominalMetal.hu(component.material(), settings) : plateau;
        OptionalDouble front =
                BoneFront.fit(seen, layer, implant, deep, sigma, host.boneHu(), exam.ceilingHuOrNaN(), settings);
        ProfileModel profile =
                new ProfileModel(implant, settings.fluidHu(), front.orElse(deep), settings.frontMm(), deep, sigma);
        return new Model(
                Optional.of(profile), front.isPresent() ? Stated.of(front.getAsDouble()) : Stated.not(NO_FRONT));
    }

    private ThresholdContact result(
            ExamScan exam,
            FaceInExam seen,
            ReferenceFace reference,
            Optional<ReferenceFace> kept,
            SampleClassifier classifier,
            Visible visible,
            Model model,
            Stated noise) {
        DetectionLimit.Limit limit = visible.limit;
        List<SampleClassifier.Outcome> outcomes = classify(seen, classifier);
        AreaShares shares = new AreaShares(samples, outcomes);
        double total = shares.totalMm2();
        double hidden = shares.notAssessableMm2() / total;
        String refusal = refusal(hidden, limit.smallestVisibleGapMm());
        Map<Integer, Stated> sensitivity = new TreeMap<>();
        for (int change : SENSITIVITY_HU) {
            sensitivity.put(
                    change, refusal.isEmpty() ? shifted(seen, classifier.shiftedHu(change)) : Stated.not(refusal));
        }
        Bridging.Result bridging = refusal.isEmpty()
                ? Bridging.of(face, construct, exam, seen, outcomes, classifier)
                : Bridging.Result.not(refusal, samples.size());
        List<SampleReading> readings = readings(seen, outcomes, classifier, visible.widths, reference, bridging);
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
                limit.isSettled() && model.frontHu.value().isPresent(),
                sensitivity,
                refusal.isEmpty() ? jitterSd(exam, kept, classifier) : Stated.not(refusal),
                classifier.boneHu(),
                reference.host().rule(),
                reference.host().hostHu(),
                noise,
                spread(readings, Tissue.GAP::equals, SampleReading::gapMm),
                spread(readings, tissue -> tissue != Tissue.NOT_ASSESSABLE, SampleReading::beyondGuardHu),
                classifier.guardMm(),
                Stated.ofOrNot(seen.plateauHu(), NO_IMPLANT),
                model.frontHu,
                total,
                readings);
    }

    /** The fraction under another bone threshold; one that fluid reaches tells nothing of bone. */
    private Stated shifted(FaceInExam seen, SampleClassifier other) {
        if (other.boneHu() <= settings.fluidHu()) {
            return Stated.not(String.format(
                    Locale.ROOT,
                    "a threshold of %.0f HU would not lie over fluid, %.0f HU",
                    other.boneHu(),
                    settings.fluidHu()));
        }
        return Stated.ofOrNot(
                new AreaShares(samples, classify(seen, other)).contactOfAssessable(), "nothing is assessable");
    }

    /** Why no fraction is stated; empty where one is. */
    private String refusal(double hiddenShare, Stated limit) {
        if (1 - hiddenShare < settings.minAssessable()) {
            return String.format(
                    Locale.ROOT,
                    "only %.0f %% of the face is assessable, %.0f %% are needed",
                    100 * (1 - hiddenShare),
                    100 * settings.minAssessable());
        }
        return limit.value().isPresent() ? "" : "estimator does not apply: " + limit.why();
    }

    private static Stated stated(double value, String refusal) {
        return refusal.isEmpty() ? Stated.ofOrNot(value, "nothing is assessable") : Stated.not(refusal);
    }

    private FaceInExam read(ExamScan exam, PatientVector shiftMm, Optional<ReferenceFace> kept) {
        FaceProfiles profiles = FaceProfiles.read(samples, cutsMm, exam, shiftMm, layer, settings);
        return FaceInExam.of(profiles, exam, layer, kept, settings);
    }

    private ReferenceFace referenceOf(FaceInExam seen, double noiseSdHu) {
        HostBone host = HostBone.read(seen, noiseSdHu, settings);
        double[] edgeMm = new double[seen.size()];
        boolean[] opposite = new boolean[seen.size()];
        for (int n = 0; n < seen.size(); n++) {
            edgeMm[n] = seen.edges()[n].tMm();
            opposite[n] = seen.hostHu(n, settings) >= host.boneHu();
        }
        return new ReferenceFace(edgeMm, host, opposite);
    }

    private SampleClassifier classifier(double boneHu, FaceInExam seen, ExamScan exam) {
        boolean unknownMetal = seen.isMostlyClipped() && settings.knownMetalHu() <= 0;
        double voxelMm = exam.volume().grid().voxelExtentMm(seen.meanNormal());
        return new SampleClassifier(layer.guardMm(voxelMm, unknownMetal, settings), boneHu, settings);
    }

    private static List<SampleClassifier.Outcome> classify(FaceInExam seen, SampleClassifier classifier) {
        List<SampleClassifier.Outcome> outcomes = new ArrayList<>(seen.size());
        for (int n = 0; n < seen.size(); n++) {
            ImplantEdge edge = seen.edges()[n];
            outcomes.add(
                    edge.obstacle() != null
                            ? SampleClassifier.Outcome.notAssessable(edge.obstacle())
                            : classifier.classify(
                                    seen.profiles().profiles()[n],
                                    edge.tMm(),
                                    seen.profiles().cutsMm()[n]));
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
            FaceInExam shifted = read(exam, shift, kept);
            double fraction = new AreaShares(samples, classify(shifted, classifier)).contactOfAssessable();
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
            FaceInExam seen,
            List<SampleClassifier.Outcome> outcomes,
            SampleClassifier classifier,
            GapWidth widths,
            ReferenceFace reference,
            Bridging.Result bridging) {
        List<SampleReading> readings = new ArrayList<>(seen.size());
        for (int n = 0; n < seen.size(); n++) {
            SampleClassifier.Outcome outcome = outcomes.get(n);
            ImplantEdge edge = seen.edges()[n];
            readings.add(new SampleReading(
                    samples.get(n),
                    outcome.tissue(),
                    Optional.ofNullable(outcome.obstacle()),
                    optional(edge.tMm()),
                    optional(edge.plateauHu()),
                    optional(gapMm(outcome, edge, widths)),
                    optional(seen.hostHu(n, settings)),
                    outcome.tissue() == Tissue.NOT_ASSESSABLE
                            ? OptionalDouble.empty()
                            : optional(classifier.beyondGuardHu(seen.profiles().profiles()[n], edge.tMm())),
                    reference.oppositeBone()[n],
                    bridging.bridged()[n]));
        }
        return readings;
    }

    private static double gapMm(SampleClassifier.Outcome outcome, ImplantEdge edge, GapWidth widths) {
        double place = outcome.boneAtMm() - edge.tMm();
        return outcome.tissue() == Tissue.GAP ? widths.widthMm(place) : place;
    }

    private static ThresholdContact.Spread spread(
            List<SampleReading> readings, Predicate<Tissue> which, Function<SampleReading, OptionalDouble> value) {
        List<SampleReading> taken = readings.stream()
                .filter(r -> which.test(r.tissue()) && value.apply(r).isPresent())
                .toList();
        return ThresholdContact.Spread.of(
                taken.stream().mapToDouble(r -> value.apply(r).getAsDouble()).toArray(),
                taken.stream().mapToDouble(r -> r.sample().areaMm2()).toArray());
    }

    private static OptionalDouble optional(double value) {
        return Double.isNaN(value) ? OptionalDouble.empty() : OptionalDouble.of(value);
    }
}
