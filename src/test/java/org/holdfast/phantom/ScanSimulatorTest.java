package org.holdfast.phantom;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ForkJoinPool;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;
import org.holdfast.volume.VoxelIndex;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ScanSimulatorTest {

    /** The stated error: 0.1 % of the step, here of 1000 HU. */
    private static final double TENTH_PERCENT_HU = 1.0;

    private static final PointSpread SPREAD = new PointSpread(0.35, 0.40);

    @ParameterizedTest
    @CsvSource({"0,0,1", "1,0,0", "0,1,0", "1,1,0", "1,1,1", "0.3,-0.2,0.93", "0.05,0.02,1", "-0.7,0.1,-0.3"})
    void blursHalfSpaceToErrorFunctionAtAnyAngle(double x, double y, double z) {
        PatientVector n = new PatientVector(x, y, z).unit();
        HalfSpace half = new HalfSpace(new PatientPoint(0.11, -0.07, 0.05), n);
        VolumeGrid grid = Grids.upright(18, 18, 14, 0.45, 0.45, 0.6);
        double sigma = BlurReference.sigmaAlong(grid, SPREAD, n);
        // Phantom: box average of Φ(−d / √(nᵀΣn)), by Gauss points.
        assertMatches(half, grid, SPREAD, p -> BlurReference.cdf(-half.signedDistanceMm(p) / sigma));
    }

    @Test
    void blursHalfSpaceOnShearedAnisotropicGrid() {
        PatientVector n = new PatientVector(0.2, 0.5, 0.8).unit();
        HalfSpace half = new HalfSpace(new PatientPoint(0.11, -0.07, 0.05), n);
        VolumeGrid grid = Grids.tilted(18, 16, 14, 0.4, 0.55, 0.8, 18);
        PointSpread spread = new PointSpread(0.3, 0.55);
        double sigma = BlurReference.sigmaAlong(grid, spread, n);
        // Phantom: box average of Φ(−d / √(nᵀΣn)), the normal being that of the slices, not of the table.
        assertMatches(half, grid, spread, p -> BlurReference.cdf(-half.signedDistanceMm(p) / sigma));
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.4, 0.8, 1.5, 4})
    void blursSlabOfGivenWidth(double widthMm) {
        PatientVector n = new PatientVector(0.25, -0.4, 0.85).unit();
        Slab slab = new Slab(new PatientPoint(0.03, 0.2, -0.1), n, widthMm / 2);
        VolumeGrid grid = Grids.upright(16, 16, 16, 0.5, 0.5, 0.7);
        double sigma = BlurReference.sigmaAlong(grid, SPREAD, n);
        // Phantom: Φ((w/2 − d)/σ) − Φ((−w/2 − d)/σ), averaged over the voxel.
        assertMatches(slab, grid, SPREAD, p -> {
            double d = p.minus(slab.centre()).dot(n);
            return BlurReference.cdf((widthMm / 2 - d) / sigma) - BlurReference.cdf((-widthMm / 2 - d) / sigma);
        });
    }

    @ParameterizedTest
    @ValueSource(doubles = {2, 2.75, 5})
    void blursTiltedCylinder(double radiusMm) {
        PatientVector axis = new PatientVector(0.3, 0.2, 0.8).unit();
        PatientPoint centre = new PatientPoint(0.2, -0.1, 0);
        CappedCylinder cylinder = new CappedCylinder(centre.along(axis, -60), centre.along(axis, 60), radiusMm);
        RoundRod rod = new RoundRod(List.of(cylinder.p(), cylinder.q()), radiusMm);
        VolumeGrid grid = Grids.upright(28, 28, 6, 0.5, 0.5, 0.6);
        PointSpread isotropic = new PointSpread(0.38, 0.38);
        // Phantom: a disc blurred in two dimensions, by numerical integration, averaged over the voxel.
        BlurReference.Blurred expected = p -> {
            double rho = p.minus(centre).cross(axis).norm();
            return BlurReference.disc(rho, radiusMm, 0.38);
        };
        assertMatches(cylinder, grid, isotropic, expected);
        assertMatches(rod, grid, isotropic, expected);
    }

    @Test
    void blursBallAnisotropically() {
        Sphere ball = new Sphere(new PatientPoint(0.13, -0.21, 0.08), 2.5);
        VolumeGrid grid = Grids.upright(20, 20, 14, 0.5, 0.5, 0.6);
        PointSpread spread = new PointSpread(0.32, 0.5);
        // Phantom: numerical integration over heights of blurred discs.
        assertMatches(ball, grid, spread, p -> {
            PatientVector d = p.minus(ball.centre());
            return BlurReference.ball(Math.sqrt(d.x() * d.x() + d.y() * d.y()), d.z(), 2.5, 0.32, 0.5);
        });
    }

    @Test
    void blursEdgesAndCornersOfBox() {
        VolumeGrid grid = Grids.upright(20, 20, 14, 0.45, 0.45, 0.6);
        Box box = Box.upright(new PatientPoint(0.1, 0.05, -0.2), 2.1, 1.3, 1.7);
        // Phantom: product of three slabs.
        assertMatches(box, grid, SPREAD, p -> {
            PatientVector d = p.minus(box.centre());
            return step(d.x(), 2.1, 0.35) * step(d.y(), 1.3, 0.35) * step(d.z(), 1.7, 0.40);
        });
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.3, 0.5, 1.2})
    void paintsLaterBodyOverEarlierOne(double gapMm) {
        // Phantom: two parallel planes a gap apart: 160 beyond both, 30 between, 2100 below, each edge a Gaussian step.
        PatientVector n = new PatientVector(0.1, 0.2, 0.95).unit();
        VolumeGrid grid = Grids.upright(12, 12, 14, 0.45, 0.45, 0.6);
        Scene scene = Scene.of(160)
                .with(Body.of("fluid", new HalfSpace(PatientPoint.ORIGIN.along(n, gapMm), n), 30))
                .with(Body.of("implant", new HalfSpace(PatientPoint.ORIGIN, n), 2100));
        double sigma = BlurReference.sigmaAlong(grid, SPREAD, n);
        BlurReference.Blurred expected = p -> {
            double d = p.minus(PatientPoint.ORIGIN).dot(n);
            return 160 + (30 - 160) * BlurReference.cdf((gapMm - d) / sigma) + 2070 * BlurReference.cdf(-d / sigma);
        };
        assertWithin(scene, grid, SPREAD, expected, 2.1 * TENTH_PERCENT_HU);
    }

    @Test
    void shellKeepsItsThickness() {
        // Phantom: 600 HU from 0 to 0.4 mm under a plane, 160 HU deeper, 30 HU outside.
        PatientVector n = new PatientVector(-0.3, 0.2, 0.9).unit();
        VolumeGrid grid = Grids.upright(12, 12, 14, 0.45, 0.45, 0.6);
        Scene scene = Scene.of(30).with(Body.shelled("bone", new HalfSpace(PatientPoint.ORIGIN, n), 0.4, 600, 160));
        double sigma = BlurReference.sigmaAlong(grid, SPREAD, n);
        assertWithin(
                scene,
                grid,
                SPREAD,
                p -> {
                    double d = p.minus(PatientPoint.ORIGIN).dot(n);
                    return 30 + 570 * BlurReference.cdf(-d / sigma) - 440 * BlurReference.cdf((-0.4 - d) / sigma);
                },
                0.6);
    }

    @Test
    void conservesMass() {
        // By hand: π · 3² · 10 mm³ of 1000 HU above 0 = 282,743.3 HU·mm³, summed over all voxels; floats hold 1e-4 of
        // it.
        VolumeGrid grid = Grids.upright(50, 50, 40, 0.4, 0.4, 0.6);
        PatientVector axis = new PatientVector(0.4, 0.3, 0.8).unit();
        Solid solid = new CappedCylinder(PatientPoint.ORIGIN.along(axis, -5), PatientPoint.ORIGIN.along(axis, 5), 3);
        float[][] hu = ScanSimulator.noiseFree(
                Scene.of(0).with(Body.of("rod", solid, 1000)), settings(grid, SPREAD, 0, HuScale.EXTENDED_30710));
        double sum = 0;
        for (float[] slice : hu) {
            for (float h : slice) {
                sum += h;
            }
        }
        double massToleranceRelative = 5e-4;
        assertEquals(Math.PI * 9 * 10 * 1000, sum * 0.4 * 0.4 * 0.6, Math.PI * 9 * 10 * 1000 * massToleranceRelative);
    }

    @Test
    void agreesAtTwoResolutions() {
        // Phantom: 2 × 2 × 2 voxels of half size average to the voxel of full size; the Gaussian is the same.
        RigidTransform pose = RigidTransform.rotation(new PatientVector(1, 2, 3), 20, PatientPoint.ORIGIN);
        Scene scene = InterfaceScene.of(
                        InterfaceSpec.withDefaults().facing(PatientVector.CRANIAL, 8, -5),
                        GapPattern.stripes(7, 6, 0, 0.6, 1.5, 3))
                .scene()
                .moved(pose);
        VolumeGrid coarse = Grids.upright(20, 20, 12, 0.5, 0.5, 0.8);
        VolumeGrid fine = Grids.upright(40, 40, 24, 0.25, 0.25, 0.4);
        float[][] big = ScanSimulator.noiseFree(scene, settings(coarse, SPREAD, 0, HuScale.EXTENDED_30710));
        float[][] small = ScanSimulator.noiseFree(scene, settings(fine, SPREAD, 0, HuScale.EXTENDED_30710));
        double worst = 0;
        for (int k = 0; k < 12; k++) {
            for (int j = 0; j < 20; j++) {
                for (int i = 0; i < 20; i++) {
                    double mean = 0;
                    for (int m = 0; m < 8; m++) {
                        mean += small[2 * k + m / 4][2 * i + m % 2 + 40 * (2 * j + m / 2 % 2)] / 8;
                    }
                    worst = Math.max(worst, Math.abs(mean - big[k][i + 20 * j]));
                }
            }
        }
        // Stated bound: 0.1 % of the largest step, 7500 − 30 HU.
        assertTrue(worst < 7.5, "worst difference " + worst);
    }

    @Test
    void movesSceneByItsPlacement() {
        RigidTransform pose = RigidTransform.rotation(new PatientVector(0.2, 1, 0.3), 25, new PatientPoint(3, 4, 5))
                .then(RigidTransform.translation(new PatientVector(0.3, -0.2, 0.15)));
        Solid ball = new Sphere(new PatientPoint(0.5, 0.2, -0.4), 2);
        Scene scene = Scene.of(0).with(Body.of("ball", ball, 1000));
        Scene bySolid = Scene.of(0).with(Body.of("ball", ball.moved(pose), 1000));
        VolumeGrid grid = Grids.upright(24, 24, 16, 0.5, 0.5, 0.7);
        float[][] a = ScanSimulator.noiseFree(scene.moved(pose), settings(grid, SPREAD, 0, HuScale.EXTENDED_30710));
        float[][] b = ScanSimulator.noiseFree(bySolid, settings(grid, SPREAD, 0, HuScale.EXTENDED_30710));
        double rounding = 0.02;
        for (int k = 0; k < a.length; k++) {
            assertArrayEquals(a[k], b[k], (float) rounding);
        }
    }

    @Test
    void noiseHasItsMeanAndSpread() {
        VolumeGrid grid = Grids.upright(64, 64, 50, 0.5, 0.5, 0.5);
        HuVolume volume =
                ScanSimulator.scan(Scene.of(55), settings(grid, SPREAD, 25, HuScale.CLIPPED_3071), Progress.NONE);
        double sum = 0;
        double squares = 0;
        int n = 64 * 64 * 50;
        for (int k = 0; k < 50; k++) {
            for (int j = 0; j < 64; j++) {
                for (int i = 0; i < 64; i++) {
                    double d = volume.hu(i, j, k) - 55;
                    sum += d;
                    squares += d * d;
                }
            }
        }
        // By hand: SD of the mean 25 / √204,800 = 0.055; rounding adds 1/12 to the variance: √(625 + 1/12) = 25.0017,
        // its own SD 25 / √409,600 = 0.039. Four SD are allowed.
        assertEquals(0, sum / n, 0.22);
        assertEquals(25.0017, Math.sqrt(squares / n), 0.16);
    }

    @Test
    void givesSameVoxelsOnOneThread() throws Exception {
        VolumeGrid grid = Grids.upright(60, 60, 30, 0.5, 0.5, 0.7);
        Scene scene = InterfaceScene.of(InterfaceSpec.withDefaults(), GapPattern.stripes(7, 6, 0, 1))
                .scene();
        ScanSettings settings = settings(grid, SPREAD, 30, HuScale.CLIPPED_3071);
        HuVolume many = ScanSimulator.scan(scene, settings, Progress.NONE);
        ForkJoinPool single = new ForkJoinPool(1);
        HuVolume one = single.submit(() -> ScanSimulator.scan(scene, settings, Progress.NONE))
                .get();
        single.shutdown();
        for (int k = 0; k < 30; k++) {
            for (int j = 0; j < 60; j++) {
                for (int i = 0; i < 60; i++) {
                    assertEquals(one.hu(i, j, k), many.hu(i, j, k));
                }
            }
        }
    }

    @Test
    void clipsAtCeilingAndFloor() {
        VolumeGrid grid = Grids.upright(8, 8, 8, 0.5, 0.5, 0.5);
        Scene metal = Scene.of(7500);
        Scene air = Scene.of(-1000);
        ScanSettings clipped = settings(grid, SPREAD, 300, HuScale.CLIPPED_3071);
        assertEquals(
                3071,
                ScanSimulator.scan(metal, clipped, Progress.NONE).statistics().minHu());
        assertEquals(
                3071,
                ScanSimulator.scan(metal, clipped, Progress.NONE)
                        .statistics()
                        .ceilingHu()
                        .orElseThrow());
        assertEquals(
                -1024,
                ScanSimulator.scan(air, clipped, Progress.NONE).statistics().minHu());
    }

    @Test
    void extendedScaleKeepsMetalInStepsOfTen() {
        VolumeGrid grid = Grids.upright(8, 8, 8, 0.5, 0.5, 0.5);
        ScanSettings extended = settings(grid, SPREAD, 0, HuScale.EXTENDED_30710);
        HuVolume volume = ScanSimulator.scan(Scene.of(7504), extended, Progress.NONE);
        // By hand: 7504 → nearest step of 10 HU.
        assertEquals(7500, volume.hu(4, 4, 4));
        HuVolume ceiling = ScanSimulator.scan(Scene.of(40000), extended, Progress.NONE);
        // By hand: 10 · 4095 − 10,240 = 30,710.
        assertEquals(30710, ceiling.hu(4, 4, 4));
        HuVolume floor = ScanSimulator.scan(Scene.of(-2000), extended, Progress.NONE);
        // By hand: the lowest multiple of 10 that is not under −1024.
        assertEquals(-1020, floor.hu(4, 4, 4));
    }

    @Test
    void stopsWhenCancelled() {
        Progress cancelled = new Progress() {
            @Override
            public void report(double fraction, String activity) {}

            @Override
            public boolean isCancelled() {
                return true;
            }
        };
        VolumeGrid grid = Grids.upright(8, 8, 8, 0.5, 0.5, 0.5);
        assertThrows(
                CancellationException.class,
                () -> ScanSimulator.scan(Scene.of(0), settings(grid, SPREAD, 0, HuScale.CLIPPED_3071), cancelled));
    }

    private static double step(double at, double half, double sigma) {
        return BlurReference.cdf((half - at) / sigma) - BlurReference.cdf((-half - at) / sigma);
    }

    static ScanSettings settings(VolumeGrid grid, PointSpread spread, double noise, HuScale scale) {
        return new ScanSettings(grid, spread, noise, 20240117, scale);
    }

    private static void assertMatches(
            Solid solid, VolumeGrid grid, PointSpread spread, BlurReference.Blurred expectedShare) {
        assertWithin(
                Scene.of(0).with(Body.of("solid", solid, 1000)),
                grid,
                spread,
                p -> 1000 * expectedShare.at(p),
                TENTH_PERCENT_HU);
    }

    private static void assertWithin(
            Scene scene, VolumeGrid grid, PointSpread spread, BlurReference.Blurred expectedHu, double toleranceHu) {
        float[][] hu = ScanSimulator.noiseFree(scene, settings(grid, spread, 0, HuScale.EXTENDED_30710));
        Random random = new Random(5);
        double worst = 0;
        for (int n = 0; n < 120; n++) {
            VoxelIndex v = new VoxelIndex(
                    random.nextInt(grid.columns()), random.nextInt(grid.rows()), random.nextInt(grid.slices()));
            double expected = BlurReference.overVoxel(grid, v, expectedHu);
            worst = Math.max(worst, Math.abs(expected - hu[v.k()][v.i() + grid.columns() * v.j()]));
        }
        assertTrue(worst <= toleranceHu, "worst difference " + worst + " HU, allowed " + toleranceHu);
    }
}
