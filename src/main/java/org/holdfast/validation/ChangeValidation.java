package org.holdfast.validation;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.Construct;
import org.holdfast.construct.Material;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.measure.ChangeMap;
import org.holdfast.measure.ChangeReading;
import org.holdfast.measure.ContactByThreshold;
import org.holdfast.measure.Disturbance;
import org.holdfast.measure.ExamScan;
import org.holdfast.measure.FaceComparison;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.PointSpreadEstimate;
import org.holdfast.measure.PorousFill;
import org.holdfast.phantom.FaceFrame;
import org.holdfast.phantom.HuScale;
import org.holdfast.phantom.PointSpread;
import org.holdfast.phantom.ScanSettings;
import org.holdfast.phantom.ScanSimulator;
import org.holdfast.phantom.Scene;
import org.holdfast.progress.Progress;
import org.holdfast.volume.Acquisition;

/**
 * Change map and porous fill against the truth of simulated faces on two exams (analytic phantom).
 *
 * <p>Truly changed is surface at least 0.5 mm inside an area over which bone came, went or changed its density, where that
 * moved the mean HU in the map's window by what the map says it can see; lesser changes are counted apart, as the map says
 * nothing of them. Unchanged is surface at least 0.5 mm outside such areas. Surface is counted in places as large as the
 * disc over which the map is smoothed, since nearer samples are no two witnesses.
 */
public final class ChangeValidation {

    /** Surface so near the border of a changed area is not counted, mm. */
    static final double BORDER_MM = 0.5;

    // Source: measurement definitions, section 8, change map, phantom (a): 95 % found, at most 5 % falsely called.
    private static final ValidationRow.ShareGoal FOUND = ValidationRow.ShareGoal.atLeast(0.95);
    private static final ValidationRow.ShareGoal FALSELY_CALLED = ValidationRow.ShareGoal.atMost(0.05);
    // Source: measurement definitions, section 8, porous fill, phantom (a): bias 0.05, limits ± 0.10.
    private static final ValidationRow.Goal FILL = new ValidationRow.Goal(0.05, 0.10);
    // Source: measurement definitions, section 8, truths inside ± 1.96 SE, phantom (a).
    private static final ValidationRow.ShareGoal INSIDE_SE = ValidationRow.ShareGoal.between(0.92, 0.98);

    private static final double SE_LIMIT = 1.96;
    /** 1.96 + 1.645: beyond error at 95 of 100. */
    private static final double FOUND_SE = 3.605;

    private static final String PHANTOM = "analytic";
    /** Seeds of one draw of scenes lie so far from those of the next. */
    private static final long DRAW_STRIDE = 50_000;

    private ChangeValidation() {}

    /**
     * How many scenes are run.
     *
     * @param changes bone changes beside a porous face, goal set
     * @param solid the same beside solid titanium
     * @param nothing nothing changes, goal set
     * @param poseOff nothing changes and the pose is off
     * @param fills pores fill, goal set
     * @param stress bone changes, stress set
     */
    record Extent(int changes, int solid, int nothing, int poseOff, int fills, int stress) {}

    /** Every scene. */
    public static List<ValidationRow> full(int draw, Progress progress) {
        return run(new Extent(140, 24, 36, 16, 60, 16), draw, progress);
    }

    /** A share of the scenes, for a test suite. */
    public static List<ValidationRow> quick(int draw, Progress progress) {
        return run(new Extent(8, 2, 2, 2, 4, 1), draw, progress);
    }

    static List<ValidationRow> run(Extent extent, int draw, Progress progress) {
        long shift = DRAW_STRIDE * draw;
        ContactScene.Conditions goal = ContactScene.Conditions.GOAL_SET;
        Material porous = Material.TITANIUM_POROUS;
        double total = extent.changes + extent.solid + extent.nothing + extent.poseOff + extent.fills + extent.stress;
        List<ValidationRow> rows = new ArrayList<>();
        Series series = new Series(ChangeScene.Course.BONE_CHANGES, goal, porous, shift + 21_000);
        double done = extent.changes / total;
        Tally changes = new Tally();
        changes.add(series, extent.changes, progress.part(0, done));
        double before = done;
        done += extent.nothing / total;
        changes.add(
                new Series(ChangeScene.Course.NOTHING, goal, porous, shift + 22_000),
                extent.nothing,
                progress.part(before, done));
        rows.addAll(changes.mapRows("(goal set)", porous, true));
        before = done;
        done += extent.solid / total;
        Tally solid = new Tally();
        solid.add(
                new Series(ChangeScene.Course.BONE_CHANGES, goal, Material.TITANIUM_SOLID, shift + 23_000),
                extent.solid,
                progress.part(before, done));
        rows.addAll(solid.mapRows("(goal set)", Material.TITANIUM_SOLID, true));
        before = done;
        done += extent.poseOff / total;
        Tally off = new Tally();
        off.add(
                new Series(ChangeScene.Course.POSE_OFF, goal, porous, shift + 24_000),
                extent.poseOff,
                progress.part(before, done));
        rows.add(off.falselyCalled("(pose off by 0.05 mm)", porous, true));
        before = done;
        done += extent.fills / total;
        Tally fills = new Tally();
        fills.add(
                new Series(ChangeScene.Course.PORES_FILL, goal, porous, shift + 25_000),
                extent.fills,
                progress.part(before, done));
        rows.addAll(fills.fillRows("(goal set)", true));
        Tally stress = new Tally();
        stress.add(
                new Series(ChangeScene.Course.BONE_CHANGES, ContactScene.Conditions.STRESS_SET, porous, shift + 26_000),
                extent.stress,
                progress.part(Math.min(1, done), 1));
        rows.addAll(stress.mapRows("(stress set)", porous, false));
        rows.addAll(stress.fillRows("(stress set)", false));
        return rows;
    }

    /**
     * What can be seen under some conditions, beside a porous face where nothing changed.
     *
     * @param sigmaMm blur in all directions
     * @param noiseHu noise of a voxel
     * @param smallestChangeHu change of the mean HU beyond the guard that is found at 95 of 100 places, median of scenes
     * @param smallestFill fill that is told from none at 95 of 100 faces: 3.6 standard errors, median of scenes
     */
    public record Visible(double sigmaMm, double noiseHu, double smallestChangeHu, double smallestFill) {}

    /** What can be seen for blurs of 0.3 and 0.5 mm and noise of 10, 25 and 40 HU; pixels 0.45, slices 0.7 mm. */
    public static List<Visible> visible(int scenesEach, Progress progress) {
        List<Visible> visible = new ArrayList<>();
        for (double sigma : new double[] {0.3, 0.5}) {
            for (double noise : new double[] {10, 25, 40}) {
                progress.stopIfCancelled();
                List<Double> changes = new ArrayList<>();
                List<Double> fills = new ArrayList<>();
                for (int n = 0; n < scenesEach; n++) {
                    ChangeScene scene = new Series(
                                    ChangeScene.Course.NOTHING,
                                    ContactScene.Conditions.GOAL_SET,
                                    Material.TITANIUM_POROUS,
                                    27_000)
                            .scene(n)
                            .scanned(sigma, noise, 0.45, 0.7);
                    FaceComparison.Compared compared = measure(scene, MeasurementSettings.withDefaults());
                    compared.change().value().ifPresent(map -> changes.add(map.smallestVisibleHu()));
                    compared.fill().se().value().ifPresent(se -> fills.add(FOUND_SE * se));
                }
                visible.add(new Visible(sigma, noise, median(changes), median(fills)));
            }
        }
        return visible;
    }

    private static double median(List<Double> values) {
        double[] sorted = values.stream().mapToDouble(v -> v).sorted().toArray();
        return sorted.length == 0 ? Double.NaN : sorted[sorted.length / 2];
    }

    /** Scenes of one kind, told apart by their number. */
    private record Series(ChangeScene.Course course, ContactScene.Conditions conditions, Material material, long seed) {

        ChangeScene scene(int n) {
            return ChangeScene.draw(
                    course, conditions, material, n % 2 == 0 ? HuScale.CLIPPED_3071 : HuScale.EXTENDED_30710, seed + n);
        }
    }

    /** Counts surface and fills over scenes. */
    private static final class Tally {
        private double changed;
        private double found;
        private double lesser;
        private double lesserFound;
        private double unchanged;
        private double called;
        private int withoutMap;
        private int withoutFill;
        private int fillInside;
        private final List<Double> fillDifferences = new ArrayList<>();

        void add(Series series, int scenes, Progress progress) {
            for (int n = 0; n < scenes; n++) {
                progress.stopIfCancelled();
                progress.report((double) n / scenes, "change: " + series.course());
                ChangeScene scene = series.scene(n);
                FaceComparison.Compared compared = measure(scene, MeasurementSettings.withDefaults());
                withoutMap += compared.change().value().isEmpty() ? 1 : 0;
                compared.change().value().ifPresent(map -> count(scene, map));
                count(scene, compared.fill());
            }
        }

        private void count(ChangeScene scene, ChangeMap map) {
            boolean[][] visible = visible(scene, map);
            for (ChangeReading reading : map.readings()) {
                double u = reading.sample().uMm();
                double v = reading.sample().vMm();
                if (reading.kind() == ChangeReading.Kind.NOT_COMPARABLE
                        || scene.areas().fromBorderMm(u, v) < BORDER_MM) {
                    continue;
                }
                int[] at = scene.areas().at(u, v);
                double area = reading.sample().areaMm2();
                double isCalled = reading.kind() == ChangeReading.Kind.NONE ? 0 : area;
                if (!scene.areas().changed()[at[0]][at[1]]) {
                    unchanged += area;
                    called += isCalled;
                } else if (visible[at[0]][at[1]]) {
                    changed += area;
                    found += isCalled;
                } else {
                    lesser += area;
                    lesserFound += isCalled;
                }
            }
        }

        /** Areas over which the true change is as large as the map says it can see. */
        private static boolean[][] visible(ChangeScene scene, ChangeMap map) {
            boolean[][] visible = new boolean[scene.areas().changed().length][];
            for (int a = 0; a < visible.length; a++) {
                visible[a] = new boolean[scene.areas().changed()[a].length];
                for (int b = 0; b < visible[a].length; b++) {
                    double change = scene.trueChangeHu(a, b, map.fromMm(), map.toMm());
                    visible[a][b] = Math.abs(change) >= map.smallestVisibleHu();
                }
            }
            return visible;
        }

        private void count(ChangeScene scene, PorousFill fill) {
            if (fill.value().value().isEmpty()) {
                withoutFill++;
                return;
            }
            double difference = fill.value().value().getAsDouble() - scene.fill();
            fillDifferences.add(difference);
            fillInside += Math.abs(difference) <= SE_LIMIT * fill.se().value().orElseThrow() ? 1 : 0;
        }

        List<ValidationRow> mapRows(String set, Material material, boolean hasGoal) {
            return List.of(
                    share("changed surface found " + set, material, found, changed, hasGoal ? FOUND : null),
                    falselyCalled(set, material, hasGoal),
                    share(
                            "surface found with changes under the map's limit " + set,
                            material,
                            lesserFound,
                            lesser,
                            null));
        }

        ValidationRow falselyCalled(String set, Material material, boolean hasGoal) {
            return share(
                    "unchanged surface called changed " + set,
                    material,
                    called,
                    unchanged,
                    hasGoal ? FALSELY_CALLED : null);
        }

        List<ValidationRow> fillRows(String set, boolean hasGoal) {
            String metal = words(Material.TITANIUM_POROUS);
            double[] differences = fillDifferences.stream().mapToDouble(d -> d).toArray();
            String inside = "true porous fill inside ± 1.96 SE " + set;
            return List.of(
                    ValidationRow.of(
                            "porous fill " + set,
                            PHANTOM,
                            metal,
                            differences,
                            withoutFill,
                            hasGoal ? Optional.of(FILL) : Optional.empty()),
                    hasGoal
                            ? ValidationRow.ofShare(
                                    inside, PHANTOM, metal, fillInside, differences.length, withoutFill, INSIDE_SE)
                            : ValidationRow.ofShare(
                                    inside, PHANTOM, metal, fillInside, differences.length, withoutFill));
        }

        /** A row of surface, counted in discs of the smoothing's width; without a goal for null. */
        private ValidationRow share(
                String name, Material material, double hitsMm2, double ofMm2, ValidationRow.ShareGoal goal) {
            double width = MeasurementSettings.withDefaults().change().smoothingMm();
            double disc = 0.25 * Math.PI * width * width;
            int n = (int) Math.round(ofMm2 / disc);
            int hits = (int) Math.min(n, Math.round(hitsMm2 / disc));
            return goal == null
                    ? ValidationRow.ofShare(name, PHANTOM, words(material), hits, n, withoutMap)
                    : ValidationRow.ofShare(name, PHANTOM, words(material), hits, n, withoutMap, goal);
        }

        private static String words(Material material) {
            return material.word().replace('-', ' ');
        }
    }

    static FaceComparison.Compared measure(ChangeScene scene, MeasurementSettings settings) {
        // The axes are such that paraspinal muscle is looked for where the scene has its ball of muscle.
        FaceFrame frame = scene.before().face();
        PatientPoint origin = scene.muscle().along(frame.u(), -35).along(frame.v(), -45);
        Construct construct = SceneConstruct.of(scene.before().spec(), frame, scene.material(), origin);
        BoneInterface face = construct.interfaces().get(0);
        ContactByThreshold contact = new ContactByThreshold(construct, face, settings);
        FaceComparison comparison = new FaceComparison(construct, face, settings);
        ExamScan first = exam(scene, scene.before().scene(), scene.scanBefore(), RigidTransform.IDENTITY);
        ContactByThreshold.Measured reference = contact.measureReference(first);
        FaceComparison.Reference kept = comparison.keep(first, reference.contact());
        ExamScan later = exam(scene, scene.laterScene(), scene.scanAfter(), scene.givenPose());
        return comparison.compare(
                later, contact.measureFollowUp(later, reference.reference()).contact(), kept, Disturbance.none());
    }

    private static ExamScan exam(ChangeScene course, Scene scene, ScanSettings scan, RigidTransform pose) {
        PointSpread spread = course.statedSpread();
        return new ExamScan(
                "scene",
                "1.2.3",
                "00",
                ScanSimulator.scan(scene, scan, Progress.NONE),
                Acquisition.unknown(),
                new PointSpreadEstimate(
                        spread.sigmaInPlaneMm(), spread.sigmaAlongTableMm(), PointSpreadEstimate.Source.GIVEN),
                pose,
                ExamScan.PoseKind.NUDGED);
    }
}
