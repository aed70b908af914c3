package org.holdfast.measure;

import java.util.Arrays;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.IntStream;
import org.holdfast.construct.CylinderPatch;
import org.holdfast.construct.Patch;
import org.holdfast.construct.SpherePatch;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;

/**
 * The fits of all samples of a face in one exam. Two things are the same all over a face and are found from it first, from
 * some of the samples: the blur along its normals, within the error of the point spread, and how likely each thickness of
 * the bone's front is (mixture proportions by expectation–maximisation, so that a face whose front varies keeps several).
 * Then every sample is fitted. Uses all cores.
 */
final class FaceFit {

    /** Samples from which the face's blur is found, about. */
    private static final int FIRST_SAMPLES = 120;

    private static final int ENOUGH_FITS = 20;
    /** How well the face's own blur is then known, as a share of it. */
    static final double OWN_SIGMA_SHARE = 0.01;
    /** How far the blur may be found from the stated one, in its standard deviations. */
    private static final double SIGMA_REACH = 2;

    private static final int MIXTURE_ROUNDS = 20;
    private static final double LEAST_PROPORTION = 0.02;
    /** A plateau this near to the porous layer's inner border, in σ, is blurred with the solid body. */
    private static final double LAYER_SIGMA = 3;
    /** Less plateau than this and the solid body must be in the model. */
    private static final double LEAST_PLATEAU_MM = 0.8;
    /** The true HU of metal at the ceiling is known to this share. */
    private static final double METAL_SHARE = 0.15;
    /** Error of places: roughness and a blur that is not quite Gaussian, mm. */
    private static final double PLACE_SD_MM = 0.01;
    /** Noise where too few voxels show it, HU; the fit's own misfit then tells. */
    private static final double UNKNOWN_NOISE_HU = 25;

    private static final double LEAST_NOISE_HU = 2;

    private final Face face;
    private final ExamScan exam;
    private final MeasurementSettings settings;
    private final double noiseSdHu;
    private final double noiseInflation;
    private final double[] edgeMm;
    private final ValueColumn.Bend[] bends;
    private final ValueColumn[] columns;

    /**
     * What is measured.
     *
     * @param profiles the face's profiles in the exam
     * @param layer facts of the implant's face
     * @param bends how the surface bends under each sample, in the reference exam
     * @param rims how far each sample's column is moved inwards from the implant's rim, in the reference exam
     * @param layerMm depth of the porous layer; infinite for none
     * @param metalHu nominal HU of the solid metal
     * @param isClipped whether the implant under the face lies at the ceiling
     */
    record Face(
            FaceProfiles profiles,
            FaceLayer layer,
            ValueColumn.Bend[] bends,
            PatientVector[] rims,
            double layerMm,
            double metalHu,
            boolean isClipped) {}

    /**
     * @param noiseSdHu noise of a voxel; NaN where it is not known
     * @param noiseInflation by how much its correlation raises the variance of a mean
     * @param edgeMm edges that are known beforehand, one a sample; NaN where not
     */
    FaceFit(
            Face face,
            ExamScan exam,
            MeasurementSettings settings,
            double noiseSdHu,
            double noiseInflation,
            double[] edgeMm) {
        this.face = face;
        this.exam = exam;
        this.settings = settings;
        this.noiseSdHu = Double.isNaN(noiseSdHu) ? UNKNOWN_NOISE_HU : Math.max(LEAST_NOISE_HU, noiseSdHu);
        this.noiseInflation = noiseInflation;
        this.edgeMm = edgeMm;
        RigidTransform pose = exam.referenceToExam();
        this.bends = Arrays.stream(face.bends())
                .map(b -> b.axis() == null ? b : new ValueColumn.Bend(b.radiusMm(), pose.apply(b.axis())))
                .toArray(ValueColumn.Bend[]::new);
        this.columns = columns();
    }

    /**
     * What was found.
     *
     * @param profiles one a sample; null where a sample could not be fitted
     * @param sigmaRatio the blur found on the face over the stated one
     * @param proportions how likely each thickness of the front is on this face
     */
    record Fits(FittedProfile[] profiles, double sigmaRatio, double[] proportions) {}

    /** Fits the samples that are wanted. */
    Fits fit(boolean[] wanted) {
        int count = columns.length;
        int[] all = IntStream.range(0, count).filter(n -> wanted[n]).toArray();
        int stride = Math.max(1, all.length / FIRST_SAMPLES);
        double share = exam.pointSpread().sigmaShare(settings);
        FittedProfile[] first = new FittedProfile[count];
        IntStream.range(0, all.length)
                .filter(m -> m % stride == 0)
                .parallel()
                .forEach(m -> first[all[m]] = fit(all[m], 1, share));
        double[] ratios = IntStream.range(0, count)
                .filter(n ->
                        first[n] != null && first[n].misfit() < settings.fit().maxMisfit())
                .mapToDouble(n -> first[n].sigmaMm() / sigma(n))
                .toArray();
        boolean isFound = ratios.length >= ENOUGH_FITS && share > OWN_SIGMA_SHARE;
        double ratio = isFound ? within(Quantiles.median(ratios), 1, SIGMA_REACH * share) : 1;
        double known = isFound ? OWN_SIGMA_SHARE : share;
        FittedProfile[] fits = new FittedProfile[count];
        Arrays.stream(all).parallel().forEach(n -> fits[n] = fit(n, ratio, known));
        double[] proportions = proportions(fits);
        for (int n = 0; n < count; n++) {
            fits[n] = fits[n] == null ? null : fits[n].weighted(proportions);
        }
        return new Fits(fits, ratio, proportions);
    }

    private static double within(double value, double middle, double reach) {
        return Math.min(middle + reach, Math.max(middle - reach, value));
    }

    private FittedProfile fit(int n, double ratio, double share) {
        ValueColumn column = columns[n];
        if (column == null) {
            return null;
        }
        double sigma = ratio * sigma(n);
        ProfileKnown known = known(n).withSigma(sigma, share * sigma);
        return new ProfileFit(known)
                .fit(column.tMm(), column.hu(), column.weight(), column.size())
                .orElse(null);
    }

    /** Mixture proportions of the thicknesses over the samples that have bone, each weighted evenly. */
    static double[] proportions(FittedProfile[] fits) {
        double[] proportions = new double[ProfileFit.FRONT_MM.length];
        Arrays.fill(proportions, 1.0 / proportions.length);
        for (int round = 0; round < MIXTURE_ROUNDS; round++) {
            double[] sums = new double[proportions.length];
            double total = 0;
            for (FittedProfile fit : fits) {
                if (fit != null) {
                    double[] weights = FittedProfile.weights(fit.fronts(), proportions);
                    for (int k = 0; k < sums.length; k++) {
                        sums[k] += weights[k];
                        total += weights[k];
                    }
                }
            }
            if (total == 0) {
                return proportions;
            }
            for (int k = 0; k < sums.length; k++) {
                proportions[k] = (sums[k] / total + LEAST_PROPORTION) / (1 + sums.length * LEAST_PROPORTION);
            }
        }
        return proportions;
    }

    private double sigma(int n) {
        return exam.pointSpread()
                .sigmaOfVoxelsMm(face.profiles().normals()[n], exam.volume().grid());
    }

    /** What is known of a sample's profile. */
    ProfileKnown known(int n) {
        PatientVector normal = face.profiles().normals()[n];
        double sigma = sigma(n);
        boolean isLayered = isLayered(sigma);
        ValueColumn.Bend bend = bends[n];
        double ceiling = exam.ceilingHuOrNaN();
        return new ProfileKnown(
                sigma,
                0,
                PointSpreadEstimate.boxMm4(normal, exam.volume().grid()),
                acrossMm(normal, bend),
                bend.radiusMm(),
                new ProfileKnown.Prior(settings.fluidHu(), settings.fit().fluidSdHu()),
                face.isClipped()
                        ? new ProfileKnown.Prior(face.metalHu(), METAL_SHARE * face.metalHu())
                        : ProfileKnown.Prior.NONE,
                Double.isNaN(edgeMm[n])
                        ? ProfileKnown.Prior.NONE
                        : new ProfileKnown.Prior(edgeMm[n], settings.fit().edgeSdMm()),
                isLayered ? face.layerMm() : Double.POSITIVE_INFINITY,
                face.metalHu(),
                Double.isNaN(ceiling) ? Double.POSITIVE_INFINITY : ceiling,
                noiseSdHu,
                noiseInflation,
                PLACE_SD_MM);
    }

    /** Whether the porous layer is so thin that the solid body under it must be in the model. */
    private boolean isLayered(double sigmaMm) {
        return face.layerMm() < Double.POSITIVE_INFINITY && face.layerMm() - LAYER_SIGMA * sigmaMm < LEAST_PLATEAU_MM;
    }

    /** Blur along the direction in which the surface bends; a sphere bends in two, which doubles the variance. */
    private double acrossMm(PatientVector normal, ValueColumn.Bend bend) {
        if (bend.axis() == null) {
            PatientVector one = normal.anyPerpendicular();
            PatientVector two = normal.cross(one);
            double first = exam.pointSpread().sigmaOfVoxelsMm(one, exam.volume().grid());
            double second =
                    exam.pointSpread().sigmaOfVoxelsMm(two, exam.volume().grid());
            return Math.sqrt(first * first + second * second);
        }
        return exam.pointSpread()
                .sigmaOfVoxelsMm(normal.cross(bend.axis()).unit(), exam.volume().grid());
    }

    private ValueColumn[] columns() {
        FaceProfiles profiles = face.profiles();
        ValueColumn[] read = new ValueColumn[profiles.samples().size()];
        double pitch = exam.volume().grid().pitchMm().orElse(1);
        double radius = Math.max(settings.fit().columnRadiusMm(), 0.75 * pitch);
        RigidTransform pose = exam.referenceToExam();
        IntStream.range(0, read.length).parallel().forEach(n -> {
            double sigma = sigma(n);
            double inside = isLayered(sigma)
                    ? face.layer().insideMm()
                    : Math.min(face.layer().insideMm(), face.layerMm() - LAYER_SIGMA * sigma);
            double to = Math.min(settings.profileOutsideMm(), cutMm(n));
            PatientPoint at = profiles.points()[n].plus(pose.apply(face.rims()[n]));
            read[n] = to <= 1
                    ? null
                    : ValueColumn.read(exam.volume(), at, profiles.normals()[n], bends[n], radius, -inside, to);
        });
        return read;
    }

    /** Where a sample's values end: before other metal, laid out or not. */
    double cutMm(int n) {
        Profile profile = face.profiles().profiles()[n];
        double cut = face.profiles().cutsMm()[n];
        for (int m = 0; m < profile.size(); m++) {
            if (profile.tMm(m) > settings.edgeSearchMm() && profile.value(m) >= settings.metalHu()) {
                return Math.min(cut, profile.tMm(m) - settings.otherMetalMarginMm());
            }
        }
        return cut;
    }

    ValueColumn column(int n) {
        return columns[n];
    }

    double noiseSdHu() {
        return noiseSdHu;
    }

    /** How each sample's surface bends, in the reference exam. */
    static ValueColumn.Bend[] bends(Iterable<Patch> patches, double spacingMm, int count) {
        ValueColumn.Bend[] bends = new ValueColumn.Bend[count];
        int at = 0;
        for (Patch patch : patches) {
            int own = patch.samples(spacingMm).size();
            ValueColumn.Bend bend = bend(Objects.requireNonNull(patch, "patch"));
            Arrays.fill(bends, at, at + own, bend);
            at += own;
        }
        return bends;
    }

    private static ValueColumn.Bend bend(Patch patch) {
        if (patch instanceof CylinderPatch cylinder) {
            return new ValueColumn.Bend(cylinder.radiusMm(), cylinder.axis());
        }
        if (patch instanceof SpherePatch sphere) {
            return new ValueColumn.Bend(sphere.radiusMm(), null);
        }
        return ValueColumn.Bend.PLANE;
    }

    /** The fits' median of a number; empty where there is none. */
    static Optional<Double> median(FittedProfile[] fits, FittedProfile.Of of) {
        double[] values = Arrays.stream(fits)
                .filter(Objects::nonNull)
                .mapToDouble(f -> f.mean(of))
                .toArray();
        return values.length == 0 ? Optional.empty() : Optional.of(Quantiles.median(values));
    }
}
