package org.holdfast.validation;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.apache.commons.numbers.gamma.Erfc;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.ContinuousSampler;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;
import org.apache.commons.rng.simple.RandomSource;
import org.holdfast.construct.Material;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.phantom.Body;
import org.holdfast.phantom.Box;
import org.holdfast.phantom.FaceFrame;
import org.holdfast.phantom.GapPattern;
import org.holdfast.phantom.HuScale;
import org.holdfast.phantom.InterfaceScene;
import org.holdfast.phantom.InterfaceSpec;
import org.holdfast.phantom.PointSpread;
import org.holdfast.phantom.ScanSettings;
import org.holdfast.phantom.Scene;
import org.holdfast.phantom.Sphere;
import org.holdfast.volume.VolumeGrid;

/**
 * One simulated face on two exams, drawn by a seed: bone that came, went or changed its density over some areas, pores that
 * filled, another place in the scanner, another grid and other noise. The pose that the estimator is told is off by what a
 * registration would leave.
 *
 * @param before the face on the reference exam, where the construct is laid out
 * @param after the face on the later exam, in the reference exam's space
 * @param scanBefore scan of the reference exam
 * @param scanAfter scan of the later exam
 * @param truePose from the reference exam to the later one
 * @param givenPose what the estimator is told of it
 * @param muscle middle of a ball of muscle, in the reference exam's space
 * @param areas what changed where
 * @param fill share of the pores that filled with bone
 * @param material titanium, porous or solid at the face
 * @param statedSpread the point spread that the estimator is told, within 10 % of the true one
 */
record ChangeScene(
        InterfaceScene before,
        InterfaceScene after,
        ScanSettings scanBefore,
        ScanSettings scanAfter,
        RigidTransform truePose,
        RigidTransform givenPose,
        PatientPoint muscle,
        Areas areas,
        double fill,
        Material material,
        PointSpread statedSpread) {

    static final double POROSITY = 0.7;
    static final double HALF_U_MM = 10;
    static final double HALF_V_MM = 9;
    static final double THICKNESS_MM = 12;
    static final double MUSCLE_HU = 55;

    private static final double FIELD_MM = 52;
    private static final double LAYER_MM = 3;
    private static final double LARGEST_TILT_DEG = 15;
    /** An implant that is turned by more than 5° is not compared. */
    private static final double LARGEST_TURN_DEG = 4;
    /** What a registration leaves: SD along each axis, mm, and about each axis, degrees. */
    private static final double POSE_SD_MM = 0.03;

    private static final double POSE_OFF_MM = 0.05;
    private static final double POSE_SD_DEG = 0.05;
    private static final double LOWEST_MM = -5;
    private static final double STEP_MM = 0.02;
    private static final int STEPS = 700;
    private static final double LARGEST_SPREAD_ERROR = 0.10;
    private static final double MUSCLE_RADIUS_MM = 6.3;

    /** What happens between the exams. */
    enum Course {
        /** Gaps open and close, density rises and falls, over some areas. */
        BONE_CHANGES,
        /** Nothing but pose, grid and noise. */
        NOTHING,
        /** The same, and the pose that is told lies off by 0.05 mm along the face's normal. */
        POSE_OFF,
        /** Pores fill with bone; the bone over some areas changes as well. */
        PORES_FILL
    }

    /**
     * What changed where; arrays are [area along u][area along v].
     *
     * @param pattern gaps on the reference exam, for its lines
     * @param changed whether anything changed in an area
     */
    record Areas(GapPattern pattern, boolean[][] changed) {

        /** Index of the area of a place. */
        int[] at(double uMm, double vMm) {
            return new int[] {index(pattern.uLinesMm(), uMm), index(pattern.vLinesMm(), vMm)};
        }

        /** Distance to the nearest area that fared otherwise, mm; infinite if all fared alike. */
        double fromBorderMm(double uMm, double vMm) {
            int[] own = at(uMm, vMm);
            double[] u = pattern.uLinesMm();
            double[] v = pattern.vLinesMm();
            double nearest = Double.POSITIVE_INFINITY;
            for (int a = 0; a < changed.length; a++) {
                for (int b = 0; b < changed[a].length; b++) {
                    if ((a != own[0] || b != own[1]) && (changed[a][b] || changed[own[0]][own[1]])) {
                        double du = Math.max(0, Math.max(u[a] - uMm, uMm - u[a + 1]));
                        double dv = Math.max(0, Math.max(v[b] - vMm, vMm - v[b + 1]));
                        nearest = Math.min(nearest, Math.hypot(du, dv));
                    }
                }
            }
            return nearest;
        }

        private static int index(double[] lines, double at) {
            int n = 0;
            while (n < lines.length - 2 && at >= lines[n + 1]) {
                n++;
            }
            return n;
        }
    }

    /** Draws a scene. */
    static ChangeScene draw(Course course, ContactScene.Conditions c, Material material, HuScale scale, long seed) {
        UniformRandomProvider random = RandomSource.XO_RO_SHI_RO_128_PP.create(seed);
        PatientVector normal = random.nextBoolean() ? PatientVector.CRANIAL : PatientVector.POSTERIOR;
        double trabecular = between(random, c.boneLow, c.boneHigh);
        double metal = between(random, 7000, 8000);
        double fluid = 30;
        double porousBefore = material == Material.TITANIUM_SOLID ? metal : (1 - POROSITY) * metal + POROSITY * fluid;
        double fill = course == Course.PORES_FILL ? between(random, 0, 0.6) : 0;
        double porousAfter = porousBefore + fill * POROSITY * (trabecular - fluid);
        InterfaceSpec spec = InterfaceSpec.withDefaults()
                .sized(HALF_U_MM, HALF_V_MM, THICKNESS_MM)
                .implant(LAYER_MM, porousBefore, metal)
                .bone(between(random, 0.4, 1.4), between(random, 450, 800), trabecular, fluid)
                .facing(
                        normal,
                        between(random, -LARGEST_TILT_DEG, LARGEST_TILT_DEG),
                        between(random, -LARGEST_TILT_DEG, LARGEST_TILT_DEG))
                .at(new PatientPoint(random.nextDouble(), random.nextDouble(), random.nextDouble()));
        FaceFrame face = spec.face();
        int areasV = random.nextBoolean() ? 1 : 2;
        GapPattern gapsBefore = GapPattern.drawn(face, 2, areasV, 0.5, 0.3, 3.0, random.nextLong());
        boolean changes = course == Course.BONE_CHANGES || course == Course.PORES_FILL;
        boolean[][] changed = new boolean[2][areasV];
        double[][] gaps = gapsBefore.gapsMm();
        List<Body> denser = new ArrayList<>();
        for (int a = 0; a < 2; a++) {
            for (int b = 0; b < areasV; b++) {
                changed[a][b] = changes && random.nextBoolean();
                if (changed[a][b] && random.nextBoolean()) {
                    gaps[a][b] = otherGap(random, gaps[a][b]);
                } else if (changed[a][b] && course == Course.BONE_CHANGES) {
                    double change = between(random, 30, 120) * (random.nextBoolean() ? 1 : -1);
                    denser.add(overArea(face, gapsBefore, a, b, Math.max(20, trabecular + change)));
                } else {
                    changed[a][b] = false;
                }
            }
        }
        GapPattern gapsAfter = new GapPattern(gapsBefore.uLinesMm(), gapsBefore.vLinesMm(), gaps);
        // Off the face's corner, clear of the implant on all sides.
        PatientPoint muscle = face.point(HALF_U_MM + 7.5, 0, -10);
        Body ball = Body.of("muscle", new Sphere(muscle, MUSCLE_RADIUS_MM), MUSCLE_HU);
        InterfaceScene before = InterfaceScene.of(spec, gapsBefore);
        InterfaceScene after = InterfaceScene.of(spec.implant(LAYER_MM, porousAfter, metal), gapsAfter, denser);
        RigidTransform pose = turn(random, face.centre(), LARGEST_TURN_DEG / 2, 1.0);
        RigidTransform error = course == Course.POSE_OFF
                ? RigidTransform.translation(face.normal().times(POSE_OFF_MM))
                : drawnError(random, face.centre());
        double drift = course == Course.PORES_FILL ? between(random, -5, 5) : 0;
        PointSpread spread =
                new PointSpread(between(random, c.sigmaLow, c.sigmaHigh), between(random, c.sigmaLow, c.sigmaHigh));
        double noise = between(random, c.noiseLow, c.noiseHigh);
        double pixel = between(random, c.pixelLow, c.pixelHigh);
        double pitch = between(random, c.pitchLow, c.pitchHigh);
        return new ChangeScene(
                with(before, before.scene().with(ball)),
                with(after, drifted(after.scene().with(ball), drift)),
                new ScanSettings(ContactScene.grid(FIELD_MM, pixel, pitch), spread, noise, random.nextLong(), scale),
                new ScanSettings(
                        ContactScene.grid(FIELD_MM, pixel * between(random, 0.95, 1), pitch),
                        spread,
                        noise * between(random, 0.9, 1.1),
                        random.nextLong(),
                        scale),
                pose,
                error.then(pose),
                muscle,
                new Areas(gapsBefore, changed),
                fill,
                material,
                new PointSpread(
                        spread.sigmaInPlaneMm() * between(random, 1 - LARGEST_SPREAD_ERROR, 1 + LARGEST_SPREAD_ERROR),
                        spread.sigmaAlongTableMm()
                                * between(random, 1 - LARGEST_SPREAD_ERROR, 1 + LARGEST_SPREAD_ERROR)));
    }

    /** The same scene scanned otherwise: isotropic blur, noise, pixels and slices of one size, mm and HU. */
    ChangeScene scanned(double sigmaMm, double noiseHu, double pixelMm, double pitchMm) {
        PointSpread spread = new PointSpread(sigmaMm, sigmaMm);
        ScanSettings first = new ScanSettings(
                ContactScene.grid(FIELD_MM, pixelMm, pitchMm), spread, noiseHu, scanBefore.seed(), scanBefore.scale());
        ScanSettings later = new ScanSettings(
                ContactScene.grid(FIELD_MM, pixelMm, pitchMm), spread, noiseHu, scanAfter.seed(), scanAfter.scale());
        return new ChangeScene(before, after, first, later, truePose, givenPose, muscle, areas, fill, material, spread);
    }

    /** The later exam's scene where it really lies. */
    Scene laterScene() {
        return after.scene().moved(truePose);
    }

    /**
     * By how much the mean HU over a window truly changed over the middle of an area: what lies along the normal there,
     * blurred by the scan along the normal only, without noise. The window is counted as the definitions count it, from
     * the implant's edge at half-maximum on the reference exam, which bone on the implant draws outwards.
     *
     * @param fromMm start of the window, mm beyond the edge
     * @param toMm its end
     */
    double trueChangeHu(int areaU, int areaV, double fromMm, double toMm) {
        double[] u = areas.pattern().uLinesMm();
        double[] v = areas.pattern().vLinesMm();
        double middleU = 0.5 * (u[areaU] + u[areaU + 1]);
        double middleV = 0.5 * (v[areaV] + v[areaV + 1]);
        double[] first = along(before, middleU, middleV);
        double[] later = along(after, middleU, middleV);
        double edge = edgeMm(first);
        return meanHu(later, edge + fromMm, edge + toMm) - meanHu(first, edge + fromMm, edge + toMm);
    }

    /** HU along the normal at steps from {@link #LOWEST_MM}, without blur. */
    private static double[] along(InterfaceScene scene, double uMm, double vMm) {
        return IntStream.range(0, STEPS)
                .mapToDouble(n -> scene.scene().huAt(scene.face().point(uMm, vMm, LOWEST_MM + (n + 0.5) * STEP_MM)))
                .toArray();
    }

    /** Mean over a window of the blurred profile. */
    private double meanHu(double[] hu, double fromMm, double toMm) {
        double sigma = sigmaMm();
        double sum = 0;
        for (int n = 0; n < STEPS; n++) {
            double t = LOWEST_MM + (n + 0.5) * STEP_MM;
            sum += STEP_MM * hu[n] * (below((toMm - t) / sigma) - below((fromMm - t) / sigma));
        }
        return sum / (toMm - fromMm);
    }

    /** Where the blurred profile falls to the middle between the implant and what lies 2 to 4 mm outside. */
    private double edgeMm(double[] hu) {
        double[] outside = IntStream.rangeClosed(20, 40)
                .mapToDouble(n -> meanHu(hu, 0.1 * n - STEP_MM, 0.1 * n + STEP_MM))
                .sorted()
                .toArray();
        double level = 0.5 * (before.spec().implant().porousHu() + outside[outside.length / 2]);
        double t = 1;
        while (t > -1 && meanHu(hu, t - STEP_MM, t + STEP_MM) < level) {
            t -= STEP_MM;
        }
        return t;
    }

    /** Blur along the normal in the reference exam with the voxel's box, mm. */
    private double sigmaMm() {
        PatientVector n = before.face().normal();
        VolumeGrid grid = scanBefore.grid();
        double inPlane = Math.hypot(scanBefore.pointSpread().sigmaInPlaneMm(), grid.columnSpacingMm() / Math.sqrt(12));
        double along = Math.hypot(
                scanBefore.pointSpread().sigmaAlongTableMm(), grid.pitchMm().orElseThrow() / Math.sqrt(12));
        double c = n.dot(grid.normal());
        return Math.sqrt((1 - c * c) * inPlane * inPlane + c * c * along * along);
    }

    private static double below(double x) {
        return 0.5 * Erfc.value(-x / Math.sqrt(2));
    }

    private static InterfaceScene with(InterfaceScene scene, Scene other) {
        return new InterfaceScene(scene.spec(), scene.face(), scene.pattern(), other);
    }

    private static double otherGap(UniformRandomProvider random, double gapMm) {
        if (gapMm == 0) {
            return between(random, 1, 3);
        }
        return gapMm >= 1 && random.nextBoolean() ? 0 : gapMm + between(random, 1, 2);
    }

    private static Body overArea(FaceFrame face, GapPattern pattern, int a, int b, double hu) {
        double[] u = pattern.uLinesMm();
        double[] v = pattern.vLinesMm();
        // Areas at the rim go on beyond the face.
        double u0 = a == 0 ? u[0] - 10 : u[a];
        double u1 = a == u.length - 2 ? u[a + 1] + 10 : u[a + 1];
        double v0 = b == 0 ? v[0] - 10 : v[b];
        double v1 = b == v.length - 2 ? v[b + 1] + 10 : v[b + 1];
        PatientPoint middle = face.point(0.5 * (u0 + u1), 0.5 * (v0 + v1), 5);
        return Body.of(
                "other density",
                new Box(middle, face.u(), face.v(), face.normal(), 0.5 * (u1 - u0), 0.5 * (v1 - v0), 7),
                hu);
    }

    /** The same scene on a scale that reads so many HU more. */
    private static Scene drifted(Scene scene, double hu) {
        List<Body> bodies = scene.bodies().stream()
                .map(b -> new Body(b.name(), b.solid(), b.coreHu() + hu, b.shellMm(), b.shellHu() + hu))
                .toList();
        return new Scene(scene.backgroundHu() + hu, bodies, scene.placement());
    }

    private static RigidTransform turn(
            UniformRandomProvider random, PatientPoint centre, double largestDeg, double largestMm) {
        PatientVector axis =
                new PatientVector(between(random, -1, 1), between(random, -1, 1), between(random, -1, 1) + 1e-3);
        return RigidTransform.rotation(axis, between(random, -largestDeg, largestDeg), centre)
                .then(RigidTransform.translation(new PatientVector(
                        between(random, -largestMm, largestMm),
                        between(random, -largestMm, largestMm),
                        between(random, -largestMm, largestMm))));
    }

    private static RigidTransform drawnError(UniformRandomProvider random, PatientPoint centre) {
        ContinuousSampler normal = ZigguratSampler.NormalizedGaussian.of(random);
        return RigidTransform.rotation(PatientVector.LEFT, POSE_SD_DEG * normal.sample(), centre)
                .then(RigidTransform.rotation(PatientVector.POSTERIOR, POSE_SD_DEG * normal.sample(), centre))
                .then(RigidTransform.rotation(PatientVector.CRANIAL, POSE_SD_DEG * normal.sample(), centre))
                .then(RigidTransform.translation(new PatientVector(
                        POSE_SD_MM * normal.sample(), POSE_SD_MM * normal.sample(), POSE_SD_MM * normal.sample())));
    }

    private static double between(UniformRandomProvider random, double low, double high) {
        return low + (high - low) * random.nextDouble();
    }
}
