package org.holdfast.measure;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.holdfast.construct.Bone;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.ScrewShape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.progress.Progress;
import org.holdfast.registration.IntensityRegistration;
import org.holdfast.registration.IntensitySettings;
import org.holdfast.registration.PoseResult;
import org.holdfast.volume.HuVolume;

/**
 * Poses of the bones of a construct in one exam, by their own voxels; the metal of both exams and what lies within the
 * margin of it is left out. A bone is first looked for where its screws are, then where the construct has it. Immutable.
 */
final class BonePoses {

    /** A bone may lie so far from where it is expected, mm; the metal of the exam is marked so far round it. */
    private static final double SLACK_MM = 15;

    private final Construct construct;
    private final HuVolume reference;
    private final MeasurementSettings settings;
    private final List<Component> parts;
    private final Map<String, List<PatientPoint>> regions;
    private final MetalSurroundings referenceMetal;

    BonePoses(Construct construct, HuVolume reference, MeasurementSettings settings) {
        this.construct = construct;
        this.reference = reference;
        this.settings = settings;
        this.parts = PartSurfaces.measurable(construct);
        Map<String, List<PatientPoint>> around =
                BoneRegion.of(construct, reference, settings.motion().boneReachMm());
        List<PatientPoint> all = all(around);
        this.referenceMetal = all.isEmpty()
                ? null
                : MetalSurroundings.of(
                        reference,
                        MetalSurroundings.boxRound(all, 1),
                        p -> MetalSurroundings.isInside(parts, p),
                        settings,
                        Progress.NONE);
        this.regions = new HashMap<>();
        around.forEach((bone, places) -> regions.put(
                bone, places.stream().filter(p -> !referenceMetal.holds(p)).toList()));
    }

    private static List<PatientPoint> all(Map<String, List<PatientPoint>> regions) {
        return regions.values().stream().flatMap(List::stream).toList();
    }

    /** The pose of each bone by id, or why it was not found. */
    Map<String, Answer<FoundPose>> find(HuVolume exam, RigidTransform whole, PartPoses.Found found, Progress progress) {
        Map<String, Answer<FoundPose>> answers = new LinkedHashMap<>();
        if (referenceMetal == null) {
            construct.bones().forEach(bone -> answers.put(bone.id(), Answer.not(NOT_PLACED)));
            return answers;
        }
        MetalSurroundings examMetal = examMetal(exam, whole, found, progress.part(0, 0.2));
        IntensityRegistration registration =
                new IntensityRegistration(reference, referenceMetal::holds, exam, examMetal::holds);
        for (Bone bone : construct.bones()) {
            progress.stopIfCancelled();
            answers.put(bone.id(), find(bone, registration, whole, found, progress.part(0.2, 1)));
        }
        return answers;
    }

    private static final String NOT_PLACED = "the construct has neither an interface nor a screw in this bone";

    private Answer<FoundPose> find(
            Bone bone,
            IntensityRegistration registration,
            RigidTransform whole,
            PartPoses.Found found,
            Progress progress) {
        List<PatientPoint> region = regions.get(bone.id());
        if (region.isEmpty()) {
            return Answer.not(NOT_PLACED);
        }
        RigidTransform start = ofScrews(bone, whole, found);
        PoseResult result = registration.register(region, start, IntensitySettings.withDefaults(), progress);
        if (result.found().isEmpty() && !start.equals(whole)) {
            result = registration.register(region, whole, IntensitySettings.withDefaults(), progress);
        }
        return result instanceof PoseResult.Refused refused
                ? Answer.not(refused.reason())
                : Answer.of(PoseFinder.found(result.found().orElseThrow()));
    }

    /** Pose of the group that holds most of a bone's screws; the construct's where there is none. */
    private RigidTransform ofScrews(Bone bone, RigidTransform whole, PartPoses.Found found) {
        RigidTransform best = whole;
        long most = 0;
        for (RigidGroups.Group group : found.groups()) {
            long count = group.ids().stream()
                    .filter(id -> construct.component(id).shape() instanceof ScrewShape screw
                            && screw.bone().equals(bone.id()))
                    .count();
            if (count > most) {
                most = count;
                best = group.pose();
            }
        }
        return best;
    }

    private MetalSurroundings examMetal(HuVolume exam, RigidTransform whole, PartPoses.Found found, Progress progress) {
        List<PatientPoint> places = all(regions).stream().map(whole::apply).toList();
        Map<Component, RigidTransform> examToReference = new HashMap<>();
        for (Component part : parts) {
            RigidTransform pose = found.parts()
                    .get(part.id())
                    .value()
                    .map(p -> p.pose().referenceToExam())
                    .orElse(whole);
            examToReference.put(part, pose.inverse());
        }
        return MetalSurroundings.of(
                exam,
                MetalSurroundings.boxRound(places, SLACK_MM),
                p -> parts.stream()
                        .anyMatch(part -> part.shape()
                                        .signedDistanceMm(
                                                examToReference.get(part).apply(p))
                                <= 0),
                settings,
                progress);
    }
}
