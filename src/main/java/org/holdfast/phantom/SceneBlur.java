package org.holdfast.phantom;

import java.util.Arrays;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.volume.VolumeGrid;

/**
 * The noise-free HU of a scene in the voxels of a grid: scene ⊗ voxel box ⊗ Gaussian. The box is as wide as the pixel
 * spacings and the pitch, the Gaussian acts along rows, columns and the normal, also where the stack is sheared.
 *
 * <p>Method: the scene on a fine lattice along the grid's directions, its surfaces softened by an isotropic Gaussian of
 * 0.6 lattice steps (so that the lattice can carry it); then, axis by axis, box ⊗ the Gaussian that is still missing.
 */
final class SceneBlur {

    /** Longest lattice step, mm: two surfaces closer than about 0.25 mm begin to interfere at this step. */
    static final double LONGEST_STEP_MM = 0.15;
    /** Lattice steps to the smaller σ. */
    private static final double STEPS_PER_SIGMA = 1.6;
    /** Softening of surfaces in lattice steps: the lattice then repeats a plane to 1e-3 of a step. */
    private static final double BLUR_STEPS = 0.6;

    private final Scene scene;
    private final VolumeGrid grid;
    private final double pitchMm;
    private final double stepMm;
    private final double blurMm;
    private final double sigmaPlaneMm;
    private final double sigmaNormalMm;
    private final RigidTransform patientToScene;
    private final double[] rowAt;
    private final double[] columnAt;
    private final double[] normalAt;

    /** Ranges of columns, rows and slices, ends left out. */
    record Tile(int i0, int i1, int j0, int j1, int k0, int k1) {}

    SceneBlur(Scene scene, ScanSettings settings) {
        this.scene = scene;
        this.grid = settings.grid();
        this.pitchMm = settings.voxelHeightMm();
        PointSpread spread = settings.pointSpread();
        double sigma = Math.min(spread.sigmaInPlaneMm(), spread.sigmaAlongTableMm());
        this.stepMm = Math.min(LONGEST_STEP_MM, sigma / STEPS_PER_SIGMA);
        this.blurMm = BLUR_STEPS * stepMm;
        this.sigmaPlaneMm = without(spread.sigmaInPlaneMm(), blurMm);
        this.sigmaNormalMm = without(spread.sigmaAlongTableMm(), blurMm);
        this.patientToScene = scene.placement().inverse();
        int slices = grid.slices();
        rowAt = new double[slices];
        columnAt = new double[slices];
        normalAt = new double[slices];
        for (int k = 0; k < slices; k++) {
            PatientVector d = grid.sliceOrigin(k).minus(grid.sliceOrigin(0));
            rowAt[k] = d.dot(grid.rowDirection());
            columnAt[k] = d.dot(grid.columnDirection());
            normalAt[k] = d.dot(grid.normal());
        }
    }

    private static double without(double sigma, double blur) {
        return Math.sqrt(sigma * sigma - blur * blur);
    }

    /**
     * Blurs one tile.
     *
     * @param out receives HU, [k − firstSlice][i + columns·j]; only the tile's voxels are written
     */
    void blur(Tile t, float[][] out, int firstSlice) {
        double reachA = AxisKernel.reachMm(grid.columnSpacingMm(), sigmaPlaneMm);
        double reachB = AxisKernel.reachMm(grid.rowSpacingMm(), sigmaPlaneMm);
        double reachC = AxisKernel.reachMm(pitchMm, sigmaNormalMm);
        double lowA = Math.min(rowAt[t.k0], rowAt[t.k1 - 1]) + t.i0 * grid.columnSpacingMm() - reachA;
        double lowB = Math.min(columnAt[t.k0], columnAt[t.k1 - 1]) + t.j0 * grid.rowSpacingMm() - reachB;
        double highA = Math.max(rowAt[t.k0], rowAt[t.k1 - 1]) + (t.i1 - 1) * grid.columnSpacingMm() + reachA;
        double highB = Math.max(columnAt[t.k0], columnAt[t.k1 - 1]) + (t.j1 - 1) * grid.rowSpacingMm() + reachB;
        double lowC = normalAt[t.k0] - reachC;
        double highC = normalAt[t.k1 - 1] + reachC;
        FineField.Lattice lattice =
                lattice(lowA, lowB, lowC, count(highA - lowA), count(highB - lowB), count(highC - lowC));
        FineField field = new FineField(scene, lattice, blurMm);
        double constant = field.constantHu();
        if (!Double.isNaN(constant)) {
            fillConstant(t, (float) constant, out, firstSlice);
            return;
        }
        decimate(t, field.fill(), lattice, new double[] {lowA, lowB, lowC}, out, firstSlice);
    }

    private int count(double lengthMm) {
        return (int) Math.ceil(lengthMm / stepMm) + 1;
    }

    private FineField.Lattice lattice(double a, double b, double c, int countA, int countB, int countC) {
        PatientPoint corner = grid.sliceOrigin(0)
                .along(grid.rowDirection(), a)
                .along(grid.columnDirection(), b)
                .along(grid.normal(), c);
        PatientPoint p = patientToScene.apply(corner);
        return new FineField.Lattice(
                new double[] {p.x(), p.y(), p.z()},
                step(grid.rowDirection()),
                step(grid.columnDirection()),
                step(grid.normal()),
                stepMm,
                countA,
                countB,
                countC);
    }

    private double[] step(PatientVector direction) {
        PatientVector d = patientToScene.apply(direction).times(stepMm);
        return new double[] {d.x(), d.y(), d.z()};
    }

    private void fillConstant(Tile t, float hu, float[][] out, int firstSlice) {
        for (int k = t.k0; k < t.k1; k++) {
            for (int j = t.j0; j < t.j1; j++) {
                int row = grid.columns() * j;
                Arrays.fill(out[k - firstSlice], row + t.i0, row + t.i1, hu);
            }
        }
    }

    /** Along the normal first, where most is gained, then rows, then columns. */
    private void decimate(
            Tile t, float[] fine, FineField.Lattice lattice, double[] low, float[][] out, int firstSlice) {
        int planeSize = lattice.countA() * lattice.countB();
        double[] heights = new double[t.k1 - t.k0];
        Arrays.setAll(heights, n -> normalAt[t.k0 + n] - low[2]);
        AxisKernel alongNormal = AxisKernel.of(heights, lattice.countC(), stepMm, pitchMm, sigmaNormalMm);
        float[] plane = new float[planeSize];
        float[] line = new float[lattice.countA()];
        AxisKernel alongRows = null;
        AxisKernel alongColumns = null;
        for (int k = t.k0; k < t.k1; k++) {
            if (alongRows == null || shifted(k)) {
                alongRows = kernel(t.i0, t.i1, grid.columnSpacingMm(), rowAt[k] - low[0], lattice.countA());
                alongColumns = kernel(t.j0, t.j1, grid.rowSpacingMm(), columnAt[k] - low[1], lattice.countB());
            }
            Arrays.fill(plane, 0);
            float[] weights = alongNormal.weights(k - t.k0);
            for (int n = 0; n < weights.length; n++) {
                addTo(plane, fine, (alongNormal.first(k - t.k0) + n) * planeSize, weights[n]);
            }
            for (int j = t.j0; j < t.j1; j++) {
                Arrays.fill(line, 0);
                float[] rowWeights = alongColumns.weights(j - t.j0);
                for (int n = 0; n < rowWeights.length; n++) {
                    addTo(line, plane, (alongColumns.first(j - t.j0) + n) * lattice.countA(), rowWeights[n]);
                }
                decimateLine(line, alongRows, t, out[k - firstSlice], grid.columns() * j);
            }
        }
    }

    private boolean shifted(int k) {
        return rowAt[k] != rowAt[k - 1] || columnAt[k] != columnAt[k - 1];
    }

    private AxisKernel kernel(int from, int to, double spacingMm, double offsetMm, int samples) {
        double[] centres = new double[to - from];
        Arrays.setAll(centres, n -> (from + n) * spacingMm + offsetMm);
        return AxisKernel.of(centres, samples, stepMm, spacingMm, sigmaPlaneMm);
    }

    private static void addTo(float[] sum, float[] source, int offset, float weight) {
        for (int n = 0; n < sum.length; n++) {
            sum[n] += weight * source[offset + n];
        }
    }

    private static void decimateLine(float[] line, AxisKernel kernel, Tile t, float[] out, int row) {
        for (int i = t.i0; i < t.i1; i++) {
            float[] weights = kernel.weights(i - t.i0);
            int first = kernel.first(i - t.i0);
            float sum = 0;
            for (int n = 0; n < weights.length; n++) {
                sum += weights[n] * line[first + n];
            }
            out[row + i] = sum;
        }
    }
}
