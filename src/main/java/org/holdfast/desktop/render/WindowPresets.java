package org.holdfast.desktop.render;

import java.util.OptionalDouble;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.desktop.state.WindowPreset;
import org.holdfast.volume.VolumeStatistics;

/**
 * Computes the windows that are named by purpose. The values are choices of this program, not measurements. Stateless.
 *
 * <ul>
 *   <li>Bone beside metal: fluid lies at 27 % of the grey, dark but apart from air, and white a little under the implant's
 *       plateau (95 % of it, but not under 1200 HU so that cortical bone keeps its greys, nor over 2000 HU; 2000 HU where
 *       no plateau is known). Where the host bone would then stand out from fluid by less than 8 % of the grey, the window
 *       is narrowed until it does, but not under 1000 HU. Centre and width are rounded to 10 and 50 HU. Fluid of 30 HU
 *       alone gives centre 650, width 2700.
 *   <li>Inside metal: black at the plateau (2500 HU where none is known), white at the ceiling of the scale, or the largest
 *       HU of the volume where it is not clipped. Where that leaves less than 1000 HU, the 1000 HU under white.
 *   <li>Soft tissue: centre 40, width 400, as is common practice.
 *   <li>Whole scale: from the smallest to the largest HU of the volume; −1024 to 3071, a 12-bit scale, where it has none.
 * </ul>
 */
public final class WindowPresets {

    private static final double FLUID_GREY = 0.27;
    private static final double HOST_GREY = 0.08;
    private static final double SHARE_OF_PLATEAU = 0.95;
    private static final double LOWEST_WHITE_HU = 1200;
    private static final double HIGHEST_WHITE_HU = 2000;
    private static final double NARROWEST_HU = 1000;
    private static final double UNKNOWN_PLATEAU_HU = 2500;
    private static final HuWindow SOFT_TISSUE = new HuWindow(40, 400);
    private static final HuWindow TWELVE_BITS = HuWindow.between(-1024, 3071);

    private WindowPresets() {}

    /**
     * The window for a purpose.
     *
     * @param preset the purpose
     * @param landmarks HU of the subject, as far as known
     * @param statistics of the volume that is looked at
     */
    public static HuWindow of(WindowPreset preset, HuLandmarks landmarks, VolumeStatistics statistics) {
        return switch (preset) {
            case BONE_BESIDE_METAL -> boneBesideMetal(landmarks);
            case INSIDE_METAL -> insideMetal(landmarks, statistics);
            case SOFT_TISSUE -> SOFT_TISSUE;
            case WHOLE_SCALE -> wholeScale(statistics);
        };
    }

    /** The window in which a subject opens; needs no volume. */
    public static HuWindow boneBesideMetal(HuLandmarks landmarks) {
        double fluid = landmarks.fluidHu();
        double white = landmarks.plateauHu().isPresent()
                ? SHARE_OF_PLATEAU * landmarks.plateauHu().getAsDouble()
                : HIGHEST_WHITE_HU;
        white = Math.max(LOWEST_WHITE_HU, Math.min(HIGHEST_WHITE_HU, white));
        double width = (white - fluid) / (1 - FLUID_GREY);
        OptionalDouble host = hostHu(landmarks);
        if (host.isPresent()) {
            width = Math.min(width, (host.getAsDouble() - fluid) / HOST_GREY);
        }
        width = rounded(Math.max(NARROWEST_HU, width), 50);
        return new HuWindow(rounded(fluid + (0.5 - FLUID_GREY) * width, 10), width);
    }

    /** Host bone as measured, else as the bone threshold implies it, which lies midway between fluid and host bone. */
    private static OptionalDouble hostHu(HuLandmarks landmarks) {
        if (landmarks.hostHu().isPresent() || landmarks.boneHu().isEmpty()) {
            return landmarks.hostHu();
        }
        return OptionalDouble.of(2 * landmarks.boneHu().getAsDouble() - landmarks.fluidHu());
    }

    private static HuWindow insideMetal(HuLandmarks landmarks, VolumeStatistics statistics) {
        double white = statistics.ceilingHu().orElse(statistics.maxHu());
        if (Double.isNaN(white)) {
            return TWELVE_BITS;
        }
        double black = landmarks.plateauHu().orElse(UNKNOWN_PLATEAU_HU);
        return HuWindow.between(Math.min(black, white - NARROWEST_HU), white);
    }

    private static HuWindow wholeScale(VolumeStatistics statistics) {
        return statistics.validVoxels() == 0 ? TWELVE_BITS : HuWindow.between(statistics.minHu(), statistics.maxHu());
    }

    private static double rounded(double value, double step) {
        return Math.rint(value / step) * step;
    }
}
