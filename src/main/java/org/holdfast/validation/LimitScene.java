package org.holdfast.validation;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.holdfast.construct.Material;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.measure.FittedContact;
import org.holdfast.measure.FittedReading;
import org.holdfast.measure.Tissue;
import org.holdfast.phantom.GapPattern;
import org.holdfast.phantom.HuScale;
import org.holdfast.phantom.InterfaceScene;
import org.holdfast.phantom.InterfaceSpec;
import org.holdfast.phantom.PointSpread;
import org.holdfast.phantom.ScanSettings;
import org.holdfast.volume.VolumeGrid;

/** A small face of the goal set, which can be scanned with any one gap all over; for the detection limit. */
final class LimitScene {

    private static final double HALF_MM = 5;
    private static final double FIELD_MM = 25;
    /** The field lies so far towards the bone, where profiles are longer. */
    private static final double TOWARDS_BONE_MM = 2.5;

    private static final double MULTIPLE = 1.2;

    private final InterfaceSpec spec;
    private final VolumeGrid grid;
    private final PointSpread spread;
    private final PointSpread stated;
    private final double noiseSdHu;
    private final long seed;
    private final HuScale scale;

    private LimitScene(UniformRandomProvider random, long seed) {
        ContactScene.Conditions c = ContactScene.Conditions.GOAL_SET;
        PatientVector normal = random.nextBoolean() ? PatientVector.CRANIAL : PatientVector.POSTERIOR;
        this.spec = InterfaceSpec.withDefaults()
                .sized(HALF_MM, HALF_MM, 12)
                .implant(3, between(random, 1900, 2300), between(random, 7000, 8000))
                .bone(between(random, 0.4, 1.4), between(random, 450, 800), between(random, c.boneLow, c.boneHigh), 30)
                .facing(normal, between(random, -15, 15), between(random, -15, 15))
                .at(new PatientPoint(random.nextDouble(), random.nextDouble(), random.nextDouble()));
        this.spread =
                new PointSpread(between(random, c.sigmaLow, c.sigmaHigh), between(random, c.sigmaLow, c.sigmaHigh));
        this.stated = new PointSpread(
                spread.sigmaInPlaneMm() * between(random, 0.9, 1.1),
                spread.sigmaAlongTableMm() * between(random, 0.9, 1.1));
        this.noiseSdHu = between(random, c.noiseLow, c.noiseHigh);
        this.grid = grid(
                spec.face().centre().along(spec.face().normal(), TOWARDS_BONE_MM),
                between(random, c.pixelLow, c.pixelHigh),
                between(random, c.pitchLow, c.pitchHigh));
        this.scale = random.nextBoolean() ? HuScale.EXTENDED_30710 : HuScale.CLIPPED_3071;
        this.seed = seed;
    }

    static LimitScene draw(long seed) {
        return new LimitScene(RandomSource.XO_RO_SHI_RO_128_PP.create(seed), seed);
    }

    /** What became of a scene. */
    enum Answer {
        /** No limit was stated. */
        NOT_STATED(false, false),
        /** The gap was found and bone on the implant was called contact. */
        BOTH_RIGHT(true, false),
        /** The gap was called contact. */
        MISSED(false, false),
        /** Bone on the implant was called a gap, and so was the gap. */
        FALSELY_CALLED(true, true),
        /** Both were wrong. */
        BOTH_WRONG(false, true);

        private final boolean isFound;
        private final boolean isFalselyCalled;

        Answer(boolean isFound, boolean isFalselyCalled) {
            this.isFound = isFound;
            this.isFalselyCalled = isFalselyCalled;
        }

        boolean isFound() {
            return isFound;
        }

        boolean isFalselyCalled() {
            return isFalselyCalled;
        }
    }

    /** Scans without a gap and with a gap of 1.2 times the stated limit, and asks the sample in the middle of the face. */
    Answer ask() {
        FittedContact touching = measure(0, seed);
        OptionalDouble limit = touching.smallestVisibleGapMm().value();
        if (limit.isEmpty()) {
            return Answer.NOT_STATED;
        }
        boolean isFalse = middle(touching) == Tissue.GAP;
        boolean isFound = middle(measure(MULTIPLE * limit.getAsDouble(), seed + 1)) == Tissue.GAP;
        if (isFalse) {
            return isFound ? Answer.FALSELY_CALLED : Answer.BOTH_WRONG;
        }
        return isFound ? Answer.BOTH_RIGHT : Answer.MISSED;
    }

    private FittedContact measure(double gapMm, long noiseSeed) {
        ContactScene scene = new ContactScene(
                InterfaceScene.of(spec, GapPattern.uniform(HALF_MM, HALF_MM, gapMm)),
                new ScanSettings(grid, spread, noiseSdHu, noiseSeed, scale),
                Material.TITANIUM_POROUS,
                stated);
        return FitSeries.measure(scene, ContactValidation.examOf(scene));
    }

    private static Tissue middle(FittedContact contact) {
        return contact.readings().stream()
                .min(Comparator.comparingDouble(
                        r -> Math.hypot(r.sample().uMm(), r.sample().vMm())))
                .map(FittedReading::tissue)
                .orElseThrow();
    }

    private static double between(UniformRandomProvider random, double low, double high) {
        return low + (high - low) * random.nextDouble();
    }

    private static VolumeGrid grid(PatientPoint middle, double pixelMm, double pitchMm) {
        int side = (int) Math.ceil(FIELD_MM / pixelMm);
        int slices = (int) Math.ceil(FIELD_MM / pitchMm);
        double corner = -0.5 * (side - 1) * pixelMm;
        List<PatientPoint> origins = new ArrayList<>();
        for (int k = 0; k < slices; k++) {
            origins.add(middle.plus(new PatientVector(corner, corner, -0.5 * (slices - 1) * pitchMm + k * pitchMm)));
        }
        return new VolumeGrid(side, side, pixelMm, pixelMm, PatientVector.LEFT, PatientVector.POSTERIOR, origins);
    }
}
