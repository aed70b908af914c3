package org.holdfast.measure;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.progress.Progress;
import org.holdfast.registration.EdgeRefinement;
import org.holdfast.registration.EdgeSettings;
import org.holdfast.registration.PoseResult;
import org.holdfast.registration.SurfaceMatch;
import org.holdfast.registration.SurfacePoints;
import org.holdfast.volume.HuVolume;

/**
 * Poses of the parts of a construct in one exam: each part by itself first, then the groups of parts that agree, then each
 * part again from its group's pose, within the limits of the settings. Safe to share between threads.
 */
final class PartPoses {

    /** By itself, before its group is known, a part may lie so many times the limits from the construct's pose. */
    private static final double ALONE = 2;

    /** Fewer points of surface do not give a part a pose. */
    private static final int FEWEST_POINTS = 60;

    private static final int GROUP_POINTS = 5000;

    /**
     * A motion of a part shows if more than this share of it lies along the normals: the flat end of a screw's shank is 3 %
     * of its surface and shows that it slides; normals that err by 5° make up 0.8 %, and must not seem to show its spin.
     */
    private static final double LEAST_SHARE = 0.02;

    private final Construct construct;
    /** From starts as far off as the limits. */
    private final EdgeRefinement search;
    /** From starts within a part's error; an open motion stays exactly as it started. */
    private final EdgeRefinement refinement;

    private final MotionSettings settings;

    PartPoses(Construct construct, HuVolume reference, HuVolume exam, SurfaceMatch examMetal, MotionSettings settings) {
        this.construct = construct;
        this.search = EdgeRefinement.from(reference, exam, examMetal);
        this.refinement = EdgeRefinement.near(reference, exam);
        this.settings = settings;
    }

    /**
     * Poses of the parts.
     *
     * @param groups parts that moved as one, with the pose of the group
     * @param parts pose of each component by id, or why it was not found
     */
    record Found(List<RigidGroups.Group> groups, Map<String, Answer<ExamPoses.PartPose>> parts) {

        List<Set<String>> groupIds() {
            return groups.stream().map(RigidGroups.Group::ids).toList();
        }
    }

    /**
     * Finds the parts.
     *
     * @param surfaces surface of each part on the reference exam, by id
     * @param whole pose of the construct
     */
    Found find(Map<String, PartSurfaces.Surface> surfaces, RigidTransform whole, Progress progress) {
        Map<String, Answer<ExamPoses.PartPose>> answers = new LinkedHashMap<>();
        List<RigidGroups.Own> own = alone(surfaces, whole, answers, progress);
        List<RigidGroups.Group> groups = new ArrayList<>();
        for (RigidGroups.Group group : RigidGroups.of(construct, own, whole)) {
            progress.stopIfCancelled();
            groups.add(group.parts().size() > 1 ? refined(group, progress) : group);
        }
        for (RigidGroups.Group group : groups) {
            for (RigidGroups.Own part : group.parts()) {
                answers.put(part.id(), inGroup(part, group, whole, progress));
            }
        }
        return new Found(List.copyOf(groups), answers);
    }

    private List<RigidGroups.Own> alone(
            Map<String, PartSurfaces.Surface> surfaces,
            RigidTransform whole,
            Map<String, Answer<ExamPoses.PartPose>> answers,
            Progress progress) {
        List<RigidGroups.Own> own = new ArrayList<>();
        for (Component part : construct.components()) {
            PartSurfaces.Surface surface = surfaces.get(part.id());
            if (surface == null) {
                answers.put(part.id(), Answer.not("the part shows no metal edge, or its surface is not read"));
            } else if (surface.outer().size() < FEWEST_POINTS) {
                answers.put(part.id(), Answer.not("too little of the part's surface is seen on the reference exam"));
            } else {
                PoseResult result = alone(surface, whole, progress);
                if (result instanceof PoseResult.Refused refused) {
                    answers.put(part.id(), Answer.not(refused.reason()));
                } else {
                    RigidTransform pose = result.found().orElseThrow().referenceToExam();
                    own.add(new RigidGroups.Own(part.id(), surface.exact(), pose));
                }
            }
        }
        return own;
    }

    private PoseResult alone(PartSurfaces.Surface surface, RigidTransform whole, Progress progress) {
        PoseResult result = search.refine(surface.outer(), whole, limits(ALONE), progress);
        return result.found().isEmpty() || surface.exact() == surface.outer()
                ? result
                : refinement.refine(surface.exact(), result.found().get().referenceToExam(), limits(1), progress);
    }

    private EdgeSettings limits(double times) {
        return EdgeSettings.withDefaults().withLimits(times * settings.partLimitMm(), times * settings.partLimitDeg());
    }

    /** The group's pose on the edges of all its parts. */
    private RigidGroups.Group refined(RigidGroups.Group group, Progress progress) {
        SurfacePoints all = group.parts().get(0).samples();
        for (RigidGroups.Own part : group.parts().subList(1, group.parts().size())) {
            all = all.and(part.samples());
        }
        return refinement
                .refine(all.thinned(GROUP_POINTS), group.pose(), limits(1), progress)
                .found()
                .map(found -> new RigidGroups.Group(group.parts(), found.referenceToExam()))
                .orElse(group);
    }

    private Answer<ExamPoses.PartPose> inGroup(
            RigidGroups.Own part, RigidGroups.Group group, RigidTransform whole, Progress progress) {
        PoseResult result = refinement.refine(part.samples(), group.pose(), limits(1), progress);
        if (result instanceof PoseResult.Refused refused) {
            return Answer.not(refused.reason());
        }
        PoseResult.Found found = result.found().orElseThrow();
        RigidTransform pose = found.referenceToExam();
        PatientPoint middle = part.samples().centroid();
        double motionMm = pose.apply(middle).distanceTo(whole.apply(middle));
        double motionDeg = whole.inverse().then(pose).rotationAngleDeg();
        return Answer.of(new ExamPoses.PartPose(
                PoseFinder.found(found),
                motionMm,
                motionDeg,
                undetermined(found, group.parts().size() > 1)));
    }

    private static String undetermined(PoseResult.Found found, boolean isInGroup) {
        int count = found.uncertainty().freeMotions().size();
        return count == 0
                ? ""
                : String.format(
                        Locale.ROOT,
                        "its surface leaves %d motion%s open; there it keeps the pose of %s",
                        count,
                        count == 1 ? "" : "s",
                        isInGroup ? "the parts that moved with it" : "the construct");
    }
}
