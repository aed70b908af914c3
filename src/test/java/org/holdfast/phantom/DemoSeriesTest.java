package org.holdfast.phantom;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.stream.Stream;
import org.holdfast.construct.BoxShape;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.ConstructJson;
import org.holdfast.construct.PatchSample;
import org.holdfast.construct.ScrewShape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.junit.jupiter.api.Test;

/** The demo subject: the story that was asked for, and its construct against its scene. */
class DemoSeriesTest {

    private static final DemoSeries SERIES = new DemoSeries(DemoSeries.Size.FULL);
    private static final DemoTruth TRUTH = SERIES.truth();
    private static final Construct CONSTRUCT = SERIES.construct();
    private static final double WALK_MM = 2e-4;

    @Test
    void cranialContactGrowsToTwoThirds() {
        List<Double> contact = TRUTH.exams().stream()
                .map(exam -> exam.interfaces().get(0).contactShare())
                .toList();
        // By hand: 5, 9, 13, 17, 20 of 30 equal areas.
        double[] expected = {5 / 30.0, 9 / 30.0, 13 / 30.0, 17 / 30.0, 20 / 30.0};
        for (int n = 0; n < expected.length; n++) {
            assertEquals(expected[n], contact.get(n), 1e-9);
        }
    }

    @Test
    void caudalFaceStaysOpen() {
        for (DemoTruth.ExamTruth exam : TRUTH.exams()) {
            DemoTruth.InterfaceTruth face = exam.interfaces().get(1);
            // By hand: the story asks for gaps of 1.2 to 2.5 mm.
            assertTrue(face.gaps().narrowestMm() >= 1.2 - WALK_MM, exam.label());
            assertTrue(face.widestGapMm() <= 2.5 + WALK_MM, exam.label());
        }
    }

    @Test
    void truthReadFromScenesIsWhatTheStoryLaidOut() {
        for (DemoStage stage : DemoStage.values()) {
            DemoTruth.ExamTruth exam = TRUTH.exams().get(stage.ordinal());
            assertSamePattern(
                    stage.cranialGaps(DemoParts.CRANIAL_FACE),
                    exam.interfaces().get(0).gaps());
            assertSamePattern(
                    stage.caudalGaps(DemoParts.CAUDAL_FACE),
                    exam.interfaces().get(1).gaps());
            for (DemoTruth.ScrewTruth screw : exam.screws()) {
                double expected = screw.id().equals("screw-l2-left") ? stage.zoneMm : 0;
                assertEquals(expected, screw.meanZoneMm(), WALK_MM, stage + " " + screw);
                assertEquals(expected, screw.widestZoneMm(), WALK_MM, stage + " " + screw);
            }
            assertEquals(stage.settledMm, exam.migration().get(1).intoBoneMm(), 1e-12);
            assertEquals(0, exam.migration().get(0).intoBoneMm());
        }
    }

    @Test
    void screwBreaksByTwelveMonthsAndOtherRodByTwentyFour() {
        List<List<String>> broken = TRUTH.exams().stream()
                .map(exam -> exam.breaks().stream()
                        .map(DemoTruth.BreakTruth::component)
                        .toList())
                .toList();
        assertEquals(
                List.of(
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of("screw-l2-left"),
                        List.of("screw-l2-left", "rod-right")),
                broken);
        // By hand: the story asks for a screw break of 0.8 mm.
        assertEquals(0.8, TRUTH.exams().get(3).breaks().get(0).gapAlongAxisMm(), WALK_MM);
        assertEquals(0.8, TRUTH.exams().get(4).breaks().get(0).gapAlongAxisMm(), WALK_MM);
        assertEquals(1.0, TRUTH.exams().get(4).breaks().get(1).gapAlongAxisMm(), WALK_MM);
    }

    @Test
    void constructLiesWhereTheSceneIsAtTheReferenceExam() {
        Scene scene = DemoScene.of(DemoStage.SURGERY)
                .moved(DemoScan.of(DemoStage.SURGERY, DemoSeries.Size.FULL).sceneToExam());
        for (Component component : CONSTRUCT.components()) {
            String name = component.shape() instanceof BoxShape ? "body" : component.id();
            Body body = scene.bodies().stream()
                    .filter(b -> b.name().equals(name))
                    .findFirst()
                    .orElseThrow();
            PatientPoint middle = middle(component);
            for (PatientVector direction : directions()) {
                for (double at = 0; at < 25; at += 0.37) {
                    PatientPoint p = middle.along(direction, at);
                    double laidOut = component.shape().signedDistanceMm(p);
                    double painted = body.solid()
                            .signedDistanceMm(scene.placement().inverse().apply(p));
                    if (Math.abs(laidOut) > 0.01) {
                        assertEquals(laidOut < 0, painted < 0, component.id() + " at " + p);
                    }
                }
            }
        }
    }

    @Test
    void facesOfConstructLieOnTheImplantAndPointToBone() {
        Scene scene = DemoScene.of(DemoStage.SURGERY)
                .moved(DemoScan.of(DemoStage.SURGERY, DemoSeries.Size.FULL).sceneToExam());
        CONSTRUCT.interfaces().forEach(face -> {
            for (PatchSample sample : face.patches().get(0).samples(2)) {
                assertEquals("body", name(scene, sample.point().along(sample.normal(), -0.01)));
                assertTrue(!name(scene, sample.point().along(sample.normal(), 0.01))
                        .equals("body"));
                String deep = name(scene, sample.point().along(sample.normal(), 4.5));
                assertEquals(face.bone().equals("t12") ? "T12" : "L2", deep);
            }
        });
    }

    @Test
    void screwsLieInBoneAlongTheirStretch() {
        for (Component component : CONSTRUCT.components()) {
            if (component.shape() instanceof ScrewShape screw) {
                assertTrue(screw.inBoneFromMm() < 5, component.id() + " enters at " + screw.inBoneFromMm());
                assertTrue(screw.inBoneToMm() > 40, component.id() + " leaves at " + screw.inBoneToMm());
            }
        }
    }

    @Test
    void constructReadsBackAsWritten() throws Exception {
        assertEquals(CONSTRUCT, ConstructJson.parse(ConstructJson.write(CONSTRUCT), "demo"));
    }

    @Test
    void examsHaveTheirDatesPosesAndGrids() {
        List<Long> days = SERIES.exams().stream()
                .map(exam -> ChronoUnit.DAYS.between(SERIES.surgeryDate(), exam.date()))
                .toList();
        // By hand: round(days / 30.4375) = 0, 3, 6, 12, 24.
        assertEquals(
                List.of(0L, 3L, 6L, 12L, 24L),
                days.stream().map(d -> Math.round(d / 30.4375)).toList());
        assertEquals(
                5,
                Stream.of(DemoStage.values())
                        .map(stage -> DemoScan.of(stage, DemoSeries.Size.FULL)
                                .settings()
                                .grid()
                                .sliceOrigin(0))
                        .distinct()
                        .count());
        // By hand: the twelve-month exam has a gantry tilt of 12°.
        assertEquals(
                12,
                DemoScan.of(DemoStage.MONTH_12, DemoSeries.Size.FULL)
                        .settings()
                        .grid()
                        .shearDeg(),
                1e-9);
        assertEquals(0, TRUTH.exams().get(0).referenceToExam().rotationAngleDeg(), 1e-9);
        for (int n = 1; n < 5; n++) {
            double angle = TRUTH.exams().get(n).referenceToExam().rotationAngleDeg();
            assertTrue(angle > 2 && angle < 15, "turned by " + angle);
        }
    }

    private static void assertSamePattern(GapPattern expected, GapPattern actual) {
        for (int a = 0; a < expected.gapsMm().length; a++) {
            for (int b = 0; b < expected.gapsMm()[a].length; b++) {
                assertEquals(expected.gapsMm()[a][b], actual.gapsMm()[a][b], WALK_MM);
            }
        }
    }

    private static String name(Scene scene, PatientPoint p) {
        return scene.bodyAt(p).map(Body::name).orElse("");
    }

    private static PatientPoint middle(Component component) {
        if (component.shape() instanceof ScrewShape screw) {
            return screw.head().towards(screw.tip(), 0.5);
        }
        if (component.shape() instanceof org.holdfast.construct.RodShape rod) {
            return rod.points().get(0).towards(rod.points().get(1), 0.5);
        }
        return ((BoxShape) component.shape()).centre();
    }

    private static List<PatientVector> directions() {
        return List.of(
                new PatientVector(1, 0, 0),
                new PatientVector(0, 1, 0),
                new PatientVector(0, 0, 1),
                new PatientVector(-0.6, 0.8, 0),
                new PatientVector(0, -0.6, -0.8));
    }
}
