package org.holdfast.desktop.render;

import org.holdfast.desktop.state.HuWindow;
import org.holdfast.volume.Cut;
import org.holdfast.volume.CutPlane;
import org.holdfast.volume.VolumeGrid;
import org.holdfast.volume.VoxelCoord;

/**
 * Turns the HU of a cut into greys by a linear ramp of 256 steps. Stateless.
 *
 * <p>grey = round(255 · ((HU − centre) / width + ½)), clamped to 0…255 (DICOM PS3.3 section C.11.2.1.3.2, LINEAR_EXACT).
 * A pixel without HU has one flat tone of its own, neither black nor grey of the ramp's greys; where slices are missing
 * it is hatched.
 */
public final class CutPainter {

    /** Where there is no image. */
    static final int NO_IMAGE = 0xFF101314;
    /** Strokes over the missing stretch of a stack. */
    static final int HOLE_STROKE = 0xFF59615F;
    /** Distance of the hatch's strokes along a row, device pixels. */
    static final int HATCH_PIXELS = 6;

    private static final int[] GREYS = greys();

    private CutPainter() {}

    /**
     * Draws a cut.
     *
     * @param cut the HU
     * @param grid where the voxels of the cut's volume lie: tells a missing stretch from the outside
     * @param window HU from black to white
     */
    public static Picture paint(Cut cut, VolumeGrid grid, HuWindow window) {
        float[] hu = cut.toArray();
        int[] argb = new int[hu.length];
        float scale = (float) (255 / window.widthHu());
        // One addition less a pixel: the half rounds, the cast then cuts off.
        float offset = (float) (0.5 - window.low() * 255 / window.widthHu());
        boolean empty = false;
        for (int n = 0; n < hu.length; n++) {
            float grey = hu[n] * scale + offset;
            if (grey >= 255) {
                argb[n] = GREYS[255];
            } else if (grey >= 0) {
                argb[n] = GREYS[(int) grey];
            } else if (grey < 0) {
                argb[n] = GREYS[0];
            } else {
                argb[n] = NO_IMAGE;
                empty = true;
            }
        }
        if (empty && !grid.holesAfter().isEmpty()) {
            hatchHoles(cut.plane(), hu, grid, argb);
        }
        return new Picture(cut.width(), cut.height(), argb);
    }

    /** The grey of one HU, 0xRRGGBB. */
    static int grey(double hu, HuWindow window) {
        double level = Math.rint(255 * ((hu - window.centreHu()) / window.widthHu() + 0.5));
        return GREYS[(int) Math.max(0, Math.min(255, level))] & 0xFFFFFF;
    }

    private static void hatchHoles(CutPlane plane, float[] hu, VolumeGrid grid, int[] argb) {
        for (int y = 0; y < plane.height(); y++) {
            for (int x = 0; x < plane.width(); x++) {
                int n = x + plane.width() * y;
                if (Float.isNaN(hu[n]) && (x + y) % HATCH_PIXELS == 0 && isInHole(plane, x, y, grid)) {
                    argb[n] = HOLE_STROKE;
                }
            }
        }
    }

    private static boolean isInHole(CutPlane plane, int x, int y, VolumeGrid grid) {
        VoxelCoord at = grid.patientToVoxel(plane.pixelToPatient(x, y));
        boolean inside = at.i() >= 0
                && at.i() <= grid.columns() - 1
                && at.j() >= 0
                && at.j() <= grid.rows() - 1
                && at.k() > 0
                && at.k() < grid.slices() - 1;
        return inside && grid.isHoleAfter((int) at.k());
    }

    private static int[] greys() {
        int[] greys = new int[256];
        for (int level = 0; level < greys.length; level++) {
            greys[level] = 0xFF000000 | level << 16 | level << 8 | level;
        }
        return greys;
    }
}
