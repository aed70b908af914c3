package org.holdfast.measure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The denser front of the host bone (endplate, sclerotic rim) as the scan shows it: thickness and HU cannot be told
 * apart once blurred, so the thickness is taken from the settings and the HU is fitted.
 *
 * <p>Profiles are put in groups by where bone first appears, each group is averaged, and the front's HU is the value for
 * which the model, with the best gap for each group, leaves the smallest weighted sum of squares.
 *
 * @param frontHu HU of the front, at least that of the deeper bone
 * @param deepHu HU of the deeper bone
 */
record BoneFront(double frontHu, double deepHu) {

    private static final double GROUP_WIDTH_MM = 0.3;
    private static final int MIN_GROUP = 12;
    private static final double MAX_EXCESS_HU = 1500;
    private static final double EXCESS_STEP_HU = 25;
    private static final double GAP_STEP_MM = 0.1;
    /** The fit begins beyond the edge, where the implant's plateau no longer rules the profile, in σ. */
    private static final double FROM_SIGMA = 1.0;

    /** A mean profile counted from the implant's edge, with its number of samples. */
    private record Group(double[] hu, int count) {}

    /**
     * Fits the front of the bone opposite a face.
     *
     * @param layer facts of the implant's face; the model's edge is found by the rule that found the scan's
     * @param plateauHu true HU of the implant under the face
     * @param deepHu HU of the deeper bone
     * @param sigmaMm blur along the normal
     * @param boneHu threshold by which profiles are put in groups
     * @param ceilingHu HU of the scale's ceiling; NaN where there is none
     */
    static BoneFront fit(
            FaceProfiles face,
            ImplantEdge[] edges,
            FaceLayer layer,
            double plateauHu,
            double deepHu,
            double sigmaMm,
            double boneHu,
            double ceilingHu,
            MeasurementSettings settings) {
        double from = Math.max(0.4, FROM_SIGMA * sigmaMm);
        double to = settings.gapLimitMm();
        List<Group> groups = groups(face, edges, from, to, boneHu, settings);
        double best = Double.POSITIVE_INFINITY;
        double bestExcess = 0;
        for (double excess = 0; excess <= MAX_EXCESS_HU && !groups.isEmpty(); excess += EXCESS_STEP_HU) {
            ProfileModel model = new ProfileModel(
                    plateauHu, settings.fluidHu(), deepHu + excess, settings.frontMm(), deepHu, sigmaMm);
            double misfit = misfit(groups, model, layer, ceilingHu, from, settings);
            if (misfit < best) {
                best = misfit;
                bestExcess = excess;
            }
        }
        return new BoneFront(deepHu + bestExcess, deepHu);
    }

    /** Sum of squares over the groups, each with the gap that suits it best. */
    private static double misfit(
            List<Group> groups,
            ProfileModel model,
            FaceLayer layer,
            double ceilingHu,
            double fromMm,
            MeasurementSettings settings) {
        double[] smallest = new double[groups.size()];
        Arrays.fill(smallest, Double.POSITIVE_INFINITY);
        for (double gap = 0; gap <= settings.gapLimitMm(); gap += GAP_STEP_MM) {
            Profile seen = model.profile(-layer.insideMm(), settings.profileOutsideMm(), settings.profileStepMm(), gap)
                    .clippedAt(ceilingHu);
            ImplantEdge edge = ImplantEdge.find(seen, layer, ceilingHu, model.sigmaMm(), settings);
            for (int n = 0; n < smallest.length && edge.obstacle() == null; n++) {
                Group group = groups.get(n);
                double sum = 0;
                for (int m = 0; m < group.hu.length; m++) {
                    double residual = group.hu[m] - seen.at(edge.tMm() + fromMm + m * settings.profileStepMm());
                    sum += residual * residual;
                }
                smallest[n] = Math.min(smallest[n], group.count * sum);
            }
        }
        return Arrays.stream(smallest).sum();
    }

    private static List<Group> groups(
            FaceProfiles face,
            ImplantEdge[] edges,
            double from,
            double to,
            double boneHu,
            MeasurementSettings settings) {
        double step = settings.profileStepMm();
        int length = (int) Math.round((to - from) / step) + 1;
        int bins = (int) Math.ceil(to / GROUP_WIDTH_MM);
        double[][] sums = new double[bins][length];
        int[] counts = new int[bins];
        for (int n = 0; n < edges.length; n++) {
            double edge = edges[n].tMm();
            if (Double.isNaN(edge) || face.cutsMm()[n] < edge + to) {
                continue;
            }
            double[] hu = new double[length];
            double appears = Double.NaN;
            boolean valid = true;
            for (int m = 0; m < length; m++) {
                hu[m] = face.profiles()[n].at(edge + from + m * step);
                valid &= !Double.isNaN(hu[m]);
            }
            for (int m = 1; m < length - 1 && Double.isNaN(appears); m++) {
                // Bone appears where HU reach the threshold after the implant's flank has come down, or rise again.
                if (hu[m] >= boneHu && hu[m] >= hu[m - 1]) {
                    appears = from + m * step;
                }
            }
            if (valid && !Double.isNaN(appears)) {
                int bin = Math.min(bins - 1, (int) (appears / GROUP_WIDTH_MM));
                counts[bin]++;
                for (int m = 0; m < length; m++) {
                    sums[bin][m] += hu[m];
                }
            }
        }
        List<Group> groups = new ArrayList<>();
        for (int bin = 0; bin < bins; bin++) {
            if (counts[bin] >= MIN_GROUP) {
                for (int m = 0; m < length; m++) {
                    sums[bin][m] /= counts[bin];
                }
                groups.add(new Group(sums[bin], counts[bin]));
            }
        }
        return groups;
    }
}
