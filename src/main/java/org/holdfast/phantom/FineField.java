package org.holdfast.phantom;

import java.util.Arrays;

/**
 * The HU of a scene on a fine lattice, blurred by a small isotropic Gaussian. Filled by halving the block again and
 * again: a block that no surface comes near has one value; only small blocks at surfaces are worked out point by point.
 * Used by one thread.
 */
final class FineField {

    /** Blocks up to this many points an axis are worked out point by point. */
    private static final int LEAF = 4;

    private final Body[] bodies;
    private final double backgroundHu;
    private final Lattice lattice;
    private final double blurMm;
    private final double reachMm;
    private final int[][] lists;
    private float[] values;

    /**
     * Points of a lattice in the scene's own space.
     *
     * @param origin coordinates of point (0, 0, 0)
     * @param a step along the first axis, three coordinates; the axes are orthogonal and the steps equal
     * @param b step along the second axis
     * @param c step along the third axis
     * @param stepMm length of a step
     * @param countA points along the first axis
     * @param countB points along the second axis
     * @param countC points along the third axis
     */
    record Lattice(
            double[] origin, double[] a, double[] b, double[] c, double stepMm, int countA, int countB, int countC) {

        double at(int axis, double i, double j, double k) {
            return origin[axis] + i * a[axis] + j * b[axis] + k * c[axis];
        }
    }

    /** A block of lattice points, ends left out, and the part of the scene that matters in it. */
    private record Block(int a0, int a1, int b0, int b1, int c0, int c1) {}

    FineField(Scene scene, Lattice lattice, double blurMm) {
        this.bodies = scene.bodies().toArray(Body[]::new);
        this.backgroundHu = scene.backgroundHu();
        this.lattice = lattice;
        this.blurMm = blurMm;
        this.reachMm = BlurReach.DEVIATIONS * blurMm;
        this.lists = new int[64][bodies.length];
    }

    /** The one HU of the whole lattice, or NaN if a surface comes near it (or may: distances are bounds). */
    double constantHu() {
        int[] all = all();
        double[] base = {backgroundHu};
        int count = select(whole(), all, all.length, base, lists[1]);
        return count == 0 ? base[0] : Double.NaN;
    }

    /** The HU of all points, index {@code a + countA·(b + countB·c)}. */
    float[] fill() {
        values = new float[lattice.countA * lattice.countB * lattice.countC];
        int[] all = all();
        fill(whole(), all, all.length, backgroundHu, 1);
        return values;
    }

    private Block whole() {
        return new Block(0, lattice.countA, 0, lattice.countB, 0, lattice.countC);
    }

    private int[] all() {
        int[] all = new int[bodies.length];
        Arrays.setAll(all, n -> n);
        return all;
    }

    private void fill(Block block, int[] list, int count, double baseHu, int depth) {
        double[] base = {baseHu};
        int[] kept = lists[depth];
        int left = select(block, list, count, base, kept);
        int a = block.a1 - block.a0;
        int b = block.b1 - block.b0;
        int c = block.c1 - block.c0;
        if (left == 0) {
            fillConstant(block, (float) base[0]);
        } else if (a <= LEAF && b <= LEAF && c <= LEAF) {
            fillPoints(block, kept, left, base[0]);
        } else if (c >= a && c >= b) {
            int half = block.c0 + c / 2;
            fill(new Block(block.a0, block.a1, block.b0, block.b1, block.c0, half), kept, left, base[0], depth + 1);
            fill(new Block(block.a0, block.a1, block.b0, block.b1, half, block.c1), kept, left, base[0], depth + 1);
        } else if (b >= a) {
            int half = block.b0 + b / 2;
            fill(new Block(block.a0, block.a1, block.b0, half, block.c0, block.c1), kept, left, base[0], depth + 1);
            fill(new Block(block.a0, block.a1, half, block.b1, block.c0, block.c1), kept, left, base[0], depth + 1);
        } else {
            int half = block.a0 + a / 2;
            fill(new Block(block.a0, half, block.b0, block.b1, block.c0, block.c1), kept, left, base[0], depth + 1);
            fill(new Block(half, block.a1, block.b0, block.b1, block.c0, block.c1), kept, left, base[0], depth + 1);
        }
    }

    /**
     * Keeps the bodies of a list whose surface may come near a block.
     *
     * @param base HU under the first body of the list; set to that of the last body that fills the whole block
     * @return how many were kept
     */
    private int select(Block block, int[] list, int count, double[] base, int[] kept) {
        double i = 0.5 * (block.a0 + block.a1 - 1);
        double j = 0.5 * (block.b0 + block.b1 - 1);
        double k = 0.5 * (block.c0 + block.c1 - 1);
        double x = lattice.at(0, i, j, k);
        double y = lattice.at(1, i, j, k);
        double z = lattice.at(2, i, j, k);
        double a = block.a1 - block.a0 - 1;
        double b = block.b1 - block.b0 - 1;
        double c = block.c1 - block.c0 - 1;
        double near = 0.5 * lattice.stepMm * Math.sqrt(a * a + b * b + c * c) + reachMm;
        int left = 0;
        for (int n = 0; n < count; n++) {
            Body body = bodies[list[n]];
            double distance = body.solid().signedDistanceMm(x, y, z);
            if (distance > near) {
                continue;
            }
            if (distance < -near) {
                // Opaque in the whole block: whatever lies under it is not seen.
                left = 0;
                if (distance < -near - body.shellMm()) {
                    base[0] = body.coreHu();
                    continue;
                }
            }
            kept[left++] = list[n];
        }
        return left;
    }

    private void fillConstant(Block block, float hu) {
        for (int k = block.c0; k < block.c1; k++) {
            for (int j = block.b0; j < block.b1; j++) {
                int row = lattice.countA * (j + lattice.countB * k);
                Arrays.fill(values, row + block.a0, row + block.a1, hu);
            }
        }
    }

    private void fillPoints(Block block, int[] list, int count, double baseHu) {
        for (int k = block.c0; k < block.c1; k++) {
            for (int j = block.b0; j < block.b1; j++) {
                int row = lattice.countA * (j + lattice.countB * k);
                for (int i = block.a0; i < block.a1; i++) {
                    double x = lattice.at(0, i, j, k);
                    double y = lattice.at(1, i, j, k);
                    double z = lattice.at(2, i, j, k);
                    double hu = baseHu;
                    for (int n = 0; n < count; n++) {
                        hu = bodies[list[n]].over(hu, x, y, z, blurMm);
                    }
                    values[row + i] = (float) hu;
                }
            }
        }
    }
}
