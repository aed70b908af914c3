package org.holdfast.measure;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.holdfast.construct.Component;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;
import org.holdfast.volume.VoxelCoord;

/**
 * The voxels round a screw's stretch in bone in cylinder coordinates, one array a slab of about 1 mm along the screw.
 * Voxels that carry no tissue or lie near other laid-out metal are left out. Arrays must not be written.
 *
 * @param slabs the slabs, from the head end
 * @param widthMm length of a slab along the screw
 */
record ScrewVoxels(List<Slab> slabs, double widthMm) {

    /**
     * Voxels of one slab.
     *
     * @param atMm middle of the slab, from the head point
     * @param rhoMm distance from the axis
     * @param angleRad direction round the axis, in [0, 2π)
     * @param hu HU
     * @param otherMetal sectors that other laid-out metal comes near to
     */
    record Slab(double atMm, float[] rhoMm, float[] angleRad, float[] hu, boolean[] otherMetal) {}

    /** Sectors round the screw: 30°. */
    static final int SECTORS = 12;

    /** The sector of a direction. */
    static int sector(double angleRad) {
        return Math.min(SECTORS - 1, (int) (angleRad / (2 * Math.PI) * SECTORS));
    }

    /**
     * Reads the voxels, on all cores.
     *
     * @param fromMm start of the stretch from the head point
     * @param toMm its end
     * @param reachMm largest distance from the axis
     * @param others other parts, on the reference exam
     * @param marginMm voxels nearer to another part than this are left out
     */
    static ScrewVoxels read(
            ScrewAxis axis,
            double fromMm,
            double toMm,
            double reachMm,
            ExamScan exam,
            List<Component> others,
            double marginMm) {
        int count = Math.max(1, (int) Math.round(toMm - fromMm));
        double width = (toMm - fromMm) / count;
        Near near = new Near(others, exam.referenceToExam().inverse(), marginMm);
        List<Slab> slabs = IntStream.range(0, count)
                .parallel()
                .mapToObj(n -> slab(axis, fromMm + n * width, width, reachMm, exam.volume(), near))
                .toList();
        return new ScrewVoxels(slabs, width);
    }

    /** Other parts, asked in the space of the reference exam. */
    private record Near(List<Component> parts, RigidTransform examToReference, double marginMm) {
        Near {
            parts = parts.stream().filter(p -> p.shape().hasDistance()).toList();
        }

        /** Those that come near to a ball. */
        Near within(PatientPoint centre, double radiusMm) {
            PatientPoint own = examToReference.apply(centre);
            return new Near(
                    parts.stream()
                            .filter(p -> p.shape().signedDistanceMm(own) < radiusMm + marginMm)
                            .toList(),
                    examToReference,
                    marginMm);
        }

        boolean isNear(PatientPoint p) {
            if (parts.isEmpty()) {
                return false;
            }
            PatientPoint own = examToReference.apply(p);
            return parts.stream().anyMatch(part -> part.shape().signedDistanceMm(own) < marginMm);
        }
    }

    private static Slab slab(ScrewAxis axis, double fromMm, double widthMm, double reachMm, HuVolume volume, Near all) {
        VolumeGrid grid = volume.grid();
        PatientPoint middle = axis.head().along(axis.direction(), fromMm + 0.5 * widthMm);
        double radius = Math.hypot(reachMm, 0.5 * widthMm);
        Near near = all.within(middle, radius);
        int[] from = new int[3];
        int[] to = new int[3];
        box(grid, middle, radius, from, to);
        int capacity =
                Math.max(0, to[0] - from[0] + 1) * Math.max(0, to[1] - from[1] + 1) * Math.max(0, to[2] - from[2] + 1);
        float[] rho = new float[capacity];
        float[] angle = new float[capacity];
        float[] hu = new float[capacity];
        boolean[] otherMetal = new boolean[SECTORS];
        int count = 0;
        for (int k = from[2]; k <= to[2]; k++) {
            for (int j = from[1]; j <= to[1]; j++) {
                for (int i = from[0]; i <= to[0]; i++) {
                    PatientPoint p = grid.voxelToPatient(new VoxelCoord(i, j, k));
                    PatientVector offset = p.minus(axis.head());
                    double along = offset.dot(axis.direction()) - fromMm;
                    double x = offset.dot(axis.zero());
                    double y = offset.dot(axis.quarter());
                    double distance = Math.hypot(x, y);
                    double value = volume.hu(i, j, k);
                    if (along < 0 || along >= widthMm || distance >= reachMm || Double.isNaN(value)) {
                        continue;
                    }
                    double turned = Math.atan2(y, x);
                    double direction = turned < 0 ? turned + 2 * Math.PI : turned;
                    if (near.isNear(p)) {
                        otherMetal[sector(direction)] = true;
                        continue;
                    }
                    rho[count] = (float) distance;
                    angle[count] = (float) direction;
                    hu[count] = (float) value;
                    count++;
                }
            }
        }
        return new Slab(
                fromMm + 0.5 * widthMm,
                Arrays.copyOf(rho, count),
                Arrays.copyOf(angle, count),
                Arrays.copyOf(hu, count),
                otherMetal);
    }

    /** Indices that hold a ball, within the grid; a sheared stack gets a larger box. */
    private static void box(VolumeGrid grid, PatientPoint middle, double radius, int[] from, int[] to) {
        double[] low = {Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY};
        double[] high = {Double.NEGATIVE_INFINITY, Double.NEGATIVE_INFINITY, Double.NEGATIVE_INFINITY};
        for (int corner = 0; corner < 8; corner++) {
            PatientPoint p = middle.along(grid.rowDirection(), (corner & 1) == 0 ? -radius : radius)
                    .along(grid.columnDirection(), (corner & 2) == 0 ? -radius : radius)
                    .along(grid.normal(), (corner & 4) == 0 ? -radius : radius);
            VoxelCoord c = grid.patientToVoxel(p);
            double[] at = {c.i(), c.j(), c.k()};
            for (int n = 0; n < 3; n++) {
                low[n] = Math.min(low[n], at[n]);
                high[n] = Math.max(high[n], at[n]);
            }
        }
        int[] size = {grid.columns(), grid.rows(), grid.slices()};
        for (int n = 0; n < 3; n++) {
            from[n] = (int) Math.max(0, Math.floor(low[n]));
            to[n] = (int) Math.min(size[n] - 1, Math.ceil(high[n]));
        }
    }

    /**
     * The axis through the middle of the metal: the centroid of what lies over {@code lowHu}, counted up to
     * {@code highHu}, slab by slab, and a straight line through these; the axis as given where too few slabs show metal.
     *
     * @param withinMm voxels farther from the axis are not counted
     * @param minVoxels a slab with less metal than so many whole voxels is not counted
     */
    ScrewAxis centred(ScrewAxis axis, double withinMm, double lowHu, double highHu, double minVoxels) {
        int count = slabs.size();
        double[] at = new double[count];
        double[] x = new double[count];
        double[] y = new double[count];
        int found = 0;
        for (Slab slab : slabs) {
            double mass = 0;
            double sumX = 0;
            double sumY = 0;
            for (int n = 0; n < slab.hu.length; n++) {
                double w = Math.min(slab.hu[n], highHu) - lowHu;
                if (slab.rhoMm[n] < withinMm && w > 0) {
                    mass += w;
                    sumX += w * slab.rhoMm[n] * Math.cos(slab.angleRad[n]);
                    sumY += w * slab.rhoMm[n] * Math.sin(slab.angleRad[n]);
                }
            }
            if (mass > minVoxels * (highHu - lowHu)) {
                at[found] = slab.atMm;
                x[found] = sumX / mass;
                y[found] = sumY / mass;
                found++;
            }
        }
        if (found < MIN_CENTROIDS) {
            return axis;
        }
        double first = at[0];
        double last = at[found - 1];
        double[] lineX = line(at, x, found, first, last);
        double[] lineY = line(at, y, found, first, last);
        return axis.shifted(first, last, new double[][] {{lineX[0], lineY[0]}, {lineX[1], lineY[1]}});
    }

    private static final int MIN_CENTROIDS = 4;

    /** Values at two places of the straight line through points by least squares. */
    private static double[] line(double[] at, double[] value, int count, double first, double last) {
        double meanAt = Arrays.stream(at, 0, count).average().orElseThrow();
        double mean = Arrays.stream(value, 0, count).average().orElseThrow();
        double both = 0;
        double squares = 0;
        for (int n = 0; n < count; n++) {
            both += (at[n] - meanAt) * (value[n] - mean);
            squares += (at[n] - meanAt) * (at[n] - meanAt);
        }
        double slope = squares > 0 ? both / squares : 0;
        return new double[] {mean + slope * (first - meanAt), mean + slope * (last - meanAt)};
    }

    /**
     * Gathers a slab's voxels in rings, one set a sector.
     *
     * @param fromRhoMm inner border of the first ring; voxels nearer to the axis are left out
     * @param rings number of rings
     * @param ceilingHu HU from which a voxel is clipped; infinite for none
     */
    static RingSums[] gather(Slab slab, BlurredDiscs discs, double fromRhoMm, int rings, double ceilingHu) {
        RingSums[] bySector = new RingSums[SECTORS];
        Arrays.setAll(bySector, n -> new RingSums(rings, discs.radii()));
        for (int n = 0; n < slab.hu.length; n++) {
            int ring = (int) Math.floor((slab.rhoMm[n] - fromRhoMm) / RingSums.WIDTH_MM);
            if (ring < 0 || ring >= rings) {
                continue;
            }
            RingSums sums = bySector[sector(slab.angleRad[n])];
            sums.add(ring, slab.rhoMm[n], slab.hu[n], slab.hu[n] >= ceilingHu);
            discs.addTo(sums.shares[ring], slab.angleRad[n], slab.rhoMm[n]);
        }
        return bySector;
    }
}
