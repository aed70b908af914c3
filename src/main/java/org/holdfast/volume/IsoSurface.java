package org.holdfast.volume;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.TriangleMesh;
import org.holdfast.progress.Progress;

/**
 * The surface on which a volume has a given HU, as a closed mesh: marching tetrahedra, six to a cell of eight voxels, with
 * vertices placed linearly between voxels. What lies outside the image or carries no tissue counts as below the level, so
 * that a part cut off by the image's border is closed there.
 */
public final class IsoSurface {

    /** A vertex keeps off the voxels by this share of an edge, so that no triangle shrinks to nothing. */
    private static final double KEEP_OFF = 1e-3;

    /** The cell's six tetrahedra round the diagonal from corner 0 to corner 7; bit 0 is i, 1 is j, 2 is k. */
    private static final int[][] TETRAHEDRA = {
        {0, 1, 3, 7}, {0, 3, 2, 7}, {0, 2, 6, 7}, {0, 6, 4, 7}, {0, 4, 5, 7}, {0, 5, 1, 7}
    };

    private final HuVolume volume;
    private final VolumeGrid grid;
    private final double levelHu;
    private final Map<Long, Integer> vertexOfEdge = new HashMap<>();
    private double[] xyz = new double[3000];
    private int[] corners = new int[3000];
    private int vertexCount;
    private int cornerCount;

    private IsoSurface(HuVolume volume, double levelHu) {
        this.volume = volume;
        this.grid = volume.grid();
        this.levelHu = levelHu;
    }

    /**
     * The surface at a level, its pieces that enclose at least a volume; cavities inside are filled.
     *
     * @param levelHu HU of the surface; more is inside
     * @param leastMm3 smaller pieces are left out
     * @throws IllegalArgumentException if slices are missing in the stack, nothing is so bright, or the surface has more
     *     than {@link TriangleMesh#MOST_TRIANGLES} triangles
     * @throws java.util.concurrent.CancellationException if cancelled
     */
    public static TriangleMesh of(HuVolume volume, double levelHu, double leastMm3, Progress progress) {
        for (int k = 0; k < volume.grid().slices() - 1; k++) {
            if (volume.grid().isHoleAfter(k)) {
                throw new IllegalArgumentException(
                        "a surface needs all slices, some are missing after slice " + (k + 1));
            }
        }
        IsoSurface surface = new IsoSurface(volume, levelHu);
        surface.march(progress);
        return surface.pieces(leastMm3);
    }

    private void march(Progress progress) {
        boolean[][] above = new boolean[2][];
        above[0] = new boolean[grid.columns() * grid.rows()];
        for (int k = -1; k < grid.slices(); k++) {
            progress.stopIfCancelled();
            progress.report((k + 1.0) / (grid.slices() + 1), "surface of the metal");
            above[1] = mask(k + 1);
            for (int j = -1; j < grid.rows(); j++) {
                for (int i = -1; i < grid.columns(); i++) {
                    cell(i, j, k, above);
                }
            }
            above[0] = above[1];
        }
    }

    private boolean[] mask(int k) {
        boolean[] mask = new boolean[grid.columns() * grid.rows()];
        for (int n = 0; k < grid.slices() && n < mask.length; n++) {
            mask[n] = volume.hu(n % grid.columns(), n / grid.columns(), k) >= levelHu;
        }
        return mask;
    }

    private void cell(int i, int j, int k, boolean[][] above) {
        int inside = 0;
        for (int corner = 0; corner < 8; corner++) {
            int x = i + (corner & 1);
            int y = j + (corner >> 1 & 1);
            if (x >= 0
                    && y >= 0
                    && x < grid.columns()
                    && y < grid.rows()
                    && above[corner >> 2][x + grid.columns() * y]) {
                inside |= 1 << corner;
            }
        }
        if (inside == 0 || inside == 255) {
            return;
        }
        for (int[] tetrahedron : TETRAHEDRA) {
            tetrahedron(i, j, k, tetrahedron, inside);
        }
    }

    /** One or two triangles that part the corners inside from those outside. */
    private void tetrahedron(int i, int j, int k, int[] corner, int inside) {
        int[] in = new int[4];
        int[] out = new int[4];
        int ins = 0;
        int outs = 0;
        for (int c : corner) {
            if ((inside >> c & 1) == 1) {
                in[ins++] = c;
            } else {
                out[outs++] = c;
            }
        }
        if (ins == 1 || ins == 3) {
            int apex = ins == 1 ? in[0] : out[0];
            int[] base = ins == 1 ? out : in;
            int a = vertex(i, j, k, apex, base[0]);
            int b = vertex(i, j, k, apex, base[1]);
            int c = vertex(i, j, k, apex, base[2]);
            triangle(a, b, c, i, j, k, in[0]);
        } else if (ins == 2) {
            int a = vertex(i, j, k, in[0], out[0]);
            int b = vertex(i, j, k, in[0], out[1]);
            int c = vertex(i, j, k, in[1], out[1]);
            int d = vertex(i, j, k, in[1], out[0]);
            triangle(a, b, c, i, j, k, in[0]);
            triangle(a, c, d, i, j, k, in[0]);
        }
    }

    /** Adds a triangle so that a corner that lies inside is behind it. */
    private void triangle(int a, int b, int c, int i, int j, int k, int insideCorner) {
        PatientPoint p = point(a);
        boolean outwards = point(b).minus(p)
                        .cross(point(c).minus(p))
                        .dot(place(i, j, k, insideCorner).minus(p))
                < 0;
        if (cornerCount + 3 > corners.length) {
            if (cornerCount / 3 >= TriangleMesh.MOST_TRIANGLES) {
                throw new IllegalArgumentException(
                        "more than " + TriangleMesh.MOST_TRIANGLES + " triangles at " + levelHu + " HU");
            }
            corners = Arrays.copyOf(corners, 2 * corners.length);
        }
        corners[cornerCount++] = a;
        corners[cornerCount++] = outwards ? b : c;
        corners[cornerCount++] = outwards ? c : b;
    }

    private PatientPoint point(int vertex) {
        return new PatientPoint(xyz[3 * vertex], xyz[3 * vertex + 1], xyz[3 * vertex + 2]);
    }

    /** The vertex on the edge between two corners of a cell; edges are shared by cells. */
    private int vertex(int i, int j, int k, int one, int other) {
        long first = key(i, j, k, one);
        long second = key(i, j, k, other);
        int low = first < second ? one : other;
        int high = first < second ? other : one;
        // Two corners of one cell differ by one of seven steps; the lower one and the step name the edge.
        long edge = 8 * Math.min(first, second) + (low ^ high);
        Integer known = vertexOfEdge.get(edge);
        if (known != null) {
            return known;
        }
        double a = value(i, j, k, low);
        double b = value(i, j, k, high);
        double share = Math.min(1 - KEEP_OFF, Math.max(KEEP_OFF, (levelHu - a) / (b - a)));
        PatientPoint p = place(i, j, k, low).towards(place(i, j, k, high), share);
        if (3 * vertexCount + 3 > xyz.length) {
            xyz = Arrays.copyOf(xyz, 2 * xyz.length);
        }
        xyz[3 * vertexCount] = p.x();
        xyz[3 * vertexCount + 1] = p.y();
        xyz[3 * vertexCount + 2] = p.z();
        vertexOfEdge.put(edge, vertexCount);
        return vertexCount++;
    }

    private long key(int i, int j, int k, int corner) {
        long x = i + 1 + (corner & 1);
        long y = j + 1 + (corner >> 1 & 1);
        long z = k + 1 + (corner >> 2);
        return x + (grid.columns() + 2L) * (y + (grid.rows() + 2L) * z);
    }

    /** HU at a corner of a cell; well below the level where there is none. */
    private double value(int i, int j, int k, int corner) {
        int x = i + (corner & 1);
        int y = j + (corner >> 1 & 1);
        int z = k + (corner >> 2);
        boolean within = x >= 0 && y >= 0 && z >= 0 && x < grid.columns() && y < grid.rows() && z < grid.slices();
        double hu = within ? volume.hu(x, y, z) : Double.NaN;
        return Double.isNaN(hu) ? Math.min(levelHu - 1, HuVolume.LOWEST_TISSUE_HU) : hu;
    }

    private PatientPoint place(int i, int j, int k, int corner) {
        int z = k + (corner >> 2);
        int within = Math.max(0, Math.min(z, grid.slices() - 1));
        return grid.sliceOrigin(within)
                .along(grid.rowDirection(), (i + (corner & 1)) * grid.columnSpacingMm())
                .along(grid.columnDirection(), (j + (corner >> 1 & 1)) * grid.rowSpacingMm())
                .along(grid.normal(), (z - within) * grid.pitchMm().orElse(1));
    }

    private TriangleMesh pieces(double leastMm3) {
        int[] root = new int[vertexCount];
        Arrays.setAll(root, n -> n);
        for (int n = 0; n < cornerCount; n += 3) {
            join(root, corners[n], corners[n + 1]);
            join(root, corners[n], corners[n + 2]);
        }
        double[] sixVolumes = new double[vertexCount];
        for (int n = 0; n < cornerCount; n += 3) {
            PatientPoint from = point(find(root, corners[n]));
            sixVolumes[find(root, corners[n])] += point(corners[n])
                    .minus(from)
                    .dot(point(corners[n + 1])
                            .minus(from)
                            .cross(point(corners[n + 2]).minus(from)));
        }
        int[] kept = new int[cornerCount];
        int count = 0;
        for (int n = 0; n < cornerCount; n += 3) {
            if (sixVolumes[find(root, corners[n])] >= 6 * leastMm3) {
                System.arraycopy(corners, n, kept, count, 3);
                count += 3;
            }
        }
        if (count == 0) {
            throw new IllegalArgumentException(
                    "no piece of at least " + leastMm3 + " mm³ lies above " + levelHu + " HU");
        }
        return TriangleMesh.of(Arrays.copyOf(xyz, 3 * vertexCount), Arrays.copyOf(kept, count));
    }

    private static int find(int[] root, int n) {
        int at = n;
        while (root[at] != at) {
            root[at] = root[root[at]];
            at = root[at];
        }
        return at;
    }

    private static void join(int[] root, int a, int b) {
        int x = find(root, a);
        int y = find(root, b);
        root[Math.max(x, y)] = Math.min(x, y);
    }
}
