package org.holdfast.measure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.PatchSample;
import org.holdfast.construct.Porous;
import org.holdfast.geometry.PatientVector;

/**
 * Interface contact by fit: under each sample the voxels of a thin column along the normal are fitted with the blurred
 * profile model, which tells gaps that are narrower than the blur. Bone with a fitted gap under the settings' limit is
 * contact; every gap has a standard error; what the fit can tell in this scan is found by fitting the model to itself.
 * Thread-safe; uses all cores.
 */
public final class ContactByFit {

    private static final String NOTHING = "nothing is assessable";

    private final Construct construct;
    private final BoneInterface face;
    private final Component component;
    private final MeasurementSettings settings;
    private final List<PatchSample> samples;
    private final FaceLayer layer;
    private final double[] cutsMm;
    private final ValueColumn.Bend[] bends;
    private final PatientVector[] rims;

    /**
     * @param construct the construct on its reference exam
     * @param face the interface to be measured
     * @param settings thresholds
     */
    public ContactByFit(Construct construct, BoneInterface face, MeasurementSettings settings) {
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
        this.bends = FaceFit.bends(face.patches(), settings.sampleSpacingMm(), samples.size());
        this.rims = samples.stream()
                .parallel()
                .map(s -> FaceRim.inwards(component.shape(), s, settings))
                .toArray(PatientVector[]::new);
    }

    /**
     * A measurement with what later exams keep of it.
     *
     * @param contact the result of this exam, or why there is none
     * @param reference what the reference exam says of the face
     */
    public record Measured(Answer<FittedContact> contact, Reference reference) {}

    /** What the reference exam says of a face; opaque, given back when later exams are measured. */
    public static final class Reference {
        private final ReferenceFace face;

        private Reference(ReferenceFace face) {
            this.face = face;
        }
    }

    /** Measures the reference exam of a course. */
    public Measured measureReference(ExamScan exam) {
        return measure(exam, Optional.empty(), Optional.empty());
    }

    /** The same with the host bone as contact by threshold found it, so that both have one bone threshold. */
    Measured measureReference(ExamScan exam, HostBone host) {
        return measure(
                exam, Optional.empty(), host.hostHu().value().isPresent() ? Optional.of(host) : Optional.empty());
    }

    /** Measures a later exam: threshold, host bone and, within its error, the edges are those of the reference exam. */
    public Measured measureFollowUp(ExamScan exam, Reference reference) {
        return measure(exam, Optional.of(reference), Optional.empty());
    }

    private Measured measure(ExamScan exam, Optional<Reference> given, Optional<HostBone> found) {
        FaceProfiles profiles = FaceProfiles.read(samples, cutsMm, exam, new PatientVector(0, 0, 0), layer, settings);
        FaceInExam seen = FaceInExam.of(profiles, exam, layer, Optional.empty(), settings);
        double noise = HostBone.noiseSd(orLaidOut(seen), exam.volume(), settings);
        FaceFit fit = new FaceFit(faceOf(seen, profiles), exam, settings, noise, 1, knownEdges(seen, given));
        Obstacle[] before = obstacles(seen, fit);
        boolean[] wanted = new boolean[samples.size()];
        for (int n = 0; n < wanted.length; n++) {
            wanted[n] = before[n] == null;
        }
        FaceFit.Fits fits = fit.fit(wanted);
        FaceInExam fitted = fitted(seen, fits);
        ReferenceFace reference = given.map(r -> r.face).orElseGet(() -> reference(fitted, noise, found));
        FitClassifier classifier = new FitClassifier(reference.host().boneHu(), settings);
        List<SampleClassifier.Outcome> outcomes = new ArrayList<>(samples.size());
        for (int n = 0; n < samples.size(); n++) {
            outcomes.add(
                    before[n] != null
                            ? SampleClassifier.Outcome.notAssessable(before[n])
                            : classifier.classify(fits.profiles()[n]));
        }
        Stated limit = limit(fit, fits, outcomes);
        return new Measured(result(exam, fitted, fits, outcomes, reference, limit), new Reference(reference));
    }

    private FaceFit.Face faceOf(FaceInExam seen, FaceProfiles profiles) {
        return new FaceFit.Face(
                profiles,
                layer,
                bends,
                rims,
                component.porous().map(Porous::depthMm).orElse(Double.POSITIVE_INFINITY),
                NominalMetal.hu(component.material(), settings),
                seen.isMostlyClipped());
    }

    /** Faces whose layer is too thin for a plateau are read where they were laid out. */
    private FaceInExam orLaidOut(FaceInExam seen) {
        ImplantEdge[] edges = seen.edges().clone();
        for (int n = 0; n < edges.length; n++) {
            if (edges[n].obstacle() == Obstacle.LAYER_TOO_THIN) {
                edges[n] = new ImplantEdge(0, edges[n].plateauHu(), false, null);
            }
        }
        return new FaceInExam(seen.profiles(), edges, edges);
    }

    /** The reference exam's edges, moved by what the pose leaves over: the median difference to this exam's own. */
    private double[] knownEdges(FaceInExam seen, Optional<Reference> given) {
        double[] known = new double[samples.size()];
        Arrays.fill(known, Double.NaN);
        if (given.isEmpty()) {
            return known;
        }
        double[] kept = given.get().face.edgeMm();
        double[] shifts = IntStream.range(0, known.length)
                .filter(n -> seen.edges()[n].obstacle() == null && !Double.isNaN(kept[n]))
                .mapToDouble(n -> seen.edges()[n].tMm() - kept[n])
                .toArray();
        double shift = shifts.length > 0 ? Quantiles.median(shifts) : 0;
        for (int n = 0; n < known.length; n++) {
            known[n] = kept[n] + shift;
        }
        return known;
    }

    /** What forbids a fit under each sample; null where nothing does. A thin layer does not. */
    private Obstacle[] obstacles(FaceInExam seen, FaceFit fit) {
        Obstacle[] found = new Obstacle[samples.size()];
        for (int n = 0; n < found.length; n++) {
            ImplantEdge edge = seen.edges()[n];
            boolean isThin = edge.obstacle() == Obstacle.LAYER_TOO_THIN;
            double at = isThin ? 0 : edge.tMm();
            found[n] = isThin ? null : edge.obstacle();
            if (found[n] == null) {
                found[n] = beside(seen.profiles().profiles()[n], at, fit.cutMm(n));
            }
        }
        return found;
    }

    private Obstacle beside(Profile profile, double edge, double cut) {
        double from = edge + settings.fit().contactGapMm();
        double to = edge + settings.guardPorousTitaniumMm() + settings.artefactWindowMm();
        if (cut < to + settings.boneWindowMm()) {
            return Obstacle.OTHER_METAL;
        }
        double darkest = profile.min(from, to);
        if (Double.isNaN(darkest)) {
            return Obstacle.OUTSIDE_IMAGE;
        }
        return darkest < settings.darkHu() ? Obstacle.DARK_STREAK : null;
    }

    /** The face with the fitted edges. */
    private static FaceInExam fitted(FaceInExam seen, FaceFit.Fits fits) {
        ImplantEdge[] edges = seen.edges().clone();
        for (int n = 0; n < edges.length; n++) {
            FittedProfile fit = fits.profiles()[n];
            if (fit != null) {
                edges[n] = new ImplantEdge(fit.edgeMm(), fit.plateauHu(), edges[n].isClipped(), null);
            }
        }
        return new FaceInExam(seen.profiles(), edges, edges);
    }

    private ReferenceFace reference(FaceInExam fitted, double noiseSdHu, Optional<HostBone> found) {
        HostBone host = found.orElseGet(() -> HostBone.read(fitted, noiseSdHu, settings));
        double[] edgeMm = new double[fitted.size()];
        boolean[] opposite = new boolean[fitted.size()];
        for (int n = 0; n < fitted.size(); n++) {
            edgeMm[n] = fitted.edges()[n].tMm();
            opposite[n] = fitted.hostHu(n, settings) >= host.boneHu();
        }
        return new ReferenceFace(edgeMm, host, opposite);
    }

    /** The limit for a sample with the face's typical implant and bone. */
    private Stated limit(FaceFit fit, FaceFit.Fits fits, List<SampleClassifier.Outcome> outcomes) {
        int[] bony = IntStream.range(0, samples.size())
                .filter(n -> outcomes.get(n).tissue() == Tissue.CONTACT
                        || outcomes.get(n).tissue() == Tissue.GAP)
                .toArray();
        if (bony.length == 0) {
            return Stated.not("no bone is seen opposite the face");
        }
        FittedProfile[] profiles =
                Arrays.stream(bony).mapToObj(n -> fits.profiles()[n]).toArray(FittedProfile[]::new);
        double middle = FaceFit.median(profiles, f -> (f.frontHu() - f.deepHu()) * f.thicknessMm())
                .orElse(0.0);
        int typical = Arrays.stream(bony)
                .boxed()
                .min(java.util.Comparator.comparingDouble(n ->
                        Math.abs(fits.profiles()[n].mean(f -> (f.frontHu() - f.deepHu()) * f.thicknessMm()) - middle)))
                .orElseThrow();
        ProfileKnown known = fit.known(typical);
        double sigma = fits.sigmaRatio() * known.sigmaMm();
        return FitLimit.find(
                known.withSigma(sigma, FaceFit.OWN_SIGMA_SHARE * sigma),
                fits.profiles()[typical],
                fit.column(typical),
                fits.proportions(),
                settings);
    }

    private Answer<FittedContact> result(
            ExamScan exam,
            FaceInExam fitted,
            FaceFit.Fits fits,
            List<SampleClassifier.Outcome> outcomes,
            ReferenceFace reference,
            Stated limit) {
        AreaShares shares = new AreaShares(samples, outcomes);
        double total = shares.totalMm2();
        double hidden = shares.notAssessableMm2() / total;
        String refusal = 1 - hidden < settings.minAssessable()
                ? String.format(
                        Locale.ROOT,
                        "only %.0f %% of the face is assessable by fit, %.0f %% are needed",
                        100 * (1 - hidden),
                        100 * settings.minAssessable())
                : "";
        SampleClassifier guard = guard(exam, fitted, reference);
        Bridging.Result bridging = refusal.isEmpty()
                ? Bridging.of(face, construct, exam, fitted, beyondGuard(fitted, outcomes, guard.guardMm()), guard)
                : Bridging.Result.not(refusal, samples.size());
        List<FittedReading> readings = readings(fits, outcomes, reference, bridging);
        return Answer.of(new FittedContact(
                stated(shares.contactOfAssessable(), refusal, NOTHING),
                stated(shares.contactMm2() / total, refusal, NOTHING),
                stated((shares.contactMm2() + shares.notAssessableMm2()) / total, refusal, NOTHING),
                stated(
                        shares.contactAmong(reference.oppositeBone()),
                        refusal,
                        "no host bone opposite the face on the reference exam"),
                bridging.share(),
                hidden,
                shares.obstacleShares(),
                limit,
                spread(readings, t -> t == Tissue.CONTACT || t == Tissue.GAP, FittedReading::gapMm),
                medianSe(readings),
                reference.host().boneHu(),
                total,
                readings));
    }

    private static Stated stated(double value, String refusal, String otherwise) {
        return refusal.isEmpty() ? Stated.ofOrNot(value, otherwise) : Stated.not(refusal);
    }

    private SampleClassifier guard(ExamScan exam, FaceInExam fitted, ReferenceFace reference) {
        double voxelMm = exam.volume().grid().voxelExtentMm(fitted.meanNormal());
        boolean unknownMetal = fitted.isMostlyClipped() && settings.knownMetalHu() <= 0;
        return new SampleClassifier(
                layer.guardMm(voxelMm, unknownMetal, settings), reference.host().boneHu(), settings);
    }

    /** Bridging is sought beyond the guard, where voxels show bone as it is; contact begins there for it. */
    private static List<SampleClassifier.Outcome> beyondGuard(
            FaceInExam fitted, List<SampleClassifier.Outcome> outcomes, double guardMm) {
        List<SampleClassifier.Outcome> moved = new ArrayList<>(outcomes.size());
        for (int n = 0; n < outcomes.size(); n++) {
            SampleClassifier.Outcome outcome = outcomes.get(n);
            double from = Math.max(outcome.boneAtMm(), fitted.edges()[n].tMm() + guardMm);
            moved.add(
                    outcome.tissue() == Tissue.CONTACT
                            ? new SampleClassifier.Outcome(Tissue.CONTACT, null, from)
                            : outcome);
        }
        return moved;
    }

    private List<FittedReading> readings(
            FaceFit.Fits fits,
            List<SampleClassifier.Outcome> outcomes,
            ReferenceFace reference,
            Bridging.Result bridging) {
        List<FittedReading> readings = new ArrayList<>(samples.size());
        for (int n = 0; n < samples.size(); n++) {
            SampleClassifier.Outcome outcome = outcomes.get(n);
            Optional<FittedProfile> fit = Optional.ofNullable(fits.profiles()[n]);
            boolean isBone = outcome.tissue() == Tissue.CONTACT || outcome.tissue() == Tissue.GAP;
            readings.add(new FittedReading(
                    samples.get(n),
                    outcome.tissue(),
                    Optional.ofNullable(outcome.obstacle()),
                    number(fit, FittedProfile::edgeMm),
                    isBone ? number(fit, FittedProfile::gapMm) : OptionalDouble.empty(),
                    isBone ? number(fit, FittedProfile::gapSeMm) : OptionalDouble.empty(),
                    number(fit, FittedProfile::frontHu),
                    number(fit, FittedProfile::deepHu),
                    reference.oppositeBone()[n],
                    bridging.bridged()[n]));
        }
        return readings;
    }

    private static OptionalDouble number(Optional<FittedProfile> fit, Function<FittedProfile, Double> of) {
        return fit.map(f -> OptionalDouble.of(of.apply(f))).orElse(OptionalDouble.empty());
    }

    private static Stated medianSe(List<FittedReading> readings) {
        double[] errors = readings.stream()
                .filter(r -> r.gapSeMm().isPresent())
                .mapToDouble(r -> r.gapSeMm().getAsDouble())
                .toArray();
        return errors.length == 0 ? Stated.not("no gap was fitted") : Stated.of(Quantiles.median(errors));
    }

    private static ThresholdContact.Spread spread(
            List<FittedReading> readings, Predicate<Tissue> which, Function<FittedReading, OptionalDouble> value) {
        List<FittedReading> taken = readings.stream()
                .filter(r -> which.test(r.tissue()) && value.apply(r).isPresent())
                .toList();
        return ThresholdContact.Spread.of(
                taken.stream().mapToDouble(r -> value.apply(r).getAsDouble()).toArray(),
                taken.stream().mapToDouble(r -> r.sample().areaMm2()).toArray());
    }
}
