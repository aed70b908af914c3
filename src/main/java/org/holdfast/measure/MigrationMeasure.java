package org.holdfast.measure;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import org.holdfast.construct.Axes;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.ConstructPart;
import org.holdfast.construct.Patch;
import org.holdfast.construct.PatchSample;
import org.holdfast.construct.ScrewShape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;

/**
 * Migration: a component in its bone's frame. With P the component's pose and B the bone's, both from the reference exam
 * to the exam, the motion is M = B⁻¹ ∘ P, which carries a point of the component from where it was in the bone to where it
 * is now, in patient space of the reference exam.
 *
 * <p>Told along the construct's axes: translation M(c) − c of the component's middle c (left, posterior, cranial positive)
 * and the rotation vector of M (right-handed, degrees). Into the bone: mean over the interface's area of (M(p) − p) · n, n
 * from implant to bone, so that subsidence is positive whichever way the bone lies. Immutable.
 */
public final class MigrationMeasure {

    /** An interface is sampled so densely, mm; of a plane any spacing gives the same mean. */
    private static final double SAMPLE_SPACING_MM = 1;

    /** A screw whose projection on the sagittal plane is shorter than this share of it has no angle there. */
    private static final double SHORTEST_PROJECTION = 0.3;

    private final Construct construct;
    private final MotionSettings settings;

    /**
     * @param construct parts, bones, interfaces and axes
     * @param settings repeatability, where it is known for this scanner
     */
    public MigrationMeasure(Construct construct, MotionSettings settings) {
        this.construct = Objects.requireNonNull(construct, "construct");
        this.settings = Objects.requireNonNull(settings, "settings");
    }

    /**
     * The migration of a component, one result a bone that it belongs to (a screw's bone, the bones of a body's
     * interfaces), in the construct's order of bones; none for a part that belongs to no bone.
     *
     * @param componentId id of a component of the construct
     * @param poses where its parts and bones lie in the exam
     */
    public List<Migration> of(String componentId, ExamPoses poses) {
        Component component = construct.component(componentId);
        Set<String> bones = bonesOf(component);
        List<Migration> results = new ArrayList<>();
        construct.bones().stream()
                .map(bone -> bone.id())
                .filter(bones::contains)
                .forEach(bone -> results.add(new Migration(bone, motion(component, bone, poses))));
        return List.copyOf(results);
    }

    private Set<String> bonesOf(Component component) {
        Set<String> bones = new LinkedHashSet<>();
        if (component.shape() instanceof ScrewShape screw) {
            bones.add(screw.bone());
        }
        construct.interfaces().stream()
                .filter(face -> face.component().equals(component.id()))
                .forEach(face -> bones.add(face.bone()));
        return bones;
    }

    private Answer<Migration.Motion> motion(Component component, String bone, ExamPoses poses) {
        Answer<ExamPoses.PartPose> part = poses.parts().get(component.id());
        if (part == null || part.value().isEmpty()) {
            return Answer.not("the part's own pose is not known" + (part == null ? "" : ": " + part.why()));
        }
        Answer<FoundPose> found = poses.bones().get(bone);
        if (found == null || found.value().isEmpty()) {
            return Answer.not("the bone's pose is not known" + (found == null ? "" : ": " + found.why()));
        }
        RigidTransform inBone = inBone(
                part.value().get().pose().referenceToExam(), found.value().get().referenceToExam());
        return Answer.of(motion(component, bone, inBone));
    }

    /** From where a point of the part was in the bone to where it is now, both in the reference exam's space. */
    static RigidTransform inBone(RigidTransform partReferenceToExam, RigidTransform boneReferenceToExam) {
        return partReferenceToExam.then(boneReferenceToExam.inverse());
    }

    /** The motion of a component against a bone, from its transform in that bone's frame. */
    Migration.Motion motion(Component component, String bone, RigidTransform inBone) {
        Axes axes = construct.axes();
        PatientPoint middle = middleOf(component);
        PatientVector translation = alongAxes(axes, inBone.apply(middle).minus(middle));
        PatientVector rotation = alongAxes(axes, withoutSpin(component, inBone.rotationVectorDeg()));
        Repeatability repeatability = Repeatability.of(component.kind().family(), settings);
        return new Migration.Motion(
                translation,
                rotation,
                intoBone(component, bone, inBone),
                screwAngleChange(component, inBone),
                repeatability.translationMm(),
                repeatability.rotationDeg(),
                repeatability.source(),
                repeatability.covers(translation, rotation));
    }

    /** A round shank looks the same however it is spun about its axis: that part of a rotation says nothing. */
    private static PatientVector withoutSpin(Component component, PatientVector rotationDeg) {
        if (component.shape() instanceof ScrewShape screw) {
            PatientVector axis = screw.direction();
            return rotationDeg.minus(axis.times(rotationDeg.dot(axis)));
        }
        return rotationDeg;
    }

    private PatientPoint middleOf(Component component) {
        return ConstructPart.of(construct).stream()
                .filter(part -> part.id().equals(component.id()))
                .findFirst()
                .orElseThrow()
                .frame()
                .middle();
    }

    private static PatientVector alongAxes(Axes axes, PatientVector v) {
        return new PatientVector(v.dot(axes.left()), v.dot(axes.posterior()), v.dot(axes.cranial()));
    }

    private Stated intoBone(Component component, String bone, RigidTransform inBone) {
        double sum = 0;
        double area = 0;
        for (BoneInterface face : construct.interfaces()) {
            if (face.component().equals(component.id()) && face.bone().equals(bone)) {
                for (Patch patch : face.patches()) {
                    for (PatchSample sample : patch.samples(SAMPLE_SPACING_MM)) {
                        PatientVector moved = inBone.apply(sample.point()).minus(sample.point());
                        sum += sample.areaMm2() * moved.dot(sample.normal());
                        area += sample.areaMm2();
                    }
                }
            }
        }
        return area > 0 ? Stated.of(sum / area) : Stated.not("the part has no interface with this bone");
    }

    /**
     * Change of the angle of the projection of head → tip on the sagittal plane (posterior, cranial), right-handed about
     * the left axis, degrees: positive where the tip of a screw that points forward comes down against its bone.
     */
    private Stated screwAngleChange(Component component, RigidTransform inBone) {
        if (!(component.shape() instanceof ScrewShape screw)) {
            return Stated.not("not a screw");
        }
        PatientVector before = alongAxes(construct.axes(), screw.direction());
        PatientVector after = alongAxes(construct.axes(), inBone.apply(screw.direction()));
        if (Math.min(sagittalLength(before), sagittalLength(after)) < SHORTEST_PROJECTION) {
            return Stated.not(String.format(
                    Locale.ROOT,
                    "the screw lies too far across the sagittal plane (%.2f of its length projects on it)",
                    sagittalLength(before)));
        }
        double cross = before.y() * after.z() - before.z() * after.y();
        double dot = before.y() * after.y() + before.z() * after.z();
        return Stated.of(Math.toDegrees(Math.atan2(cross, dot)));
    }

    private static double sagittalLength(PatientVector alongAxes) {
        return Math.hypot(alongAxes.y(), alongAxes.z());
    }
}
