package org.holdfast.volume;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Sampling and cuts on a sheared anisotropic grid against an independent implementation. */
@Tag("outside-tool")
class ScipySamplingTest {

    private static final Path PYTHON = Path.of("/usr/bin/python3");

    /**
     * Reads the voxels, the affine map from voxel to patient (its own numbers, not ours) and points; writes HU. Voxels
     * outside are NaN there as here.
     */
    private static final String SCRIPT =
            """
            import sys, numpy
            from scipy.ndimage import map_coordinates
            folder = sys.argv[1]
            volume = numpy.fromfile(folder + '/voxels', '<i2').reshape(11, 14, 18).astype(float)
            points = numpy.fromfile(folder + '/points', '<f8').reshape(-1, 3)
            axes = numpy.array([[0.5 * 0.6, 0.5 * 0.8, 0], [0.75 * -0.8, 0.75 * 0.6, 0], [-0.4, 0.3, 2]]).T
            ijk = numpy.linalg.solve(axes, (points - [5, -6, 7]).T)
            hu = map_coordinates(volume, ijk[::-1], order=1, mode='constant', cval=numpy.nan)
            hu.astype('<f8').tofile(folder + '/hu')
            """;

    @TempDir
    private Path folder;

    private final VolumeGrid grid = TestGrids.shearedAndTurned();
    private final HuVolume volume = TestGrids.noise(grid, 0, 41);

    @BeforeEach
    void requireScipy() throws IOException, InterruptedException {
        assumeTrue(Files.isExecutable(PYTHON), "skipped: no /usr/bin/python3");
        assumeTrue(run("-c", "import scipy.ndimage") == 0, "skipped: /usr/bin/python3 has no scipy");
    }

    private static int run(String... arguments) throws IOException, InterruptedException {
        String[] command = new String[arguments.length + 1];
        command[0] = PYTHON.toString();
        System.arraycopy(arguments, 0, command, 1, arguments.length);
        Process process = new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .start();
        assumeTrue(process.waitFor(120, TimeUnit.SECONDS), "skipped: python3 did not answer within 120 s");
        return process.exitValue();
    }

    private double[] scipy(PatientPoint[] points) throws IOException, InterruptedException {
        ByteBuffer voxels = ByteBuffer.allocate(2 * 18 * 14 * 11).order(ByteOrder.LITTLE_ENDIAN);
        for (int k = 0; k < 11; k++) {
            for (int j = 0; j < 14; j++) {
                for (int i = 0; i < 18; i++) {
                    voxels.putShort((short) volume.hu(i, j, k));
                }
            }
        }
        ByteBuffer numbers = ByteBuffer.allocate(24 * points.length).order(ByteOrder.LITTLE_ENDIAN);
        for (PatientPoint p : points) {
            numbers.putDouble(p.x()).putDouble(p.y()).putDouble(p.z());
        }
        Files.write(folder.resolve("voxels"), voxels.array());
        Files.write(folder.resolve("points"), numbers.array());
        assertEquals(0, run("-c", SCRIPT, folder.toString()));
        ByteBuffer hu =
                ByteBuffer.wrap(Files.readAllBytes(folder.resolve("hu"))).order(ByteOrder.LITTLE_ENDIAN);
        double[] values = new double[points.length];
        for (int n = 0; n < values.length; n++) {
            values[n] = hu.getDouble();
        }
        return values;
    }

    @Test
    void samplesLikeMapCoordinatesOfOrderOne() throws IOException, InterruptedException {
        Random random = new Random(43);
        PatientPoint[] points = new PatientPoint[4000];
        for (int n = 0; n < points.length; n++) {
            points[n] = grid.voxelToPatient(new VoxelCoord(
                    20 * random.nextDouble() - 1.5, 16 * random.nextDouble() - 1.5, 13 * random.nextDouble() - 1.5));
        }

        // Computed: scipy.ndimage.map_coordinates(order=1, mode='constant', cval=nan), see the script
        double[] expected = scipy(points);

        for (int n = 0; n < points.length; n++) {
            assertEquals(expected[n], volume.sample(points[n]), 1e-7, points[n].toString());
        }
    }

    @Test
    void cutsLikeMapCoordinatesOfOrderOne() throws IOException, InterruptedException {
        CutPlane plane = CutPlane.centredOn(
                grid.voxelToPatient(new VoxelCoord(8.3, 6.1, 5.2)),
                new PatientVector(0.7, 0.2, 0.3),
                new PatientVector(-0.1, 0.65, 0.25),
                0.17,
                90,
                70);
        PatientPoint[] points = new PatientPoint[90 * 70];
        for (int n = 0; n < points.length; n++) {
            points[n] = plane.pixelToPatient(n % 90, n / 90);
        }

        // Computed: scipy.ndimage.map_coordinates(order=1, mode='constant', cval=nan), see the script
        double[] expected = scipy(points);

        float[] cut = Reslicer.cut(volume, plane, Optional.empty()).toArray();
        for (int n = 0; n < points.length; n++) {
            // Weights kept to 2^−20 on three axes over 4096 HU, and floats
            assertEquals(expected[n], cut[n], 0.0125, points[n].toString());
        }
    }
}
