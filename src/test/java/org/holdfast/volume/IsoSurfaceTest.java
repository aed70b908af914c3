package org.holdfast.volume;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.TriangleMesh;
import org.holdfast.phantom.Body;
import org.holdfast.phantom.HuScale;
import org.holdfast.phantom.PointSpread;
import org.holdfast.phantom.ScanSettings;
import org.holdfast.phantom.ScanSimulator;
import org.holdfast.phantom.Scene;
import org.holdfast.phantom.Sphere;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;

class IsoSurfaceTest {

    private static final PatientPoint CENTRE = new PatientPoint(1.3, -2.1, 0.4);

    /** A stack along a table that is tilted against the slices, so the grid is sheared. */
    private static HuVolume scan(Scene scene, double noise) {
        double cosine = Math.cos(Math.toRadians(12));
        PatientVector column = new PatientVector(0, cosine, Math.sin(Math.toRadians(12)));
        List<PatientPoint> origins = new ArrayList<>();
        for (int k = 0; k < 60; k++) {
            origins.add(new PatientPoint(-15, -15, -21 + 0.6 * k));
        }
        VolumeGrid grid = new VolumeGrid(70, 70, 0.45, 0.45, PatientVector.LEFT, column, origins);
        return ScanSimulator.scan(
                scene,
                new ScanSettings(grid, new PointSpread(0.3, 0.3), noise, 3, HuScale.EXTENDED_30710),
                Progress.NONE);
    }

    @Test
    void findsTheSurfaceOfASphere() {
        Scene scene = Scene.of(0).with(Body.of("ball", new Sphere(CENTRE, 9), 7000));
        TriangleMesh mesh = IsoSurface.of(scan(scene, 20), 3500, 1, Progress.NONE);

        assertEquals(0, mesh.openEdges());
        // Phantom: 4/3 π 9³; the half-maximum of a blurred ball lies about σ²/R = 0.01 mm inside, 0.4 % of the volume
        double volume = 4.0 / 3 * Math.PI * 9 * 9 * 9;
        assertEquals(volume, mesh.volumeMm3(), 0.01 * volume);
        for (int v = 0; v < mesh.vertices(); v += 7) {
            // Phantom: radius 9 mm; linear placing between voxels 0.6 mm apart on a flank of 0.7 mm is off by up to
            // 0.06 mm
            assertEquals(9, mesh.vertex(v).distanceTo(CENTRE), 0.15);
        }
    }

    @Test
    void fillsCavitiesAndLeavesSpecksOut() {
        Scene scene = Scene.of(0)
                .with(Body.of("shell", new Sphere(CENTRE, 9), 7000))
                .with(Body.of("cavity", new Sphere(CENTRE, 4), 0))
                .with(Body.of("speck", new Sphere(new PatientPoint(-11, 10, 8), 1), 7000));
        TriangleMesh mesh = IsoSurface.of(scan(scene, 0), 3500, 20, Progress.NONE);

        // Phantom: the ball without its cavity; the speck has 4.2 mm³
        double volume = 4.0 / 3 * Math.PI * 9 * 9 * 9;
        assertEquals(volume, mesh.volumeMm3(), 0.01 * volume);
    }

    @Test
    void closesWhatTheBorderCutsOff() {
        Scene scene = Scene.of(0).with(Body.of("ball", new Sphere(new PatientPoint(-15, 0, 0), 9), 7000));
        TriangleMesh mesh = IsoSurface.of(scan(scene, 0), 3500, 20, Progress.NONE);

        assertEquals(0, mesh.openEdges());
        // Phantom: half of the ball, cut at the first column's middle and closed within half a pixel beyond it
        double half = 2.0 / 3 * Math.PI * 9 * 9 * 9;
        assertEquals(half, mesh.volumeMm3(), 0.225 * Math.PI * 81 + 0.01 * half);
    }

    @Test
    void saysThatNothingIsSoBright() {
        HuVolume empty = scan(Scene.of(0), 5);
        IllegalArgumentException refused =
                assertThrows(IllegalArgumentException.class, () -> IsoSurface.of(empty, 2500, 1, Progress.NONE));
        assertTrue(refused.getMessage().contains("2500"), refused.getMessage());
    }
}
