package org.holdfast.measure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;

/**
 * The denser front of the host bone (endplate, sclerotic rim) as the scan shows it: thickness and HU cannot be told
 * apart once blurred, so the thickness is taken from the settings and the HU is fitted.
 *
 * <p>Profiles are put in groups by where bone first appears, each group is averaged, and the front's HU is the value for
 * which the model, with the best gap for each group, leaves the smallest weighted sum of squares.
 */
final class BoneFront {

    private static final double GROUP_WIDTH_MM = 0.3;
    private static final int MIN_GROUP = 12;
    private static final double MAX_EXCESS_HU = 1500;
    private static final double EXCESS_STEP_HU = 25;
    private static final double GAP_STEP_MM = 0.1;
    /** The fit begins beyond the edge, where the implant's plateau no longer rules the profile, in σ. */
    private static final double FROM_SIGMA = 1.0;
    /** Where bone appears so far from the edge, the front stands clear of the implant's flank. */
    private static final double CLEAR_MM = 1.2;
    /** So many samples with a clear front are enough to leave the others out. */
    private static final int ENOUGH_CLEAR = 60;
    /** A front must stay under this share of the half-maximum level, or the edge would be found beyond it. */
    private static final double UNDER_EDGE = 0.8;

    private BoneFront() {}

    /** A mean profile counted from the implant's edge, with its number of samples and where its bone appears. */
    private record Group(double[] hu, int count, double appearsMm) {
        boolean isClear() {
            return appearsMm >= CLEAR_MM;
        }
    }

    /**
     * HU of the front of the bone opposite a face, at least that of the deeper bone; empty where too few profiles show it.
     *
     * @param layer facts of the implant's face; the model's edge is found by the rule that found the scan's
     * @param plateauHu true HU of the implant under the face
     * @param deepHu HU of the deeper bone
     * @param sigmaMm blur along the normal
     * @param boneHu threshold by which profiles are put in groups
     * @param ceilingHu HU of the scale's ceiling; NaN where there is none
     */
    static OptionalDouble fit(
            FaceInExam seen,
            FaceLayer layer,
            double plateauHu,
            double deepHu,
            double sigmaMm,
            double boneHu,
            double ceilingHu,
            MeasurementSettings settings) {
        double from = Math.max(0.4, FROM_SIGMA * sigmaMm);
        double to = settings.gapLimitMm();
        List<Group> groups = groups(seen, from, to, boneHu, settings);
        if (groups.isEmpty()) {
            return OptionalDouble.empty();
        }
        List<Group> clear = groups.stream().filter(Group::isClear).toList();
        if (clear.stream().mapToInt(Group::count).sum() >= ENOUGH_CLEAR) {
            groups = clear;
        }
        double highest = Math.min(MAX_EXCESS_HU, UNDER_EDGE * 0.5 * (plateauHu + deepHu) - deepHu);
        double best = Double.POSITIVE_INFINITY;
        double bestExcess = 0;
        for (double excess = 0; excess <= highest; excess += EXCESS_STEP_HU) {
            ProfileModel model = new ProfileModel(
                    plateauHu, settings.fluidHu(), deepHu + excess, settings.frontMm(), deepHu, sigmaMm);
            double misfit = misfit(groups, model, layer, ceilingHu, from, settings);
            if (misfit < best) {
                best = misfit;
                bestExcess = excess;
            }
        }
        return OptionalDouble.of(deepHu + bestExcess);
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
            FaceInExam seen, double from, double to, double boneHu, MeasurementSettings settings) {
        double step = settings.profileStepMm();
        int length = (int) Math.round((to - from) / step) + 1;
        int bins = (int) Math.ceil(to / GROUP_WIDTH_MM);
        double[][] sums = new double[bins][length];
        int[] counts = new int[bins];
        FaceProfiles face = seen.profiles();
        for (int n = 0; n < seen.size(); n++) {
            // The model's edge is found as this exam's own, also where another exam's edge is kept.
            double edge = seen.ownEdges()[n].tMm();
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
                groups.add(new Group(sums[bin], counts[bin], bin * GROUP_WIDTH_MM));
            }
        }
        return groups;
    }
}
