package org.holdfast.measure;

import java.util.List;
import java.util.stream.IntStream;
import org.holdfast.construct.Component;
import org.holdfast.construct.PatchSample;
import org.holdfast.construct.Shape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;

/**
 * The HU profiles under all samples of a face in one exam, and how far each may be read before it enters other metal.
 *
 * @param samples places on the face, in the reference exam
 * @param profiles one a sample
 * @param cutsMm t up to which a profile may be read, one a sample; infinite where no other part is met
 * @param normals outward normals in the exam, one a sample
 * @param points places in the exam, one a sample
 */
record FaceProfiles(
        List<PatchSample> samples,
        Profile[] profiles,
        double[] cutsMm,
        PatientVector[] normals,
        PatientPoint[] points) {

    /** Step with which a profile is followed through other parts, mm. */
    private static final double CUT_STEP_MM = 0.25;

    /**
     * How far each profile may be read: the same in every exam, as samples and parts are those of the construct.
     *
     * @param samples places on the face, in the reference exam
     * @param otherParts parts that a profile must not enter
     */
    static double[] cutsMm(List<PatchSample> samples, List<Component> otherParts, MeasurementSettings settings) {
        return samples.stream()
                .parallel()
                .mapToDouble(sample -> cutMm(sample, otherParts, settings))
                .toArray();
    }

    /**
     * Reads the profiles on all cores.
     *
     * @param samples places on the face, in the reference exam
     * @param cutsMm how far each may be read, from {@link #cutsMm(List, List, MeasurementSettings)}; not copied
     * @param exam the exam that is read
     * @param shiftMm the face is moved by this in the exam, for the influence of a pose error
     */
    static FaceProfiles read(
            List<PatchSample> samples,
            double[] cutsMm,
            ExamScan exam,
            PatientVector shiftMm,
            FaceLayer face,
            MeasurementSettings settings) {
        int count = samples.size();
        Profile[] profiles = new Profile[count];
        PatientVector[] normals = new PatientVector[count];
        PatientPoint[] points = new PatientPoint[count];
        RigidTransform pose = exam.referenceToExam();
        IntStream.range(0, count).parallel().forEach(n -> {
            PatchSample sample = samples.get(n);
            normals[n] = pose.apply(sample.normal());
            points[n] = pose.apply(sample.point()).plus(shiftMm);
            profiles[n] = along(points[n], normals[n], exam, face, settings);
        });
        return new FaceProfiles(samples, profiles, cutsMm, normals, points);
    }

    private static Profile along(
            PatientPoint p, PatientVector n, ExamScan exam, FaceLayer face, MeasurementSettings settings) {
        double step = settings.profileStepMm();
        int inside = (int) Math.floor(face.insideMm() / step + 1e-9);
        int outside = (int) Math.round(settings.profileOutsideMm() / step);
        double[] hu = new double[inside + outside + 1];
        for (int at = 0; at < hu.length; at++) {
            double t = (at - inside) * step;
            hu[at] = exam.volume().sample(p.x() + t * n.x(), p.y() + t * n.y(), p.z() + t * n.z());
        }
        return new Profile(-inside * step, step, hu);
    }

    /** A crossing screw must not spoil a profile: it ends some way before the first other part that it would enter. */
    private static double cutMm(PatchSample sample, List<Component> otherParts, MeasurementSettings settings) {
        double first = Double.POSITIVE_INFINITY;
        for (Component part : otherParts) {
            Shape shape = part.shape();
            if (!shape.hasDistance()) {
                continue;
            }
            double t = 0;
            while (t <= Math.min(first, settings.profileOutsideMm() + settings.otherMetalMarginMm())) {
                double distance = shape.signedDistanceMm(sample.point().along(sample.normal(), t));
                if (distance <= 0) {
                    first = Math.min(first, t);
                    break;
                }
                t += Math.max(CUT_STEP_MM, distance);
            }
        }
        return first - settings.otherMetalMarginMm();
    }
}
