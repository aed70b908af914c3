package org.holdfast.registration;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.phantom.Body;
import org.holdfast.phantom.Box;
import org.holdfast.phantom.CappedCylinder;
import org.holdfast.phantom.HuScale;
import org.holdfast.phantom.PointSpread;
import org.holdfast.phantom.RoundRod;
import org.holdfast.phantom.ScanSettings;
import org.holdfast.phantom.ScanSimulator;
import org.holdfast.phantom.Scene;
import org.holdfast.phantom.Solid;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.Rescale;
import org.holdfast.volume.VolumeGrid;

/**
 * A small construct for tests of registration: a porous body between two vertebrae, four screws with heads, two rods. The
 * scene's space has its origin in the middle of the body. Every with… gives another scene.
 */
public record MetalScene(
        List<Part> parts,
        RigidTransform upperMoved,
        double voxelMm,
        PointSpread spread,
        double noiseHu,
        HuScale scale) {

    /** Names of parts that belong to the upper level begin with this. */
    private static final String UPPER = "upper";

    static final PatientPoint LOW_CORNER = new PatientPoint(-28, -16, -40);
    static final PatientPoint HIGH_CORNER = new PatientPoint(28, 50, 40);

    public record Part(String name, Solid solid, double hu, double shellMm, double shellHu) {
        Body body(RigidTransform moved) {
            return new Body(name, solid.moved(moved), hu, shellMm, shellHu);
        }
    }

    /** The construct as it was put in, on the extended scale. */
    public static MetalScene asImplanted() {
        List<Part> parts = new ArrayList<>();
        parts.add(new Part("upper vertebra", box(0, 0, 32, 21, 16, 12), 200, 1.2, 650));
        parts.add(new Part("lower vertebra", box(0, 0, -32, 21, 16, 12), 180, 1.2, 650));
        parts.add(new Part("body", box(0, 0, 0, 13, 11, 18), 7500, 3, 2100));
        for (int side : new int[] {-1, 1}) {
            parts.add(screw("upper screw", side, 30));
            parts.add(head("upper head", side, 30));
            parts.add(screw("lower screw", side, -29));
            parts.add(head("lower head", side, -29));
            List<PatientPoint> rod = List.of(
                    new PatientPoint(21 * side, 38, 39),
                    new PatientPoint(20.5 * side, 40, 4),
                    new PatientPoint(21 * side, 38, -38));
            parts.add(new Part("rod", new RoundRod(rod, 2.75), 7500, 0, 7500));
        }
        return new MetalScene(
                parts, RigidTransform.IDENTITY, 0.8, new PointSpread(0.4, 0.4), 25, HuScale.EXTENDED_30710);
    }

    private static Box box(double x, double y, double z, double halfX, double halfY, double halfZ) {
        return Box.upright(new PatientPoint(x, y, z), halfX, halfY, halfZ);
    }

    private static Part screw(String name, int side, double z) {
        Solid shank = new CappedCylinder(new PatientPoint(20 * side, 36, z), new PatientPoint(8 * side, -4, z + 2), 3);
        return new Part(name, shank, 7500, 0, 7500);
    }

    private static Part head(String name, int side, double z) {
        Solid head =
                new CappedCylinder(new PatientPoint(22 * side, 42, z), new PatientPoint(20 * side, 34, z + 0.4), 5.5);
        return new Part(name, head, 7500, 0, 7500);
    }

    MetalScene without(String name) {
        return with(parts.stream().filter(p -> !p.name.equals(name)).toList());
    }

    MetalScene plus(String name, Solid solid, double hu) {
        List<Part> more = new ArrayList<>(parts);
        more.add(new Part(name, solid, hu, 0, hu));
        return with(more);
    }

    private MetalScene with(List<Part> others) {
        return new MetalScene(others, upperMoved, voxelMm, spread, noiseHu, scale);
    }

    /** The upper vertebra and its screws have gone somewhere else. */
    MetalScene withUpperMoved(RigidTransform moved) {
        return new MetalScene(parts, moved, voxelMm, spread, noiseHu, scale);
    }

    public MetalScene scanned(double otherVoxelMm, PointSpread otherSpread, double otherNoiseHu, HuScale otherScale) {
        return new MetalScene(parts, upperMoved, otherVoxelMm, otherSpread, otherNoiseHu, otherScale);
    }

    private Scene scene() {
        Scene scene = Scene.of(40);
        for (Part part : parts) {
            scene = scene.with(part.body(part.name.startsWith(UPPER) ? upperMoved : RigidTransform.IDENTITY));
        }
        return scene;
    }

    /** A scan of the whole construct. */
    public HuVolume scan(RigidTransform sceneToExam, long seed) {
        return scan(sceneToExam, LOW_CORNER, HIGH_CORNER, seed);
    }

    /**
     * A scan of a box of the scene, in any place; the grid stands askew to the scene, by another turn for each seed.
     *
     * @param low corner of the box in the scene's space
     * @param high opposite corner
     */
    HuVolume scan(RigidTransform sceneToExam, PatientPoint low, PatientPoint high, long seed) {
        PatientPoint middle = low.towards(high, 0.5);
        PatientVector axis = new PatientVector(1 + seed % 3, 1.5 - seed % 2, seed % 5 - 2.2);
        RigidTransform askew = RigidTransform.rotation(axis, 3 + seed % 4, middle);
        RigidTransform gridToExam = askew.then(sceneToExam);
        return scan(sceneToExam, grid(low, high, gridToExam), seed);
    }

    /** A scan on any grid that lies in the exam's patient space. */
    HuVolume scan(RigidTransform sceneToExam, VolumeGrid grid, long seed) {
        ScanSettings settings = new ScanSettings(grid, spread, noiseHu, seed, scale);
        return ScanSimulator.scan(scene().moved(sceneToExam), settings, Progress.NONE);
    }

    private VolumeGrid grid(PatientPoint low, PatientPoint high, RigidTransform gridToExam) {
        int columns = (int) Math.ceil((high.x() - low.x()) / voxelMm);
        int rows = (int) Math.ceil((high.y() - low.y()) / voxelMm);
        int slices = (int) Math.ceil((high.z() - low.z()) / voxelMm);
        List<PatientPoint> origins = new ArrayList<>();
        for (int k = 0; k < slices; k++) {
            origins.add(gridToExam.apply(low.along(PatientVector.CRANIAL, k * voxelMm)));
        }
        return new VolumeGrid(
                columns,
                rows,
                voxelMm,
                voxelMm,
                gridToExam.apply(PatientVector.LEFT),
                gridToExam.apply(PatientVector.POSTERIOR),
                origins);
    }

    /** The same voxels in a patient space that lies elsewhere; whole HU or steps of ten of them are kept. */
    static HuVolume inAnotherSpace(HuVolume scan, RigidTransform hereToThere) {
        VolumeGrid grid = scan.grid();
        boolean isClipped = scan.statistics().ceilingHu().orElse(Double.MAX_VALUE) < 4000;
        HuScale scale = isClipped ? HuScale.CLIPPED_3071 : HuScale.EXTENDED_30710;
        Rescale[] rescale = new Rescale[grid.slices()];
        Arrays.fill(rescale, scale.rescale());
        List<PatientPoint> origins = new ArrayList<>();
        for (int k = 0; k < grid.slices(); k++) {
            origins.add(hereToThere.apply(grid.sliceOrigin(k)));
        }
        VolumeGrid there = new VolumeGrid(
                grid.columns(),
                grid.rows(),
                grid.columnSpacingMm(),
                grid.rowSpacingMm(),
                hereToThere.apply(grid.rowDirection()),
                hereToThere.apply(grid.columnDirection()),
                origins);
        HuVolume.Builder builder = HuVolume.builder(there, scale.format(), rescale);
        for (int k = 0; k < grid.slices(); k++) {
            float[] hu = scan.copySlice(k, new float[grid.columns() * grid.rows()]);
            short[] words = new short[hu.length];
            for (int v = 0; v < hu.length; v++) {
                words[v] = (short) Math.round((hu[v] - rescale[k].intercept()) / rescale[k].slope());
            }
            builder.slice(k, words, null);
        }
        return builder.build();
    }

    /** The largest distance between the images of the corners of the construct's box under two poses, mm. */
    public static double cornerErrorMm(RigidTransform pose, RigidTransform truth, RigidTransform sceneToReference) {
        double largest = 0;
        for (int n = 0; n < 8; n++) {
            PatientPoint corner = new PatientPoint(
                    (n & 1) == 0 ? LOW_CORNER.x() : HIGH_CORNER.x(),
                    (n & 2) == 0 ? LOW_CORNER.y() : HIGH_CORNER.y(),
                    (n & 4) == 0 ? LOW_CORNER.z() : HIGH_CORNER.z());
            PatientPoint inReference = sceneToReference.apply(corner);
            largest = Math.max(largest, pose.apply(inReference).distanceTo(truth.apply(inReference)));
        }
        return largest;
    }
}
