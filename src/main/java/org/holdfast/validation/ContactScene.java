package org.holdfast.validation;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.holdfast.construct.Construct;
import org.holdfast.construct.Material;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.phantom.GapPattern;
import org.holdfast.phantom.HuScale;
import org.holdfast.phantom.InterfaceScene;
import org.holdfast.phantom.InterfaceSpec;
import org.holdfast.phantom.PointSpread;
import org.holdfast.phantom.ScanSettings;
import org.holdfast.volume.VolumeGrid;

/**
 * One simulated face with its scan, drawn from a set by a seed: the same set and seed give the same scene.
 *
 * @param scene implant, bone and gaps
 * @param scan grid, blur, noise and scale
 * @param material the implant's material
 * @param statedSpread the point spread that the estimator is told, within 10 % of the true one
 */
record ContactScene(InterfaceScene scene, ScanSettings scan, Material material, PointSpread statedSpread) {

    /** The conditions from which scenes are drawn. */
    enum Conditions {
        /** The conditions for which the definitions set goals. */
        GOAL_SET(0.30, 0.50, 0.35, 0.50, 0.50, 0.80, 10, 40, 100, 220),
        /** Beyond them: softer, coarser, noisier, weaker bone. */
        STRESS_SET(0.50, 0.70, 0.50, 0.70, 0.80, 1.25, 40, 70, 60, 160);

        final double sigmaLow;
        final double sigmaHigh;
        final double pixelLow;
        final double pixelHigh;
        final double pitchLow;
        final double pitchHigh;
        final double noiseLow;
        final double noiseHigh;
        final double boneLow;
        final double boneHigh;

        Conditions(
                double sigmaLow,
                double sigmaHigh,
                double pixelLow,
                double pixelHigh,
                double pitchLow,
                double pitchHigh,
                double noiseLow,
                double noiseHigh,
                double boneLow,
                double boneHigh) {
            this.sigmaLow = sigmaLow;
            this.sigmaHigh = sigmaHigh;
            this.pixelLow = pixelLow;
            this.pixelHigh = pixelHigh;
            this.pitchLow = pitchLow;
            this.pitchHigh = pitchHigh;
            this.noiseLow = noiseLow;
            this.noiseHigh = noiseHigh;
            this.boneLow = boneLow;
            this.boneHigh = boneHigh;
        }
    }

    /** What the gaps of a scene are like; each area of the face has bone on the implant by chance, else a gap. */
    enum Gaps {
        /** Halves or quarters of the face (14 to 36 mm wide), gaps of 0.3 to 4.5 mm. */
        LARGE_AREAS(0.3, 4.5, 2),
        /** Areas of 6 × 4.7 mm, gaps of 0.3 to 4.5 mm: much border for little area. */
        SMALL_AREAS(0.3, 4.5, 6),
        /** Halves or quarters of the face, gaps under 1.2 mm: what no threshold can see. */
        NARROW(0.1, 1.2, 2);

        final double lowestMm;
        final double highestMm;
        final int areas;

        Gaps(double lowestMm, double highestMm, int areas) {
            this.lowestMm = lowestMm;
            this.highestMm = highestMm;
            this.areas = areas;
        }
    }

    private static final double HALF_U_MM = 18;
    private static final double HALF_V_MM = 14;
    private static final double FIELD_MM = 52;
    private static final double LARGEST_TILT_DEG = 15;
    private static final double LARGEST_SPREAD_ERROR = 0.10;

    /**
     * Draws a scene.
     *
     * @param contactChance chance of each of the face's halves or quarters to have bone on the implant
     */
    static ContactScene draw(
            Conditions c, Gaps gaps, Material material, HuScale scale, double contactChance, long seed) {
        UniformRandomProvider random = RandomSource.XO_RO_SHI_RO_128_PP.create(seed);
        PatientVector normal = random.nextBoolean() ? PatientVector.CRANIAL : PatientVector.POSTERIOR;
        boolean porous = material == Material.TITANIUM_POROUS;
        double core = between(random, 7000, 8000);
        InterfaceSpec spec = InterfaceSpec.withDefaults()
                .sized(HALF_U_MM, HALF_V_MM, 12)
                .implant(3, porous ? between(random, 1900, 2300) : core, core)
                .bone(between(random, 0.4, 1.4), between(random, 450, 800), between(random, c.boneLow, c.boneHigh), 30)
                .facing(normal, tilt(random), tilt(random));
        // The face's centre falls anywhere in a voxel.
        PatientPoint centre = new PatientPoint(random.nextDouble(), random.nextDouble(), random.nextDouble());
        spec = spec.at(centre);
        boolean halves = gaps.areas == 2 && random.nextBoolean();
        int areasU = gaps.areas;
        int areasV = halves ? 1 : gaps.areas;
        GapPattern pattern = GapPattern.drawn(
                spec.face(), areasU, areasV, contactChance, gaps.lowestMm, gaps.highestMm, random.nextLong());
        PointSpread spread =
                new PointSpread(between(random, c.sigmaLow, c.sigmaHigh), between(random, c.sigmaLow, c.sigmaHigh));
        ScanSettings scan = new ScanSettings(
                grid(FIELD_MM, between(random, c.pixelLow, c.pixelHigh), between(random, c.pitchLow, c.pitchHigh)),
                spread,
                between(random, c.noiseLow, c.noiseHigh),
                random.nextLong(),
                scale);
        double inPlaneError = between(random, 1 - LARGEST_SPREAD_ERROR, 1 + LARGEST_SPREAD_ERROR);
        double alongError = between(random, 1 - LARGEST_SPREAD_ERROR, 1 + LARGEST_SPREAD_ERROR);
        PointSpread stated =
                new PointSpread(spread.sigmaInPlaneMm() * inPlaneError, spread.sigmaAlongTableMm() * alongError);
        return new ContactScene(InterfaceScene.of(spec, pattern), scan, material, stated);
    }

    private static double between(UniformRandomProvider random, double low, double high) {
        return low + (high - low) * random.nextDouble();
    }

    private static double tilt(UniformRandomProvider random) {
        return between(random, -LARGEST_TILT_DEG, LARGEST_TILT_DEG);
    }

    /** A grid upright in patient space round its origin, so wide in all directions. */
    static VolumeGrid grid(double fieldMm, double pixelMm, double pitchMm) {
        int side = (int) Math.ceil(fieldMm / pixelMm);
        int slices = (int) Math.ceil(fieldMm / pitchMm);
        double corner = -0.5 * (side - 1) * pixelMm;
        List<PatientPoint> origins = new ArrayList<>();
        for (int k = 0; k < slices; k++) {
            origins.add(new PatientPoint(corner, corner, -0.5 * (slices - 1) * pitchMm + k * pitchMm));
        }
        return new VolumeGrid(side, side, pixelMm, pixelMm, PatientVector.LEFT, PatientVector.POSTERIOR, origins);
    }

    /** The construct, laid out exactly. */
    Construct construct() {
        return SceneConstruct.of(
                scene.spec(), scene.face(), material, scene.face().centre());
    }
}
