package org.holdfast.measure;

import java.util.ArrayList;
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
    private static final double MAX_EXCESS_HU = 2000;
    private static final double EXCESS_STEP_HU = 20;
    private static final double GAP_STEP_MM = 0.1;
    /** The fit begins beyond the edge, where the implant's plateau no longer rules the profile, in σ. */
    private static final double FROM_SIGMA = 1.0;

    /** A mean profile counted from the implant's edge, with its number of samples. */
    private record Group(double[] hu, int count) {}

    static BoneFront fit(
            FaceProfiles face,
            ImplantEdge[] edges,
            double plateauHu,
            double deepHu,
            double sigmaMm,
            double boneHu,
            MeasurementSettings settings) {
        double from = Math.max(0.4, FROM_SIGMA * sigmaMm);
        double to = settings.gapLimitMm();
        List<Group> groups = groups(face, edges, from, to, boneHu, settings);
        if (groups.isEmpty()) {
            return new BoneFront(deepHu, deepHu);
        }
        int gaps = (int) Math.round(settings.gapLimitMm() / GAP_STEP_MM) + 1;
        int excesses = (int) (MAX_EXCESS_HU / EXCESS_STEP_HU) + 1;
        double step = settings.profileStepMm();
        int length = (int) Math.round((to - from) / step) + 1;
        // The model is linear in the front's HU: base + excess · front, for each gap.
        double[][] base = new double[gaps][length];
        double[][] front = new double[gaps][length];
        ProfileModel level =
                new ProfileModel(plateauHu, settings.fluidHu(), deepHu, settings.frontMm(), deepHu, sigmaMm);
        ProfileModel unit = new ProfileModel(0, 0, 1, settings.frontMm(), 0, sigmaMm);
        for (int g = 0; g < gaps; g++) {
            for (int n = 0; n < length; n++) {
                base[g][n] = level.hu(from + n * step, g * GAP_STEP_MM);
                front[g][n] = unit.hu(from + n * step, g * GAP_STEP_MM);
            }
        }
        double best = Double.POSITIVE_INFINITY;
        double bestExcess = 0;
        for (int e = 0; e < excesses; e++) {
            double excess = e * EXCESS_STEP_HU;
            double total = 0;
            for (Group group : groups) {
                double smallest = Double.POSITIVE_INFINITY;
                for (int g = 0; g < gaps; g++) {
                    smallest = Math.min(smallest, squares(group.hu, base[g], front[g], excess));
                }
                total += group.count * smallest;
            }
            if (total < best) {
                best = total;
                bestExcess = excess;
            }
        }
        return new BoneFront(deepHu + bestExcess, deepHu);
    }

    private static double squares(double[] seen, double[] base, double[] front, double excess) {
        double sum = 0;
        for (int n = 0; n < seen.length; n++) {
            double residual = seen[n] - base[n] - excess * front[n];
            sum += residual * residual;
        }
        return sum;
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
