package org.holdfast.measure;

import java.util.Arrays;
import java.util.List;
import org.holdfast.construct.Component;
import org.holdfast.construct.Shape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;

/**
 * Which cells round a screw look like streaks, by what they read beside the screw and in depth.
 *
 * <ul>
 *   <li>darker than fluid by more than the settings' {@code streakHu}, beside the screw or in depth: no tissue reads so;
 *   <li>on a line through other metal within the slice, and in depth darker or brighter than the median of the other
 *       sectors by more than that; the sectors beside such a one go with it;
 *   <li>against the reference exam, in depth: brighter by more than that, or darker and now under fluid by half of it. A
 *       sector that turned to fluid is not left out: that may be the zone.
 * </ul>
 */
final class StreakSectors {

    static final String UNDER_FLUID = "darker than fluid: streak";
    static final String IN_LINE = "in line with other metal and unlike the other sectors in depth: streak";
    static final String BESIDE = "beside a sector that is a streak in line with other metal";
    static final String CHANGED = "unlike the reference exam in depth: streak";

    private static final double BESIDE_FROM_MM = 1.0;
    private static final double BESIDE_TO_MM = 2.5;
    private static final double DEPTH_FROM_MM = 3.0;
    private static final double DEPTH_TO_MM = 5.5;
    /** Other metal farther away throws no streak that matters, mm. */
    private static final double METAL_REACH_MM = 60;

    private static final double METAL_STEP_MM = 1;
    /** Lines through metal are this wide at least: half of one sector. */
    private static final double LINE_HALF_DEG = 15;

    private final ScrewInExam screw;
    private final MeasurementSettings settings;
    private final double[][] beside;
    private final double[][] depth;

    /**
     * @param rings gathered with borders cut off
     * @param depthRings rings of each cell that may be read
     */
    StreakSectors(ScrewInExam screw, ScrewRings rings, int[][] depthRings, MeasurementSettings settings) {
        this.screw = screw;
        this.settings = settings;
        this.beside = new double[screw.slabs()][ScrewVoxels.SECTORS];
        this.depth = new double[screw.slabs()][ScrewVoxels.SECTORS];
        for (int slab = 0; slab < screw.slabs(); slab++) {
            for (int n = 0; n < ScrewVoxels.SECTORS; n++) {
                boolean[] one = ScrewRings.sectors(n, 1);
                RingSums sums = rings.sums(
                        Math.max(0, slab - ScrewRings.STATION_REACH),
                        Math.min(screw.slabs(), slab + ScrewRings.STATION_REACH + 1),
                        one);
                beside[slab][n] = sums.meanHu(screw.ringAt(BESIDE_FROM_MM), screw.ringAt(BESIDE_TO_MM));
                boolean isDeep = depthRings[slab][n] >= screw.ringAt(DEPTH_FROM_MM + 0.5);
                depth[slab][n] =
                        isDeep ? sums.meanHu(screw.ringAt(DEPTH_FROM_MM), screw.ringAt(DEPTH_TO_MM)) : Double.NaN;
            }
        }
    }

    /** HU in depth over the median of the slab's sectors, [slab][sector]; NaN where not read. For later exams. */
    double[][] depthOverMedianHu() {
        double[][] over = new double[depth.length][];
        for (int slab = 0; slab < depth.length; slab++) {
            double median = median(depth[slab]);
            over[slab] = Arrays.stream(depth[slab]).map(hu -> hu - median).toArray();
        }
        return over;
    }

    /**
     * Why each cell is left out, [slab][sector]; empty where it is not.
     *
     * @param others other parts, on the reference exam
     * @param referenceToExam pose of this exam
     * @param slices normal of the slices
     * @param referenceOverHu {@link #depthOverMedianHu} of the reference exam, or null on that itself
     */
    String[][] why(
            List<Component> others, RigidTransform referenceToExam, PatientVector slices, double[][] referenceOverHu) {
        double streak = settings.lucency().streakHu();
        double fluid = settings.fluidHu();
        double[][] over = depthOverMedianHu();
        String[][] why = new String[depth.length][ScrewVoxels.SECTORS];
        for (int slab = 0; slab < depth.length; slab++) {
            boolean[] inLine = inLine(slab, others, referenceToExam, slices);
            for (int n = 0; n < ScrewVoxels.SECTORS; n++) {
                why[slab][n] = "";
                double now = over[slab][n];
                boolean isDark = depth[slab][n] < fluid - 0.5 * streak;
                if (beside[slab][n] < fluid - streak || depth[slab][n] < fluid - streak) {
                    why[slab][n] = UNDER_FLUID;
                } else if (inLine[n] && Math.abs(now) > streak) {
                    why[slab][n] = IN_LINE;
                } else if (referenceOverHu != null) {
                    double change = now - referenceOverHu[slab][n];
                    why[slab][n] = change > streak || change < -streak && isDark ? CHANGED : "";
                }
            }
            addNeighbours(why[slab]);
        }
        return why;
    }

    /** A streak does not end with a sector: what lies beside one goes with it, its bright partners among them. */
    private static void addNeighbours(String[] why) {
        String[] before = why.clone();
        int count = why.length;
        for (int n = 0; n < count; n++) {
            boolean isBeside =
                    before[(n + 1) % count].equals(IN_LINE) || before[(n + count - 1) % count].equals(IN_LINE);
            if (before[n].isEmpty() && isBeside) {
                why[n] = BESIDE;
            }
        }
    }

    /** Sectors that lie, or whose opposite lies, towards other metal within the slice. */
    private boolean[] inLine(int slab, List<Component> others, RigidTransform referenceToExam, PatientVector slices) {
        boolean[] inLine = new boolean[ScrewVoxels.SECTORS];
        ScrewAxis axis = screw.axis();
        PatientPoint middle = axis.head().along(axis.direction(), screw.atMm(slab));
        RigidTransform back = referenceToExam.inverse();
        for (int n = 0; n < inLine.length; n++) {
            double angle = 2 * Math.PI * (n + 0.5) / inLine.length;
            PatientVector radial =
                    axis.zero().times(Math.cos(angle)).plus(axis.quarter().times(Math.sin(angle)));
            PatientVector level = radial.minus(slices.times(radial.dot(slices)));
            if (level.norm() > Math.cos(Math.toRadians(60))) {
                PatientVector line = level.unit();
                inLine[n] = meets(middle, line, others, back) || meets(middle, line.times(-1), others, back);
            }
        }
        return inLine;
    }

    private static boolean meets(
            PatientPoint from, PatientVector line, List<Component> others, RigidTransform examToReference) {
        for (Component part : others) {
            Shape shape = part.shape();
            if (!shape.hasDistance()) {
                continue;
            }
            double t = 0;
            while (t < METAL_REACH_MM) {
                double distance = shape.signedDistanceMm(examToReference.apply(from.along(line, t)));
                if (distance < t * Math.tan(Math.toRadians(LINE_HALF_DEG))) {
                    return true;
                }
                t += Math.max(METAL_STEP_MM, 0.5 * distance);
            }
        }
        return false;
    }

    private static double median(double[] values) {
        return Quantiles.median(
                Arrays.stream(values).filter(v -> !Double.isNaN(v)).toArray());
    }
}
