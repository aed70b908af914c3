package org.holdfast.validation;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.holdfast.construct.Axes;
import org.holdfast.construct.Bone;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.BoxShape;
import org.holdfast.construct.Component;
import org.holdfast.construct.ComponentKind;
import org.holdfast.construct.Construct;
import org.holdfast.construct.Filler;
import org.holdfast.construct.Material;
import org.holdfast.construct.PlanePatch;
import org.holdfast.construct.Porous;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.measure.ContactByThreshold;
import org.holdfast.measure.Disturbance;
import org.holdfast.measure.ExamScan;
import org.holdfast.measure.FaceComparison;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.PointSpreadEstimate;
import org.holdfast.phantom.FaceFrame;
import org.holdfast.phantom.InterfaceSpec;
import org.holdfast.phantom.PointSpread;
import org.holdfast.phantom.ScanSettings;
import org.holdfast.phantom.ScanSimulator;
import org.holdfast.phantom.Scene;
import org.holdfast.progress.Progress;
import org.holdfast.volume.Acquisition;

public final class ChangeValidation {

    private ChangeValidation() {}

    static FaceComparison.Compared measure(ChangeScene scene, MeasurementSettings settings) {
        Construct construct = constructOf(scene);
        BoneInterface face = construct.interfaces().get(0);
        ContactByThreshold contact = new ContactByThreshold(construct, face, settings);
        FaceComparison comparison = new FaceComparison(construct, face, settings);
        ExamScan first = exam(scene.before().scene(), scene.scanBefore(), RigidTransform.IDENTITY);
        ContactByThreshold.Measured reference = contact.measureReference(first);
        FaceComparison.Reference kept = comparison.keep(first, reference.contact());
        ExamScan later = exam(scene.laterScene(), scene.scanAfter(), scene.givenPose());
        return comparison.compare(
                later, contact.measureFollowUp(later, reference.reference()).contact(), kept, Disturbance.none());
    }

    private static ExamScan exam(Scene scene, ScanSettings scan, RigidTransform pose) {
        PointSpread spread = scan.pointSpread();
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

    private static Construct constructOf(ChangeScene scene) {
        InterfaceSpec spec = scene.before().spec();
        FaceFrame face = scene.before().face();
        LocalDate day = LocalDate.of(2030, 1, 1);
        Component body = new Component(
                "body",
                1,
                "body",
                ComponentKind.VERTEBRAL_BODY,
                Material.TITANIUM_POROUS,
                day,
                Optional.empty(),
                Optional.of(new Porous(ChangeScene.POROSITY, spec.implant().porousDepthMm())),
                new BoxShape(
                        face.centre().along(face.normal(), -0.5 * spec.size().thicknessMm()),
                        List.of(face.u(), face.v(), face.normal()),
                        List.of(
                                spec.size().halfUMm(),
                                spec.size().halfVMm(),
                                0.5 * spec.size().thicknessMm())));
        PlanePatch patch = new PlanePatch(
                PlanePatch.Outline.RECTANGLE,
                face.centre(),
                face.u(),
                face.v(),
                face.normal(),
                face.halfUMm(),
                face.halfVMm());
        // The axes are such that paraspinal muscle is looked for where the scene has its ball of muscle.
        PatientPoint origin = scene.muscle().along(face.u(), -35).along(face.v(), -45);
        return new Construct(
                "scene",
                1,
                day,
                "1.2.3",
                "1.2.4",
                new Axes(origin, face.u(), face.v(), face.normal()),
                List.of(new Bone("host", "host bone")),
                List.of(body),
                List.of(),
                List.of(new BoneInterface("face", 1, "face", "body", "host", Filler.NONE, List.of(patch))));
    }
}
