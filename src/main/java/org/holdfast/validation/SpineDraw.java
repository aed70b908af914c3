package org.holdfast.validation;

import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.phantom.GapPattern;
import org.holdfast.phantom.HuScale;
import org.holdfast.phantom.PointSpread;
import org.holdfast.phantom.SpineScan;
import org.holdfast.phantom.SpineScene;

/**
 * Subjects and scans drawn from the goal set by a seed: the same seed gives the same draws in the same order. One subject
 * is scanned with one point spread, noise and scale throughout, as comparable exams are; pose, pixels and pitch change.
 */
final class SpineDraw {

    private static final double LARGEST_SHIFT_MM = 100;

    private final UniformRandomProvider random;
    private final double marginMm;
    private final PointSpread spread;
    private final double noiseHu;
    private final HuScale scale;

    /** @param marginMm of image round the implants */
    SpineDraw(long seed, double marginMm) {
        this.random = RandomSource.XO_RO_SHI_RO_128_PP.create(seed);
        this.marginMm = marginMm;
        this.spread = new PointSpread(between(0.30, 0.50), between(0.30, 0.50));
        this.noiseHu = between(10, 40);
        this.scale = seed % 2 == 0 ? HuScale.EXTENDED_30710 : HuScale.CLIPPED_3071;
    }

    /** The point spread of this subject's scans. */
    PointSpread spread() {
        return spread;
    }

    /** A subject as implanted, with bone on about half of each face and gaps of 0.5 to 3.5 mm on the rest. */
    SpineScene scene() {
        double[] half = SpineScene.faceHalfMm();
        return SpineScene.asImplanted(between(100, 220)).withGaps(gaps(half), gaps(half));
    }

    private GapPattern gaps(double[] half) {
        return GapPattern.stripes(half[0], half[1], 0, between(0.5, 3.5), 0, between(2, 3.5));
    }

    /** A scan with the subject somewhere in the scanner, turned by up to so many degrees. */
    SpineScan scan(double largestTurnDeg) {
        RigidTransform pose = RigidTransform.rotation(direction(), between(0, largestTurnDeg), PatientPoint.ORIGIN)
                .then(RigidTransform.translation(direction().times(between(0, LARGEST_SHIFT_MM))));
        return new SpineScan(
                pose, between(0.40, 0.50), between(0.55, 0.80), marginMm, spread, noiseHu, scale, random.nextLong());
    }

    /** A shift of so many mm in any direction after a turn of so many degrees about any axis through a point. */
    RigidTransform motion(double mm, double deg, PatientPoint about) {
        return RigidTransform.rotation(direction(), deg, about)
                .then(RigidTransform.translation(direction().times(mm)));
    }

    /** A number between two. */
    double between(double low, double high) {
        return low + (high - low) * random.nextDouble();
    }

    /** One of so many. */
    int oneOf(int count) {
        return random.nextInt(count);
    }

    private PatientVector direction() {
        while (true) {
            PatientVector v = new PatientVector(between(-1, 1), between(-1, 1), between(-1, 1));
            if (v.norm() > 0.1 && v.norm() <= 1) {
                return v.unit();
            }
        }
    }
}
