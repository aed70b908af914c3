package org.holdfast.registration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.phantom.Body;
import org.holdfast.phantom.HuScale;
import org.holdfast.phantom.PointSpread;
import org.holdfast.phantom.ScanSettings;
import org.holdfast.phantom.ScanSimulator;
import org.holdfast.phantom.Scene;
import org.holdfast.phantom.Sphere;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;
import org.holdfast.volume.VoxelIndex;
import org.junit.jupiter.api.Test;

/** Against surfaces that are known in closed form: planes of a linear field, and a sphere. */
class MetalSurfaceTest {

    /** A point is computed from HU rounded to whole numbers: (1 / 2) / |gradient| = 0.5 / 92 mm. */
    private static final double ROUNDED_HU_MM = 0.006;

    private static final PatientVector GRADIENT = new PatientVector(40, -80, 20);

    private static double field(PatientPoint p) {
        return GRADIENT.dot(p.minus(PatientPoint.ORIGIN)) + 100;
    }

    private static VolumeGrid grid(double leanMm, double[] z) {
        List<PatientPoint> origins = new ArrayList<>();
        for (double at : z) {
            origins.add(new PatientPoint(-4, -3 + leanMm * at, at));
        }
        return new VolumeGrid(18, 14, 0.5, 0.75, PatientVector.LEFT, PatientVector.POSTERIOR, origins);
    }

    private static HuVolume linear(VolumeGrid grid, VoxelIndex hole) {
        short[][] hu = new short[grid.slices()][grid.columns() * grid.rows()];
        for (int k = 0; k < grid.slices(); k++) {
            for (int j = 0; j < grid.rows(); j++) {
                for (int i = 0; i < grid.columns(); i++) {
                    VoxelIndex v = new VoxelIndex(i, j, k);
                    hu[k][i + grid.columns() * j] =
                            v.equals(hole) ? -2000 : (short) Math.rint(field(grid.voxelToPatient(v)));
                }
            }
        }
        return HuVolume.ofHu(grid, hu);
    }

    private static void assertOnPlane(SurfacePoints points) {
        PatientVector outward = GRADIENT.unit().times(-1);
        for (int n = 0; n < points.size(); n++) {
            // Phantom: the field is 130 HU on a plane, which it rises across along its gradient.
            assertEquals(130, field(points.point(n)), ROUNDED_HU_MM * GRADIENT.norm());
            assertTrue(points.normal(n).dot(outward) > 0.9995, "normal " + points.normal(n));
        }
    }

    @Test
    void liesOnThePlaneOfALinearFieldOfAShearedGrid() {
        SurfacePoints points =
                MetalSurface.of(linear(grid(0.5, new double[] {-4, -2, 0, 2, 4}), null), 130, Progress.NONE);
        assertTrue(points.size() > 100, points.size() + " points");
        assertOnPlane(points);
    }

    @Test
    void liesOnThePlaneOfAnIrregularGridAndLeavesItsHoleOut() {
        HuVolume volume = linear(grid(0.25, new double[] {-4, -3, -2, -0.5, 0.5, 4.5, 5.5, 6.5}), null);
        assertEquals(List.of(4), volume.grid().holesAfter());
        SurfacePoints points = MetalSurface.of(volume, 130, Progress.NONE);
        assertOnPlane(points);
        assertEquals(0, points.inside(p -> p.z() > 0.51 && p.z() < 4.49).size());
    }

    @Test
    void leavesVoxelsWithoutTissueOut() {
        VolumeGrid grid = grid(0, new double[] {-2, -1, 0, 1, 2});
        SurfacePoints whole = MetalSurface.of(linear(grid, null), 130, Progress.NONE);
        VoxelIndex near = new VoxelIndex(9, 4, 2);
        SurfacePoints pierced = MetalSurface.of(linear(grid, near), 130, Progress.NONE);
        assertOnPlane(pierced);
        assertTrue(pierced.size() < whole.size(), pierced.size() + " of " + whole.size());
        PatientPoint hole = grid.voxelToPatient(near);
        // By hand: points lie on edges of the grid; those of the missing voxel reach less than a step from it.
        assertEquals(0, pierced.inside(p -> p.distanceTo(hole) < 0.49).size());
    }

    @Test
    void liesOnASphereAndAddsUpToItsArea() {
        PatientPoint centre = new PatientPoint(0.3, -0.2, 0.4);
        Scene scene = Scene.of(0).with(Body.of("ball", new Sphere(centre, 8), 3000));
        List<PatientPoint> origins = new ArrayList<>();
        for (int k = 0; k < 32; k++) {
            origins.add(new PatientPoint(-12, -12, -12.4 + 0.8 * k));
        }
        VolumeGrid grid = new VolumeGrid(49, 49, 0.5, 0.5, PatientVector.LEFT, PatientVector.POSTERIOR, origins);
        HuVolume volume = ScanSimulator.scan(
                scene, new ScanSettings(grid, new PointSpread(0.4, 0.4), 0, 1, HuScale.EXTENDED_30710), Progress.NONE);
        SurfacePoints points = MetalSurface.of(volume, 1500, Progress.NONE);
        double sum = 0;
        for (int n = 0; n < points.size(); n++) {
            double radius = points.point(n).distanceTo(centre);
            sum += radius - 8;
            // Interpolating a blurred edge linearly along oblique steps of 0.8 mm errs by up to a tenth of them.
            assertEquals(8, radius, 0.08);
            assertTrue(points.normal(n).dot(points.point(n).minus(centre).unit()) > 0.97);
        }
        // Phantom: blur draws half the way on a sphere in by σ²/r; σ² = 0.4² + mean of pixel²/12 = 0.16 + 0.032: 0.024
        // mm.
        assertEquals(-0.024, sum / points.size(), 0.006);
        // Phantom: 4 π r²; the sum over crossings is exact for a plane only.
        assertEquals(4 * Math.PI * 64, points.totalAreaMm2(), 0.02 * 4 * Math.PI * 64);
    }

    @Test
    void keepsToARegionAndStops() {
        HuVolume volume = linear(grid(0, new double[] {-2, -1, 0, 1, 2}), null);
        SurfacePoints left = MetalSurface.of(volume, 130, p -> p.x() > 0, Progress.NONE);
        assertEquals(left.size(), left.inside(p -> p.x() > 0).size());
        assertTrue(left.size() > 0);
        Progress cancelled = Progress.NONE.orCancelledIf(() -> true);
        assertThrows(CancellationException.class, () -> MetalSurface.of(volume, 130, cancelled));
        assertThrows(IllegalArgumentException.class, () -> MetalSurface.of(volume, Double.NaN, Progress.NONE));
    }
}
