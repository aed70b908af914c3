package org.holdfast.volume;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.IntStream;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.Slab.Projection;

/** Cuts a volume along any plane, on all cores, by the rules of {@link HuVolume#sample(PatientPoint)}. */
public final class Reslicer {

    /** Rows that one task fills: few enough to share the work out, enough to reuse voxel lines between rows. */
    private static final int BAND = 16;
    /** Side of the squares in which a picture is transposed: 16 floats are one cache line. */
    private static final int TILE = 16;
    /** Planes through a slab lie at most this share of a voxel's extent along the normal apart. */
    private static final double SLAB_STEP = 0.5;
    /** Most planes through a slab. */
    private static final int MOST_PLANES = 10_000;

    private Reslicer() {}

    /**
     * HU on a plane by trilinear interpolation, or of a slab around it.
     *
     * <p>A slab is sampled on planes parallel to the cut from one face to the other, at most half a voxel's extent along
     * the normal apart. MEAN is their mean by the trapezoidal rule, MAXIMUM the largest value; both over those of them
     * that are inside the valid image, so a pixel is NaN only where none is. HU are rounded to float (0.002 HU at
     * 30,000), and weights to 2^−20 voxel (0.03 HU where neighbouring voxels differ by 30,000).
     *
     * @param volume what is cut
     * @param plane where
     * @param slab thickness and projection; empty for the plane alone
     * @throws IllegalArgumentException if the slab is thicker than 5,000 voxels
     */
    public static Cut cut(HuVolume volume, CutPlane plane, Optional<Slab> slab) {
        boolean transposed = runsAcrossSlices(volume.grid(), plane);
        CutPlane inner = transposed
                ? new CutPlane(plane.origin(), plane.stepDown(), plane.stepRight(), plane.height(), plane.width())
                : plane;
        double[] offsets = slab.map(s -> offsetsMm(volume.grid(), plane, s)).orElse(new double[] {0});
        Projection projection = slab.map(Slab::projection).orElse(Projection.MEAN);
        float[] hu = new float[plane.width() * plane.height()];
        int bands = (inner.height() + BAND - 1) / BAND;
        IntStream.range(0, bands).parallel().forEach(band -> fillBand(volume, inner, offsets, projection, band, hu));
        return new Cut(plane, transposed ? transpose(hu, inner.width(), inner.height()) : hu);
    }

    /** Voxels next to each other in a slice are near in memory, slices are not: rows should keep to a slice. */
    private static boolean runsAcrossSlices(VolumeGrid grid, CutPlane plane) {
        return memoryJump(grid, plane.stepRight()) > memoryJump(grid, plane.stepDown());
    }

    private static double memoryJump(VolumeGrid grid, PatientVector step) {
        double acrossSlices = Math.abs(step.dot(grid.normal()));
        double acrossRows = Math.abs(step.dot(grid.columnDirection()));
        return (acrossSlices * 16 + acrossRows) / step.norm();
    }

    private static double[] offsetsMm(VolumeGrid grid, CutPlane plane, Slab slab) {
        double extent = grid.voxelExtentMm(plane.normal());
        double finest = Math.min(grid.columnSpacingMm(), grid.rowSpacingMm());
        double steps = Math.ceil(slab.thicknessMm() / (SLAB_STEP * Math.max(extent, 0.1 * finest)));
        if (steps >= MOST_PLANES) {
            throw new IllegalArgumentException(
                    "a slab of " + slab.thicknessMm() + " mm needs " + steps + " planes, at most " + MOST_PLANES);
        }
        int last = (int) Math.max(1, steps);
        double[] offsets = new double[last + 1];
        for (int n = 0; n <= last; n++) {
            offsets[n] = slab.thicknessMm() * ((double) n / last - 0.5);
        }
        return offsets;
    }

    private static void fillBand(
            HuVolume volume, CutPlane plane, double[] offsetsMm, Projection projection, int band, float[] hu) {
        PixelRows rows = rows(volume, plane.stepRight(), plane.width());
        PatientVector normal = plane.normal();
        int width = plane.width();
        int last = Math.min(plane.height(), (band + 1) * BAND);
        if (offsetsMm.length == 1) {
            int patch = Math.min(width, rows.patch());
            for (int x = 0; x < width; x += patch) {
                for (int y = band * BAND; y < last; y++) {
                    PatientPoint start = plane.pixelToPatient(x, y);
                    rows.fill(start.x(), start.y(), start.z(), Math.min(patch, width - x), hu, x + width * y);
                }
            }
            return;
        }
        SlabRow[] slab = new SlabRow[last - band * BAND];
        Arrays.setAll(slab, n -> new SlabRow(projection, width));
        float[] row = new float[width];
        for (int n = 0; n < offsetsMm.length; n++) {
            double weight = n == 0 || n == offsetsMm.length - 1 ? 0.5 : 1;
            for (int y = band * BAND; y < last; y++) {
                PatientPoint start = plane.pixelToPatient(0, y).along(normal, offsetsMm[n]);
                rows.fill(start.x(), start.y(), start.z(), width, row, 0);
                slab[y - band * BAND].add(row, weight);
            }
        }
        for (int y = band * BAND; y < last; y++) {
            slab[y - band * BAND].finish(hu, width * y);
        }
    }

    private static PixelRows rows(HuVolume volume, PatientVector step, int count) {
        return AffineRows.suits(volume) ? new AffineRows(volume, step, count) : new SampledRows(volume, step);
    }

    private static float[] transpose(float[] from, int width, int height) {
        float[] to = new float[from.length];
        int tileRows = (height + TILE - 1) / TILE;
        IntStream.range(0, tileRows).parallel().forEach(tile -> {
            int bottom = Math.min(height, (tile + 1) * TILE);
            for (int left = 0; left < width; left += TILE) {
                int right = Math.min(width, left + TILE);
                for (int x = left; x < right; x++) {
                    for (int y = tile * TILE; y < bottom; y++) {
                        to[y + height * x] = from[x + width * y];
                    }
                }
            }
        });
        return to;
    }
}
