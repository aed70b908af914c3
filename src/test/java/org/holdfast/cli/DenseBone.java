package org.holdfast.cli;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.holdfast.construct.Axes;
import org.holdfast.construct.Bone;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.BoxShape;
import org.holdfast.construct.Component;
import org.holdfast.construct.ComponentKind;
import org.holdfast.construct.Construct;
import org.holdfast.construct.Filler;
import org.holdfast.construct.Material;
import org.holdfast.construct.PlanePatch;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.intake.Stack;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;
import org.holdfast.volume.VoxelCoord;

/**
 * The longest stretch of dense bone along lines out of the middle of a slice, and a construct whose "implant" is that
 * bone: a box with two opposite faces at the ends of the stretch, its outer and its inner table.
 *
 * @param inner inner end of the stretch
 * @param outward unit direction from the middle of the slice
 * @param lengthMm length of the stretch, mm
 * @param along unit direction in the slice, at right angles to outward
 * @param normal the slice's normal
 */
record DenseBone(
        PatientPoint inner, PatientVector outward, double lengthMm, PatientVector along, PatientVector normal) {

    private static final double STEP_MM = 0.25;
    private static final double HALF_MM = 1.5;
    private static final double REACH_MM = 150;
    private static final int DIRECTIONS = 180;

    /**
     * The longest stretch at or over a HU on three lines side by side, in slices that have neighbours where there are any.
     * Null where nothing is so dense.
     */
    static DenseBone find(HuVolume volume, double denseHu) {
        VolumeGrid grid = volume.grid();
        DenseBone best = null;
        int margin = grid.slices() > 2 ? 1 : 0;
        for (int k = margin; k < grid.slices() - margin; k++) {
            PatientPoint middle = grid.voxelToPatient(new VoxelCoord(0.5 * grid.columns(), 0.5 * grid.rows(), k));
            for (int n = 0; n < DIRECTIONS; n++) {
                double angle = 2 * Math.PI * n / DIRECTIONS;
                PatientVector outward = grid.rowDirection()
                        .times(Math.cos(angle))
                        .plus(grid.columnDirection().times(Math.sin(angle)));
                PatientVector along = grid.normal().cross(outward).unit();
                double from = Double.NaN;
                for (double r = 0; r <= REACH_MM; r += STEP_MM) {
                    boolean dense = isDense(volume, middle.along(outward, r), along, denseHu);
                    if (dense && Double.isNaN(from)) {
                        from = r;
                    }
                    if (!dense && !Double.isNaN(from)) {
                        if (best == null || r - STEP_MM - from > best.lengthMm) {
                            best = new DenseBone(
                                    middle.along(outward, from), outward, r - STEP_MM - from, along, grid.normal());
                        }
                        from = Double.NaN;
                    }
                }
            }
        }
        return best;
    }

    private static boolean isDense(HuVolume volume, PatientPoint at, PatientVector along, double denseHu) {
        boolean dense = true;
        for (double aside = -HALF_MM; aside <= HALF_MM; aside += HALF_MM) {
            PatientPoint p = at.along(along, aside);
            dense &= volume.sample(p.x(), p.y(), p.z()) >= denseHu;
        }
        return dense;
    }

    /** The construct on a series; each face is 3 mm long in the slice and reaches 1 mm to both sides of it. */
    Construct construct(Stack stack, LocalDate operation) {
        PatientPoint centre = inner.along(outward, 0.5 * lengthMm);
        Component box = new Component(
                "box",
                1,
                "dense bone taken for an implant",
                ComponentKind.OTHER,
                Material.TITANIUM_SOLID,
                operation,
                Optional.empty(),
                Optional.empty(),
                new BoxShape(centre, List.of(outward, along, normal), List.of(0.5 * lengthMm, HALF_MM, 1.0)));
        return new Construct(
                "by-hand",
                1,
                operation,
                stack.seriesInstanceUid(),
                stack.frameOfReferenceUid().isEmpty() ? "1.2.3" : stack.frameOfReferenceUid(),
                new Axes(centre, PatientVector.LEFT, PatientVector.POSTERIOR, PatientVector.CRANIAL),
                List.of(new Bone("skull", "beside it")),
                List.of(box),
                List.of(),
                List.of(
                        face("outer", 1, inner.along(outward, lengthMm), outward),
                        face("inner", 2, inner, outward.times(-1))));
    }

    private BoneInterface face(String id, int number, PatientPoint centre, PatientVector out) {
        PlanePatch patch = new PlanePatch(PlanePatch.Outline.RECTANGLE, centre, along, normal, out, HALF_MM, 1);
        return new BoneInterface(id, number, id + " table", "box", "skull", Filler.NONE, List.of(patch));
    }
}
