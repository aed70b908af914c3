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
 * <p>Method: the scene on a lattice along the grid's directions, its surfaces softened by an isotropic Gaussian of 0.6
 * lattice steps (so that the lattice can carry it); then, axis by axis, box ⊗ the Gaussian that is still missing. The
 * lattice is fine where surfaces of high contrast come close to each other, else coarse: a single surface needs no finer
 * one, as its softening is exact.
 */
final class SceneBlur {

    private final Scene scene;
    private final VolumeGrid grid;
    private final double pitchMm;
    private final LatticeScale fine;
    private final LatticeScale coarse;
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
        this.fine = LatticeScale.fine(settings.pointSpread());
        this.coarse = LatticeScale.coarse(settings.pointSpread());
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

    /**
     * Blurs one tile.
     *
     * @param out receives HU, [k − firstSlice][i + columns·j]; only the tile's voxels are written
     */
    void blur(Tile t, float[][] out, int firstSlice) {
        Placed rough = place(t, coarse);
        FineField field = new FineField(scene, rough.lattice, coarse.blurMm());
        double constant = field.constantHu();
        if (!Double.isNaN(constant)) {
            fillConstant(t, (float) constant, out, firstSlice);
        } else if (field.hasCloseSurfaces()) {
            Placed exact = place(t, fine);
            decimate(t, new FineField(scene, exact.lattice, fine.blurMm()).fill(), exact, fine, out, firstSlice);
        } else {
            decimate(t, field.fill(), rough, coarse, out, firstSlice);
        }
    }

    /** A lattice and where its first point lies along rows, columns and normal, mm from the first voxel. */
    private record Placed(FineField.Lattice lattice, double lowA, double lowB, double lowC) {}

    private Placed place(Tile t, LatticeScale scale) {
        double reachA = AxisKernel.reachMm(grid.columnSpacingMm(), scale.sigmaPlaneMm());
        double reachB = AxisKernel.reachMm(grid.rowSpacingMm(), scale.sigmaPlaneMm());
        double reachC = AxisKernel.reachMm(pitchMm, scale.sigmaNormalMm());
        double lowA = Math.min(rowAt[t.k0], rowAt[t.k1 - 1]) + t.i0 * grid.columnSpacingMm() - reachA;
        double lowB = Math.min(columnAt[t.k0], columnAt[t.k1 - 1]) + t.j0 * grid.rowSpacingMm() - reachB;
        double highA = Math.max(rowAt[t.k0], rowAt[t.k1 - 1]) + (t.i1 - 1) * grid.columnSpacingMm() + reachA;
        double highB = Math.max(columnAt[t.k0], columnAt[t.k1 - 1]) + (t.j1 - 1) * grid.rowSpacingMm() + reachB;
        double lowC = normalAt[t.k0] - reachC;
        double highC = normalAt[t.k1 - 1] + reachC;
        PatientPoint corner = grid.sliceOrigin(0)
                .along(grid.rowDirection(), lowA)
                .along(grid.columnDirection(), lowB)
                .along(grid.normal(), lowC);
        PatientPoint p = patientToScene.apply(corner);
        FineField.Lattice lattice = new FineField.Lattice(
                new double[] {p.x(), p.y(), p.z()},
                step(grid.rowDirection(), scale),
                step(grid.columnDirection(), scale),
                step(grid.normal(), scale),
                scale.stepMm(),
                scale.points(highA - lowA),
                scale.points(highB - lowB),
                scale.points(highC - lowC));
        return new Placed(lattice, lowA, lowB, lowC);
    }

    private double[] step(PatientVector direction, LatticeScale scale) {
        PatientVector d = patientToScene.apply(direction).times(scale.stepMm());
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
    private void decimate(Tile t, float[] field, Placed placed, LatticeScale scale, float[][] out, int firstSlice) {
        FineField.Lattice lattice = placed.lattice;
        int planeSize = lattice.countA() * lattice.countB();
        double[] heights = new double[t.k1 - t.k0];
        Arrays.setAll(heights, n -> normalAt[t.k0 + n] - placed.lowC);
        AxisKernel alongNormal =
                AxisKernel.of(heights, lattice.countC(), scale.stepMm(), pitchMm, scale.sigmaNormalMm());
        float[] plane = new float[planeSize];
        float[] line = new float[lattice.countA()];
        AxisKernel alongRows = null;
        AxisKernel alongColumns = null;
        for (int k = t.k0; k < t.k1; k++) {
            if (alongRows == null || shifted(k)) {
                alongRows = kernel(scale, t.i0, t.i1, grid.columnSpacingMm(), rowAt[k] - placed.lowA, lattice.countA());
                alongColumns =
                        kernel(scale, t.j0, t.j1, grid.rowSpacingMm(), columnAt[k] - placed.lowB, lattice.countB());
            }
            Arrays.fill(plane, 0);
            float[] weights = alongNormal.weights(k - t.k0);
            for (int n = 0; n < weights.length; n++) {
                addTo(plane, field, (alongNormal.first(k - t.k0) + n) * planeSize, weights[n]);
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

    private static AxisKernel kernel(
            LatticeScale scale, int from, int to, double spacingMm, double offsetMm, int samples) {
        double[] centres = new double[to - from];
        Arrays.setAll(centres, n -> (from + n) * spacingMm + offsetMm);
        return AxisKernel.of(centres, samples, scale.stepMm(), spacingMm, scale.sigmaPlaneMm());
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
