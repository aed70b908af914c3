package org.holdfast.validation;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.measure.Answer;
import org.holdfast.measure.ExamPoses;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.PoseFinder;
import org.holdfast.phantom.SpineScan;
import org.holdfast.phantom.SpineScene;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;

/**
 * The construct's pose against the truth of simulated subjects (analytic phantom), turned by up to 40° and shifted by up
 * to 100 mm against the reference exam: some unchanged, some with a broken rod, some with a vertebra that moved by 3 mm
 * and 5°; and exams of other subjects and of re-operated ones, which are to be refused.
 */
public final class RegistrationValidation {

    private static final double LARGEST_TURN_DEG = 40;
    private static final double MARGIN_MM = 6;
    /** A pose is right if every corner of the box round the implants lies so near to where it is, mm. */
    static final double RIGHT_MM = 0.5;

    private static final String PHANTOM = "analytic";
    private static final String METAL = "titanium";
    private static final long DRAW_STRIDE = 50_000;
    private static final long FIRST_SEED = 30_000;
    private static final int EXAMS_PER_SUBJECT = 4;

    private final List<Double> unchanged = new ArrayList<>();
    private final List<Double> changed = new ArrayList<>();
    private int refused;
    private int right;
    private int exams;
    private int others;
    private int othersRefused;

    private RegistrationValidation() {}

    /** Six subjects with four exams each, and as many exams of others. */
    public static List<ValidationRow> full(int draw, Progress progress) {
        return run(6, 1, draw, progress);
    }

    /** One subject with two exams, unchanged and with a vertebra moved, for a test suite. */
    public static List<ValidationRow> quick(int draw, Progress progress) {
        return run(1, 3, draw, progress);
    }

    /** @param every of a subject's exams only each so many-th is made */
    static List<ValidationRow> run(int subjects, int every, int draw, Progress progress) {
        RegistrationValidation validation = new RegistrationValidation();
        for (int n = 0; n < subjects; n++) {
            progress.stopIfCancelled();
            progress.report((double) n / subjects, "registration");
            validation.subject(n, every, FIRST_SEED + DRAW_STRIDE * draw + n);
        }
        return validation.rows();
    }

    private void subject(int number, int every, long seed) {
        SpineDraw draw = new SpineDraw(seed, MARGIN_MM);
        SpineScene scene = draw.scene();
        // The reference lies straight, so that an exam's own turn is the turn between the two.
        SpineScan first = draw.scan(0);
        HuVolume reference = first.of(scene, Progress.NONE);
        PoseFinder finder = PoseFinder.of(
                SpineScene.construct(first.sceneToExam()),
                reference,
                MeasurementSettings.withDefaults(),
                Progress.NONE);
        for (int exam = 0; exam < EXAMS_PER_SUBJECT; exam += every) {
            SpineScene now = changed(scene, exam, draw);
            SpineScan scan = draw.scan(LARGEST_TURN_DEG);
            Answer<ExamPoses> found = finder.find(scan.of(now, Progress.NONE), Optional.empty(), Progress.NONE);
            exams++;
            refused += found.value().isEmpty() ? 1 : 0;
            found.value().ifPresent(poses -> {
                double error = cornerErrorMm(first, scan, poses.construct().referenceToExam());
                right += error <= RIGHT_MM ? 1 : 0;
                (now.equals(scene) ? unchanged : changed).add(error);
            });
        }
        SpineScan scan = draw.scan(LARGEST_TURN_DEG);
        others++;
        othersRefused +=
                finder.find(scan.of(scene.built(other(number, draw)), Progress.NONE), Optional.empty(), Progress.NONE)
                                .value()
                                .isEmpty()
                        ? 1
                        : 0;
    }

    /** Unchanged twice, then with a broken rod, then with a vertebra that moved. */
    private static SpineScene changed(SpineScene scene, int exam, SpineDraw draw) {
        return switch (exam) {
            case 0, 1 -> scene;
            case 2 -> scene.withBrokenRod(1.5);
            default ->
                scene.moved(
                        draw.motion(3, 5, new PatientPoint(0, 10, 36)),
                        RigidTransform.IDENTITY,
                        RigidTransform.IDENTITY);
        };
    }

    /** Another build, by turns that of another patient and of a re-operation that took parts out. */
    private static SpineScene.Build other(int number, SpineDraw draw) {
        return switch (number % 3) {
            case 0 ->
                new SpineScene.Build(draw.between(0.80, 0.92), draw.between(1.08, 1.2), draw.between(0.9, 1.1), 4, 2);
            case 1 -> new SpineScene.Build(1, 1, 1, 2, 2);
            default -> new SpineScene.Build(1, 1, 1, 4, 1);
        };
    }

    /** The largest distance of a corner of the box round the implants from where it is, mm. */
    private static double cornerErrorMm(SpineScan first, SpineScan scan, RigidTransform referenceToExam) {
        List<PatientPoint> corners = SpineScene.metalCorners();
        double worst = 0;
        for (int corner = 0; corner < 8; corner++) {
            PatientPoint p = new PatientPoint(
                    corners.get(corner & 1).x(),
                    corners.get(corner >> 1 & 1).y(),
                    corners.get(corner >> 2 & 1).z());
            PatientPoint there = referenceToExam.apply(first.sceneToExam().apply(p));
            worst = Math.max(worst, there.distanceTo(scan.sceneToExam().apply(p)));
        }
        return worst;
    }

    private List<ValidationRow> rows() {
        return List.of(
                ValidationRow.of(
                        "corner error (mm), nothing moved", PHANTOM, METAL, array(unchanged), 0, Optional.empty()),
                ValidationRow.of(
                        "corner error (mm), a rod broken or a vertebra moved",
                        PHANTOM,
                        METAL,
                        array(changed),
                        0,
                        Optional.empty()),
                ValidationRow.ofShare(
                        "poses right within 0.5 mm, to 40° and 100 mm",
                        PHANTOM,
                        METAL,
                        right,
                        exams,
                        0,
                        ValidationRow.ShareGoal.atLeast(1)),
                ValidationRow.ofShare(
                        "wrong poses given instead of a refusal",
                        PHANTOM,
                        METAL,
                        exams - refused - right,
                        exams,
                        refused,
                        ValidationRow.ShareGoal.atMost(0)),
                ValidationRow.ofShare(
                        "other or re-operated subjects refused",
                        PHANTOM,
                        METAL,
                        othersRefused,
                        others,
                        0,
                        ValidationRow.ShareGoal.atLeast(1)));
    }

    private static double[] array(List<Double> values) {
        return values.stream().mapToDouble(d -> d).toArray();
    }
}
