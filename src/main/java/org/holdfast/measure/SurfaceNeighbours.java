package org.holdfast.measure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.holdfast.construct.PatchSample;
import org.holdfast.geometry.PatientPoint;

/**
 * Which samples of a face lie near each other, on flat and curved faces: within a distance in space, and looking the same
 * way, so that the two sides of a thin plate are not neighbours. Immutable.
 */
final class SurfaceNeighbours {

    /** Cosine of the largest angle between the normals of neighbours, 60°. */
    private static final double SAME_SIDE = 0.5;

    private final List<PatchSample> samples;
    private final int[][] near;

    /**
     * @param samples places on a face
     * @param reachMm neighbours lie within this distance, mm; a sample is its own neighbour
     */
    SurfaceNeighbours(List<PatchSample> samples, double reachMm) {
        this.samples = samples;
        double cell = Math.max(reachMm, 0.1);
        Map<List<Long>, List<Integer>> cells = new HashMap<>();
        for (int n = 0; n < samples.size(); n++) {
            cells.computeIfAbsent(cell(samples.get(n).point(), cell, 0, 0, 0), key -> new ArrayList<>())
                    .add(n);
        }
        this.near = IntStream.range(0, samples.size())
                .parallel()
                .mapToObj(n -> near(n, cells, cell, reachMm))
                .toArray(int[][]::new);
    }

    private int[] near(int n, Map<List<Long>, List<Integer>> cells, double cell, double reachMm) {
        PatchSample own = samples.get(n);
        int[] found = new int[16];
        int count = 0;
        for (int place = 0; place < 27; place++) {
            List<Long> key = cell(own.point(), cell, place % 3 - 1, place / 3 % 3 - 1, place / 9 - 1);
            for (int m : cells.getOrDefault(key, List.of())) {
                PatchSample other = samples.get(m);
                if (own.point().distanceTo(other.point()) <= reachMm
                        && own.normal().dot(other.normal()) >= SAME_SIDE) {
                    if (count == found.length) {
                        found = Arrays.copyOf(found, 2 * count);
                    }
                    found[count++] = m;
                }
            }
        }
        int[] sorted = Arrays.copyOf(found, count);
        Arrays.sort(sorted);
        return sorted;
    }

    private static List<Long> cell(PatientPoint p, double size, int di, int dj, int dk) {
        return List.of(
                (long) Math.floor(p.x() / size) + di,
                (long) Math.floor(p.y() / size) + dj,
                (long) Math.floor(p.z() / size) + dk);
    }

    /** Neighbours of a sample, itself among them, ascending; must not be written. */
    int[] of(int n) {
        return near[n];
    }

    /** Area-weighted mean of the neighbours' values that are not NaN; NaN where the sample's own value is. */
    double[] smoothed(double[] values) {
        double[] smooth = new double[values.length];
        for (int n = 0; n < values.length; n++) {
            double sum = 0;
            double area = 0;
            for (int m : near[n]) {
                if (!Double.isNaN(values[m])) {
                    sum += samples.get(m).areaMm2() * values[m];
                    area += samples.get(m).areaMm2();
                }
            }
            smooth[n] = Double.isNaN(values[n]) ? Double.NaN : sum / area;
        }
        return smooth;
    }
}
