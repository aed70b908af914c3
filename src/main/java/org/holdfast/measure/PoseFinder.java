package org.holdfast.measure;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.holdfast.construct.Construct;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.progress.Progress;
import org.holdfast.registration.MetalRegistration;
import org.holdfast.registration.MetalSurface;
import org.holdfast.registration.PoseQuality;
import org.holdfast.registration.PoseResult;
import org.holdfast.registration.RegistrationSettings;
import org.holdfast.registration.SurfaceMatch;
import org.holdfast.registration.SurfacePoints;
import org.holdfast.volume.HuVolume;

/**
 * Finds where a construct laid out on the reference exam lies in another exam: the pose of all metal first, then of each
 * part, of the groups of parts that moved as one, and of each named bone. What the metal does not show stays where the
 * group (a lone part: the construct) has it.
 *
 * <p>Refused before anything is measured where the metal does not fit or a part is missing, unless the pose was given by a
 * person. The same input gives the same poses. Immutable and safe to share between threads; one finder serves all exams
 * of a construct.
 */
public final class PoseFinder {

    /** Metal is looked for so far under the surface of a part, mm. */
    private static final double UNDER_SURFACE_MM = 1.2;
    /** A part of whose surface less than this share has metal under it is not there. */
    private static final double LEAST_METAL_SHARE = 0.3;
    /** Less than this share of a part's surface in the image does not tell whether the part is there. */
    private static final double LEAST_IN_IMAGE = 0.3;

    private final Construct construct;
    private final HuVolume reference;
    private final MeasurementSettings settings;
    private final RegistrationSettings registration;
    private final SurfacePoints referenceMetal;
    private final Map<String, PartSurfaces.Surface> surfaces;
    private final BonePoses bones;

    private PoseFinder(
            Construct construct,
            HuVolume reference,
            MeasurementSettings settings,
            RegistrationSettings registration,
            SurfacePoints referenceMetal,
            Map<String, PartSurfaces.Surface> surfaces) {
        this.construct = construct;
        this.reference = reference;
        this.settings = settings;
        this.registration = registration;
        this.referenceMetal = referenceMetal;
        this.surfaces = surfaces;
        this.bones = new BonePoses(construct, reference, settings);
    }

    /**
     * Reads what is needed from the reference exam.
     *
     * @param construct what was laid out, in patient space of the reference exam
     * @param reference the reference exam
     * @throws java.util.concurrent.CancellationException if cancelled
     */
    public static PoseFinder of(
            Construct construct, HuVolume reference, MeasurementSettings settings, Progress progress) {
        Objects.requireNonNull(settings, "settings");
        RegistrationSettings registration = RegistrationSettings.withDefaults();
        SurfacePoints metal = MetalSurface.of(reference, registration.surfaceHu(), progress.part(0, 0.5));
        Map<String, PartSurfaces.Surface> surfaces =
                PartSurfaces.of(construct, reference, metal, registration.surfaceHu(), progress.part(0.5, 1));
        return new PoseFinder(construct, reference, settings, registration, metal, surfaces);
    }

    /** The poses of the reference exam itself: nothing has moved. */
    public static ExamPoses ofReference(Construct construct) {
        FoundPose still =
                FoundPose.given(RigidTransform.IDENTITY, ExamScan.PoseKind.IDENTITY, "the reference exam itself");
        Map<String, Answer<ExamPoses.PartPose>> parts = new HashMap<>();
        construct.components().forEach(part -> parts.put(part.id(), Answer.of(new ExamPoses.PartPose(still, 0, 0))));
        Map<String, Answer<FoundPose>> bones = new HashMap<>();
        construct.bones().forEach(bone -> bones.put(bone.id(), Answer.of(still)));
        return new ExamPoses(still, List.of(Set.copyOf(parts.keySet())), parts, bones);
    }

    /**
     * The poses in an exam, or why they are refused.
     *
     * @param given pose of the construct set by a person, to be kept as it is; empty to find it. With a given pose nothing
     *     is refused: what is not found is told part by part.
     * @throws java.util.concurrent.CancellationException if cancelled
     */
    public Answer<ExamPoses> find(HuVolume exam, Optional<RigidTransform> given, Progress progress) {
        progress.report(0, "finding the construct");
        SurfacePoints metal = MetalSurface.of(exam, registration.surfaceHu(), progress.part(0, 0.1));
        FoundPose whole;
        if (given.isPresent()) {
            whole = FoundPose.given(given.get(), ExamScan.PoseKind.NUDGED, "the pose was given");
        } else {
            PoseResult result = MetalRegistration.register(
                    reference, referenceMetal, exam, metal, Optional.empty(), registration, progress.part(0.1, 0.5));
            if (result instanceof PoseResult.Refused refused) {
                return Answer.not(refused.reason());
            }
            whole = found(result.found().orElseThrow());
        }
        progress.report(0.5, "finding the parts");
        SurfaceMatch match = new SurfaceMatch(metal, p -> !Double.isNaN(exam.sample(p)));
        PartPoses parts = new PartPoses(construct, reference, exam, match, settings.motion());
        PartPoses.Found foundParts = parts.find(surfaces, whole.referenceToExam(), progress.part(0.5, 0.75));
        if (given.isEmpty()) {
            List<String> missing = missing(exam, foundParts, whole.referenceToExam());
            if (!missing.isEmpty()) {
                return Answer.not("not where the construct has it: " + String.join(", ", missing)
                        + "; another patient or re-operated?");
            }
        }
        progress.report(0.75, "finding the bones");
        Map<String, Answer<FoundPose>> foundBones =
                bones.find(exam, whole.referenceToExam(), foundParts, progress.part(0.75, 1));
        progress.report(1, "poses found");
        return Answer.of(new ExamPoses(whole, foundParts.groupIds(), foundParts.parts(), foundBones));
    }

    /** Labels of the parts that should be seen in the image and are not. */
    private List<String> missing(HuVolume exam, PartPoses.Found found, RigidTransform whole) {
        List<String> missing = new ArrayList<>();
        surfaces.forEach((id, surface) -> {
            Optional<ExamPoses.PartPose> own = found.parts().get(id).value();
            RigidTransform pose = own.map(p -> p.pose().referenceToExam()).orElse(whole);
            OptionalDouble share = metalShare(exam, surface.outer(), pose);
            if (share.isPresent() && share.getAsDouble() < LEAST_METAL_SHARE) {
                missing.add(construct.component(id).label());
            }
        });
        return missing;
    }

    /** Share of a part's surface with metal under it; empty where too little of it lies in the image. */
    private OptionalDouble metalShare(HuVolume exam, SurfacePoints surface, RigidTransform pose) {
        int seen = 0;
        int metal = 0;
        for (int n = 0; n < surface.size(); n++) {
            PatientPoint under = surface.point(n).along(surface.normal(n), -UNDER_SURFACE_MM);
            double hu = exam.sample(pose.apply(under));
            seen += Double.isNaN(hu) ? 0 : 1;
            metal += hu >= settings.implantMinHu() ? 1 : 0;
        }
        return seen < LEAST_IN_IMAGE * surface.size() || seen == 0
                ? OptionalDouble.empty()
                : OptionalDouble.of((double) metal / seen);
    }

    /** A pose found by registration, as a result. */
    static FoundPose found(PoseResult.Found found) {
        PoseQuality quality = found.quality();
        Stated residual = quality.residualMm().isPresent()
                ? Stated.of(quality.residualMm().getAsDouble())
                : Stated.not(String.format(
                        Locale.ROOT,
                        "matched by voxels, correlation %.3f",
                        quality.correlation().orElse(0)));
        return new FoundPose(
                found.referenceToExam(),
                ExamScan.PoseKind.REGISTERED,
                residual,
                Stated.of(quality.overlap()),
                Stated.of(quality.inlierShare()));
    }
}
