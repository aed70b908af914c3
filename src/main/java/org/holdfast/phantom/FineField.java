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
    /** More than any two soft tissues and bone differ by; metal against anything differs more. */
    private static final double HIGH_CONTRAST_HU = 1000;

    private final Body[] bodies;
    private final double backgroundHu;
    private final Lattice lattice;
    private final double blurMm;
    private final double reachMm;
    private final Body[][] lists;
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

    /** A block of lattice points, ends left out; it is halved across its longest side. */
    private record Block(int a0, int a1, int b0, int b1, int c0, int c1) {

        boolean isAtMost(int points) {
            return a1 - a0 <= points && b1 - b0 <= points && c1 - c0 <= points;
        }

        Block lowerHalf() {
            return switch (longest()) {
                case 0 -> new Block(a0, (a0 + a1) / 2, b0, b1, c0, c1);
                case 1 -> new Block(a0, a1, b0, (b0 + b1) / 2, c0, c1);
                default -> new Block(a0, a1, b0, b1, c0, (c0 + c1) / 2);
            };
        }

        Block upperHalf() {
            return switch (longest()) {
                case 0 -> new Block((a0 + a1) / 2, a1, b0, b1, c0, c1);
                case 1 -> new Block(a0, a1, (b0 + b1) / 2, b1, c0, c1);
                default -> new Block(a0, a1, b0, b1, (c0 + c1) / 2, c1);
            };
        }

        private int longest() {
            int a = a1 - a0;
            int b = b1 - b0;
            int c = c1 - c0;
            return c >= a && c >= b ? 2 : b >= a ? 1 : 0;
        }
    }

    FineField(Scene scene, Lattice lattice, double blurMm) {
        this.bodies = scene.bodies().toArray(Body[]::new);
        this.backgroundHu = scene.backgroundHu();
        this.lattice = lattice;
        this.blurMm = blurMm;
        this.reachMm = BlurReach.DEVIATIONS * blurMm;
        this.lists = new Body[64][bodies.length];
    }

    /** The one HU of the whole lattice, or NaN if a surface comes near it (or may: distances are bounds). */
    double constantHu() {
        double[] base = {backgroundHu};
        int count = select(whole(), bodies, bodies.length, base, lists[1]);
        return count == 0 ? base[0] : Double.NaN;
    }

    /**
     * Whether two surfaces between which HU differ much come so near each other that a coarse lattice, with its wider
     * softening, would mix them.
     */
    boolean hasCloseSurfaces() {
        return hasCloseSurfaces(whole(), bodies, bodies.length, backgroundHu, 1);
    }

    private boolean hasCloseSurfaces(Block block, Body[] list, int count, double baseHu, int depth) {
        double[] base = {baseHu};
        Body[] kept = lists[depth];
        int left = select(block, list, count, base, kept);
        if (left < 2 || contrastHu(kept, left, base[0]) < HIGH_CONTRAST_HU) {
            return false;
        }
        if (block.isAtMost(LEAF)) {
            return true;
        }
        return hasCloseSurfaces(block.lowerHalf(), kept, left, base[0], depth + 1)
                || hasCloseSurfaces(block.upperHalf(), kept, left, base[0], depth + 1);
    }

    private static double contrastHu(Body[] list, int count, double baseHu) {
        double low = baseHu;
        double high = baseHu;
        for (int n = 0; n < count; n++) {
            low = Math.min(low, list[n].lowestHu());
            high = Math.max(high, list[n].highestHu());
        }
        return high - low;
    }

    /** The HU of all points, index {@code a + countA·(b + countB·c)}. */
    float[] fill() {
        values = new float[lattice.countA * lattice.countB * lattice.countC];
        fill(whole(), bodies, bodies.length, backgroundHu, 1);
        return values;
    }

    private Block whole() {
        return new Block(0, lattice.countA, 0, lattice.countB, 0, lattice.countC);
    }

    private void fill(Block block, Body[] list, int count, double baseHu, int depth) {
        double[] base = {baseHu};
        Body[] kept = lists[depth];
        int left = select(block, list, count, base, kept);
        if (left == 0) {
            fillConstant(block, (float) base[0]);
        } else if (block.isAtMost(LEAF)) {
            fillPoints(block, kept, left, base[0]);
        } else {
            fill(block.lowerHalf(), kept, left, base[0], depth + 1);
            fill(block.upperHalf(), kept, left, base[0], depth + 1);
        }
    }

    /**
     * Keeps the bodies of a list whose surface may come near a block.
     *
     * @param base HU under the first body of the list; set to that of the last body that fills the whole block
     * @return how many were kept
     */
    private int select(Block block, Body[] list, int count, double[] base, Body[] kept) {
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
            Body body = list[n];
            double distance = body.solid().signedDistanceMm(x, y, z);
            if (distance > near) {
                continue;
            }
            if (distance < -near) {
                // Opaque in the whole block: whatever lies under it is not seen.
                left = 0;
                base[0] = body.outerHu();
                if (body.shellMm() > 0 && distance >= -near - body.shellMm()) {
                    kept[left++] = body.near(x, y, z, near).core();
                } else {
                    base[0] = body.coreHu();
                }
            } else {
                kept[left++] = body.near(x, y, z, near);
            }
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

    private void fillPoints(Block block, Body[] list, int count, double baseHu) {
        for (int k = block.c0; k < block.c1; k++) {
            for (int j = block.b0; j < block.b1; j++) {
                int row = lattice.countA * (j + lattice.countB * k);
                for (int i = block.a0; i < block.a1; i++) {
                    double x = lattice.at(0, i, j, k);
                    double y = lattice.at(1, i, j, k);
                    double z = lattice.at(2, i, j, k);
                    double hu = baseHu;
                    for (int n = 0; n < count; n++) {
                        hu = list[n].over(hu, x, y, z, blurMm);
                    }
                    values[row + i] = (float) hu;
                }
            }
        }
    }
}
