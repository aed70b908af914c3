package org.holdfast.measure;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.PatchSample;
import org.holdfast.construct.Porous;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.VolumeGrid;

/**
 * What one exam shows of a face, as far as another exam is held against it; of the reference exam this is kept and its
 * volume is not. Arrays are one a sample and must not be written.
 *
 * @param label the exam
 * @param acquisition how it was made
 * @param grid its voxels
 * @param pose where the construct lies in it, from the reference exam
 * @param ceilingHu HU of the scale's ceiling; NaN where it is not clipped
 * @param pointSpread its blur
 * @param samples places on the face, on the reference exam
 * @param profiles HU along the normals, read by cubic convolution
 * @param edgeMm the implant's edge, kept from the reference exam; NaN where the sample cannot be compared
 * @param cutsMm t up to which a profile may be read
 * @param guardMm guard beyond the edge
 * @param noiseSdHu noise in the host bone; empty where it is not known
 * @param muscle the internal reference in muscle; empty where there is none in the image
 */
record ComparedFace(
        String label,
        Acquisition acquisition,
        VolumeGrid grid,
        RigidTransform pose,
        double ceilingHu,
        PointSpreadEstimate pointSpread,
        List<PatchSample> samples,
        Profile[] profiles,
        double[] edgeMm,
        double[] cutsMm,
        double guardMm,
        OptionalDouble noiseSdHu,
        Optional<MuscleRegion> muscle) {

    /** So far into the solid core under a porous layer a profile is read, mm. */
    private static final double INTO_CORE_MM = 3;

    /**
     * Reads a face.
     *
     * @param contact what the estimator by threshold says of the same exam: edges, obstacles, guard
     * @param cutsMm from {@link FaceProfiles#cutsMm}
     * @param reference the face on the reference exam; empty if this is it
     */
    static ComparedFace read(
            Construct construct,
            Component component,
            ExamScan exam,
            ThresholdContact contact,
            double[] cutsMm,
            Optional<ComparedFace> reference,
            MeasurementSettings settings) {
        List<PatchSample> samples =
                contact.readings().stream().map(SampleReading::sample).toList();
        double inside = component.porous().map(Porous::depthMm).orElse(0.0) + INTO_CORE_MM + settings.edgeSearchMm();
        double outside = settings.profileOutsideMm() + settings.edgeSearchMm();
        double[] edges = contact.readings().stream()
                .mapToDouble(
                        r -> r.obstacle().isPresent() ? Double.NaN : r.edgeMm().orElse(Double.NaN))
                .toArray();
        CubicReading reading = new CubicReading(exam.volume());
        RigidTransform pose = exam.referenceToExam();
        Profile[] profiles = IntStream.range(0, samples.size())
                .parallel()
                .mapToObj(n -> profile(reading, samples.get(n), pose, inside, outside, settings.profileStepMm()))
                .toArray(Profile[]::new);
        Optional<MuscleRegion> muscle = reference
                .map(r -> r.muscle.flatMap(m -> MuscleRegion.at(exam.volume(), m.place(), pose)))
                .orElseGet(() -> MuscleRegion.find(exam.volume(), construct.axes(), pose));
        return new ComparedFace(
                exam.label(),
                exam.acquisition(),
                exam.volume().grid(),
                pose,
                exam.ceilingHuOrNaN(),
                exam.pointSpread(),
                samples,
                profiles,
                edges,
                cutsMm,
                contact.guardMm(),
                contact.noiseSdHu().value(),
                muscle);
    }

    private static Profile profile(
            CubicReading reading, PatchSample sample, RigidTransform pose, double inside, double outside, double step) {
        PatientPoint p = pose.apply(sample.point());
        PatientVector n = pose.apply(sample.normal());
        int below = (int) Math.round(inside / step);
        int above = (int) Math.round(outside / step);
        double[] hu = new double[below + above + 1];
        for (int at = 0; at < hu.length; at++) {
            hu[at] = reading.hu(p.along(n, (at - below) * step));
        }
        return new Profile(-below * step, step, hu);
    }

    int size() {
        return samples.size();
    }

    /** Mean HU over [edge + from, edge + to] under one sample; NaN where it cannot be read or compared. */
    double meanHu(int n, double fromMm, double toMm) {
        double edge = edgeMm[n];
        return Double.isNaN(edge) || cutsMm[n] < edge + toMm
                ? Double.NaN
                : profiles[n].mean(edge + fromMm, edge + toMm);
    }

    /** The face's standard deviation of blur along a sample's normal, mm. */
    double sigmaMm(int n) {
        return pointSpread.sigmaAlongMm(pose.apply(samples.get(n).normal()), grid);
    }

    /** Angle between this exam's grid and another's, both as the construct sees them, degrees. */
    double turnedDeg(ComparedFace other) {
        RigidTransform otherToThis = other.pose.inverse().then(pose);
        double trace = grid.rowDirection().dot(otherToThis.apply(other.grid.rowDirection()))
                + grid.columnDirection().dot(otherToThis.apply(other.grid.columnDirection()))
                + grid.normal().dot(otherToThis.apply(other.grid.normal()));
        return Math.toDegrees(Math.acos(Math.max(-1, Math.min(1, 0.5 * (trace - 1)))));
    }
}
