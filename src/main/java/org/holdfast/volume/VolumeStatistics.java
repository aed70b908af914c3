package org.holdfast.volume;

import java.util.OptionalDouble;
import java.util.stream.IntStream;

/**
 * Counts and HU over the valid voxels of a volume.
 *
 * @param minHu smallest HU; NaN if no voxel is valid
 * @param maxHu largest HU; NaN if no voxel is valid
 * @param meanHu mean HU; NaN if no voxel is valid
 * @param validVoxels voxels that carry tissue
 * @param totalVoxels all voxels of the grid
 * @param ceilingHu the HU at which the scale is clipped, if it is: at least 50 voxels at the volume's maximum, which is
 *     2^k − 1 stored (k from 12 to 16) or the largest value that the stored format can hold; of images compressed with
 *     loss, at least 50 voxels within 8 stored steps of such a value that the maximum is that near to
 * @param voxelsAtMaximum voxels that have exactly the largest HU; of images compressed with loss those near the ceiling,
 *     where there is one
 */
public record VolumeStatistics(
        double minHu,
        double maxHu,
        double meanHu,
        long validVoxels,
        long totalVoxels,
        OptionalDouble ceilingHu,
        long voxelsAtMaximum) {

    /** Voxels at the maximum from which it is taken for a ceiling. */
    static final int CEILING_VOXELS = 50;

    private record SliceSums(int min, int max, long atMax, long sum, long count) {}

    static VolumeStatistics of(HuVolume volume) {
        int slices = volume.grid().slices();
        SliceSums[] sums = IntStream.range(0, slices)
                .parallel()
                .mapToObj(k -> sum(volume.codes(k)))
                .toArray(SliceSums[]::new);
        double min = Double.POSITIVE_INFINITY;
        double max = Double.NEGATIVE_INFINITY;
        double total = 0;
        long count = 0;
        for (int k = 0; k < slices; k++) {
            SliceSums s = sums[k];
            if (s.count > 0) {
                double slope = volume.slope(k);
                double a = slope * (slope > 0 ? s.min : s.max) + volume.intercept(k);
                double b = slope * (slope > 0 ? s.max : s.min) + volume.intercept(k);
                min = Math.min(min, a);
                max = Math.max(max, b);
                total += slope * s.sum + volume.intercept(k) * s.count;
                count += s.count;
            }
        }
        long voxels = (long) volume.grid().columns() * volume.grid().rows() * slices;
        if (count == 0) {
            return new VolumeStatistics(Double.NaN, Double.NaN, Double.NaN, 0, voxels, OptionalDouble.empty(), 0);
        }
        long atMaximum = 0;
        double ceiling = Double.NaN;
        for (int k = 0; k < slices; k++) {
            SliceSums s = sums[k];
            if (s.count > 0 && volume.slope(k) > 0 && volume.slope(k) * s.max + volume.intercept(k) == max) {
                atMaximum += s.atMax;
                ceiling = Double.isNaN(ceiling) ? volume.ceilingHu(k, s.max) : ceiling;
            }
        }
        if (volume.ceilingSlackHu(0) > 0 && !Double.isNaN(ceiling)) {
            atMaximum = nearCeiling(volume, ceiling);
        }
        boolean clipped = !Double.isNaN(ceiling) && atMaximum >= CEILING_VOXELS;
        return new VolumeStatistics(
                min,
                max,
                total / count,
                count,
                voxels,
                clipped ? OptionalDouble.of(ceiling) : OptionalDouble.empty(),
                atMaximum);
    }

    /** Voxels that lossy compression may have moved away from the ceiling. */
    private static long nearCeiling(HuVolume volume, double ceilingHu) {
        return IntStream.range(0, volume.grid().slices())
                .parallel()
                .mapToLong(k -> {
                    double lowest = ceilingHu - volume.ceilingSlackHu(k);
                    long count = 0;
                    for (short code : volume.codes(k)) {
                        boolean near = volume.slope(k) * code + volume.intercept(k) >= lowest;
                        count += code != HuVolume.INVALID && near ? 1 : 0;
                    }
                    return count;
                })
                .sum();
    }

    private static SliceSums sum(short[] codes) {
        int min = Integer.MAX_VALUE;
        int max = Integer.MIN_VALUE;
        long sum = 0;
        long count = 0;
        for (short code : codes) {
            if (code != HuVolume.INVALID) {
                min = Math.min(min, code);
                max = Math.max(max, code);
                sum += code;
                count++;
            }
        }
        long atMax = 0;
        for (short code : codes) {
            if (code == max) {
                atMax++;
            }
        }
        return new SliceSums(min, max, atMax, sum, count);
    }
}
