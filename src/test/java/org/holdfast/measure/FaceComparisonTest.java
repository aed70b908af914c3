package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdfast.construct.Construct;
import org.holdfast.construct.Filler;
import org.holdfast.construct.Material;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.Acquisition.Known;
import org.junit.jupiter.api.Test;

/** Change map and porous fill on layers in closed form, without noise. */
class FaceComparisonTest {

    private static final LayerColumn CONTACT = new LayerColumn(7000, 2100, 0, 260);
    private static final LayerColumn GAP = new LayerColumn(7000, 2100, 4, 260);
    private static final Construct CONSTRUCT =
            new LayeredFace(new ProfileModel(2100, 30, 260, 0.8, 260, LayerColumn.SIGMA_MM)).construct;

    private static InterfaceExam second(ExamScan first, ExamScan second, Disturbance disturbance) {
        InterfaceCourse course =
                new InterfaceCourse(CONSTRUCT, CONSTRUCT.interfaces().get(0), MeasurementSettings.withDefaults());
        course.measure(first);
        return course.measure(second, disturbance);
    }

    private static InterfaceExam second(ExamScan first, ExamScan second) {
        return second(first, second, Disturbance.none());
    }

    private static Acquisition made(Known artefactReduction) {
        return Acquisitions.of(Optional.empty(), artefactReduction, Known.UNKNOWN);
    }

    @Test
    void theReferenceExamIsComparedWithNothing() {
        InterfaceCourse course =
                new InterfaceCourse(CONSTRUCT, CONSTRUCT.interfaces().get(0), MeasurementSettings.withDefaults());
        InterfaceExam first = course.measure(CONTACT.exam("a"));
        assertEquals(
                "this is the exam that others are compared with", first.change().why());
        assertTrue(first.fill().value().value().isEmpty());
    }

    @Test
    void nothingChangedIsNoChange() {
        ChangeMap map =
                second(CONTACT.exam("a"), CONTACT.exam("b")).change().value().orElseThrow();
        // By hand: equal volumes, every difference is 0.
        assertEquals(1, map.none(), 1e-9);
        // Phantom: 2 · Φ(−1.96) = 0.05.
        assertEquals(0.05, map.byChance(), 1e-4);
    }

    @Test
    void boneThatWentIsLessWhereItWent() {
        ExamScan later = CONTACT.exam(GAP, 1, "b", Acquisition.unknown(), RigidTransform.IDENTITY);
        ChangeMap map = second(CONTACT.exam("a"), later).change().value().orElseThrow();
        // By hand: x > −0.25 mm, between two voxels, is 8.25 of 16 mm; the border is known to half a sample of 0.5 mm.
        assertEquals(8.25 / 16, map.less(), 0.02);
        // By hand: the rest.
        assertEquals(7.75 / 16, map.none(), 0.02);
        ChangeReading inside = map.readings().stream()
                .filter(r -> r.sample().uMm() > 4 && Math.abs(r.sample().vMm()) < 4)
                .findFirst()
                .orElseThrow();
        // Phantom: fluid instead of bone over the whole window, 30 − 260 HU; blur leaves under 2 HU.
        assertEquals(-230, inside.differenceHu().orElseThrow(), 2);
        // By hand: less, none and not comparable are the whole.
        assertEquals(1, map.less() + map.none() + map.more() + map.notComparable(), 1e-9);
    }

    @Test
    void anotherProtocolForbidsBoth() {
        ExamScan first = CONTACT.exam(CONTACT, 1, "a", made(Known.NO), RigidTransform.IDENTITY);
        Acquisition other = new Acquisition(
                Optional.empty(),
                java.util.OptionalDouble.of(80),
                "",
                "",
                java.util.OptionalDouble.empty(),
                java.util.OptionalDouble.empty(),
                Known.UNKNOWN,
                Known.NO,
                java.util.OptionalDouble.empty(),
                "",
                "",
                "",
                Known.UNKNOWN,
                Optional.empty());
        Acquisition usual = new Acquisition(
                Optional.empty(),
                java.util.OptionalDouble.of(120),
                "",
                "",
                java.util.OptionalDouble.empty(),
                java.util.OptionalDouble.empty(),
                Known.UNKNOWN,
                Known.NO,
                java.util.OptionalDouble.empty(),
                "",
                "",
                "",
                Known.UNKNOWN,
                Optional.empty());
        InterfaceExam exam = second(
                CONTACT.exam(CONTACT, 1, "a", usual, RigidTransform.IDENTITY),
                CONTACT.exam(CONTACT, 1, "b", other, RigidTransform.IDENTITY));
        assertTrue(
                exam.change().why().contains("Tube voltage: 120 kV on the reference exam, 80 kV"),
                exam.change().why());
        assertEquals(exam.change().why(), exam.fill().value().why());
        assertTrue(second(first, CONTACT.exam("b")).change().value().isPresent(), "what is unknown does not forbid");
    }

    @Test
    void aTurnOfOverFiveDegreesForbidsTheMap() {
        RigidTransform turn = RigidTransform.rotation(PatientVector.CRANIAL, 6, PatientPoint.ORIGIN);
        InterfaceExam exam = second(CONTACT.exam("a"), CONTACT.exam(CONTACT, 1, "b", Acquisition.unknown(), turn));
        assertTrue(exam.change().why().contains("turned by 6.0°"), exam.change().why());
        RigidTransform less = RigidTransform.rotation(PatientVector.CRANIAL, 4, PatientPoint.ORIGIN);
        assertTrue(second(CONTACT.exam("a"), CONTACT.exam(CONTACT, 1, "b", Acquisition.unknown(), less))
                .change()
                .value()
                .isPresent());
    }

    @Test
    void nothingIsComparedNearABreak() {
        Continuity.Break seen = new Continuity.Break(
                0,
                new PatientPoint(12, 0, 0),
                Stated.of(1),
                Stated.not("cut's tilt not fitted"),
                Stated.of(0),
                Stated.of(0),
                false,
                Continuity.Status.CONFIRMED);
        Continuity broken = new Continuity(
                List.of(seen), Stated.of(0.5), Optional.empty(), false, Stated.of(7000), false, List.of());
        ExamPoses poses = ExamPoses.given(RigidTransform.IDENTITY, ExamScan.PoseKind.NUDGED, "given");
        Disturbance near = Disturbance.of(
                CONSTRUCT, CONSTRUCT.components().get(0), poses, List.of(broken), MeasurementSettings.withDefaults());
        ChangeMap map = second(CONTACT.exam("a"), CONTACT.exam("b"), near)
                .change()
                .value()
                .orElseThrow();
        // Phantom: within 15 mm of (12, 0): the part of the square of 16 mm with u > 12 − √(225 − v²) for |v| < 8.
        double covered = 0;
        for (double v = -7.995; v < 8; v += 0.01) {
            covered += 0.01 * Math.min(16, 8 - (12 - Math.sqrt(225 - v * v)));
        }
        assertEquals(covered / 256, map.notComparable(), 0.01);
    }

    @Test
    void aPartThatMovedIsNotCompared() {
        FoundPose pose = FoundPose.given(RigidTransform.IDENTITY, ExamScan.PoseKind.REGISTERED, "given");
        ExamPoses poses = new ExamPoses(
                pose, List.of(), Map.of("body", Answer.of(new ExamPoses.PartPose(pose, 0.4, 0.1))), Map.of());
        Disturbance moved = Disturbance.of(
                CONSTRUCT, CONSTRUCT.components().get(0), poses, List.of(), MeasurementSettings.withDefaults());
        InterfaceExam exam = second(CONTACT.exam("a"), CONTACT.exam("b"), moved);
        assertEquals(
                "vertebral body moved by 0.40 mm and 0.10° within the construct: streaks are others",
                exam.change().why());
    }

    @Test
    void filledPoresAreStatedWithTheirDrift() {
        // By hand: 0.3 of the pores filled with bone of 260 HU raise the layer by 0.3 · 0.7 · (260 − 30) = 48.3 HU.
        LayerColumn filled = new LayerColumn(7000, 2148.3, 0, 260);
        PorousFill fill = second(CONTACT.exam("a"), filled.exam("b")).fill();
        // Phantom: as above; interpolation between voxels of 0.5 mm and rounded HU leave under 0.01.
        assertEquals(0.3, fill.value().value().orElseThrow(), 0.01);
        // By hand: the core did not change.
        assertEquals(0, fill.driftHu().value().orElseThrow(), 0.5);
        assertEquals("solid core of vertebral body", fill.reference());
        PorousFill brighter = second(
                        CONTACT.exam("a"),
                        CONTACT.exam(CONTACT, 1.01, "b", Acquisition.unknown(), RigidTransform.IDENTITY))
                .fill();
        // By hand: every HU 1 % up is 21 HU in the layer, which are taken off.
        assertEquals(21, brighter.driftHu().value().orElseThrow(), 0.5);
        // By hand: nothing filled; the bone's own 1 % changes the figure by less than 0.01.
        assertEquals(0, brighter.value().value().orElseThrow(), 0.01);
    }

    @Test
    void neitherPoseNorBoneOutsideFillsPores() {
        RigidTransform off = RigidTransform.translation(new PatientVector(0, 0, 0.05));
        PorousFill shifted = second(CONTACT.exam("a"), CONTACT.exam(CONTACT, 1, "b", Acquisition.unknown(), off))
                .fill();
        // Phantom: nothing changed; a shift of 0.05 mm over a core's flank of 4900 HU would else read 0.2.
        assertEquals(0, shifted.value().value().orElseThrow(), 0.02);
        PorousFill receded = second(CONTACT.exam("a"), GAP.exam("b")).fill();
        // Fluid now lies where bone touched, and the host bone of 3 to 8 mm begins at 4 mm.
        assertEquals(0, receded.value().value().orElseThrow(), 0.02);
    }

    @Test
    void fillIsNotStatedWithoutLayerOrReference() {
        Construct solid = new LayeredFace(
                        new ProfileModel(7000, 30, 260, 0.8, 260, LayerColumn.SIGMA_MM),
                        Filler.NONE,
                        Material.TITANIUM_SOLID)
                .construct;
        LayerColumn metal = new LayerColumn(7000, 7000, 0, 260);
        InterfaceCourse course =
                new InterfaceCourse(solid, solid.interfaces().get(0), MeasurementSettings.withDefaults());
        course.measure(metal.exam("a"));
        assertEquals(
                "vertebral body has no porous layer",
                course.measure(metal.exam("b")).fill().value().why());
        LayerColumn soft = new LayerColumn(7000, 2100, 0, 50);
        String why = second(soft.exam("a"), soft.exam("b")).fill().value().why();
        assertTrue(why.contains("too near to fluid"), why);
    }
}
