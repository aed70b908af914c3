package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.List;
import org.holdfast.construct.CutAxes;
import org.holdfast.desktop.state.CutLook;
import org.holdfast.desktop.state.ExamPane;
import org.holdfast.desktop.state.PaneFrame;
import org.holdfast.desktop.state.WholeExamLook;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.volume.VolumeGrid;
import org.holdfast.volume.VoxelCoord;

/**
 * Where the four pictures of a whole exam lie, by the grid of its stack alone. Immutable.
 *
 * <p>Original slices keep their own plane, and each its own place: a stack of a tilted gantry is shown slice by slice as it
 * was stored, not straightened. The other three lie in patient space, seen as the trade does: the patient's right on the
 * left, or anterior on the left; the head up, or anterior up.
 */
public final class ExamPlanes {

    private static final CutAxes AXIAL = new CutAxes(PatientVector.LEFT, PatientVector.POSTERIOR);
    private static final CutAxes CORONAL = new CutAxes(PatientVector.LEFT, PatientVector.CRANIAL.times(-1));
    private static final CutAxes SAGITTAL = new CutAxes(PatientVector.POSTERIOR, PatientVector.CRANIAL.times(-1));

    private final VolumeGrid grid;
    private final CutAxes original;
    private final List<PatientPoint> corners;
    private final PatientPoint middle;

    /** The planes of a stack. */
    public ExamPlanes(VolumeGrid grid) {
        this.grid = grid;
        this.original = new CutAxes(grid.rowDirection(), grid.columnDirection());
        this.corners = corners(grid);
        this.middle = new PatientPoint(
                between(0, extent(PatientVector.LEFT)),
                between(0, extent(PatientVector.POSTERIOR)),
                between(0, extent(PatientVector.CRANIAL)));
    }

    private static double between(double base, double[] ends) {
        return base + 0.5 * (ends[0] + ends[1]);
    }

    private static List<PatientPoint> corners(VolumeGrid grid) {
        List<PatientPoint> corners = new ArrayList<>();
        // Every slice counts: between the first and the last a stack need not run straight.
        for (int k = 0; k < grid.slices(); k++) {
            for (int corner = 0; corner < 4; corner++) {
                double i = (corner & 1) * (grid.columns() - 1.0);
                double j = (corner >> 1) * (grid.rows() - 1.0);
                corners.add(grid.voxelToPatient(new VoxelCoord(i, j, k)));
            }
        }
        return corners;
    }

    /** Least and greatest of the voxel centres along a direction from the origin, mm. */
    private double[] extent(PatientVector direction) {
        double least = Double.POSITIVE_INFINITY;
        double greatest = Double.NEGATIVE_INFINITY;
        for (PatientPoint corner : corners) {
            double at = corner.minus(PatientPoint.ORIGIN).dot(direction);
            least = Math.min(least, at);
            greatest = Math.max(greatest, at);
        }
        return new double[] {least, greatest};
    }

    /** How a picture lies. */
    public CutAxes axes(ExamPane pane) {
        return switch (pane) {
            case ORIGINAL -> original;
            case AXIAL -> AXIAL;
            case CORONAL -> CORONAL;
            case SAGITTAL -> SAGITTAL;
        };
    }

    /** The stored slice nearest to a place, 0-based along the stack's normal. */
    public int sliceAt(PatientPoint place) {
        long nearest = Math.round(grid.patientToVoxel(place).k());
        return (int) Math.max(0, Math.min(grid.slices() - 1, nearest));
    }

    /** Slices in the stack. */
    public int slices() {
        return grid.slices();
    }

    /** Whether slices are missing between this one and the next. */
    public boolean isHoleAfter(int slice) {
        return slice < grid.slices() - 1 && grid.isHoleAfter(slice);
    }

    /** The middle of the box round all voxel centres. */
    public PatientPoint middle() {
        return middle;
    }

    /** The place nearest to another within the box round all voxel centres. */
    public PatientPoint clamped(PatientPoint place) {
        return new PatientPoint(
                clamp(place.x(), extent(PatientVector.LEFT)),
                clamp(place.y(), extent(PatientVector.POSTERIOR)),
                clamp(place.z(), extent(PatientVector.CRANIAL)));
    }

    /** The place nearest to another by column, row and slice within the stack, where there is an image. */
    public PatientPoint within(PatientPoint place) {
        VoxelCoord at = grid.patientToVoxel(place);
        return grid.voxelToPatient(new VoxelCoord(
                clamp(at.i(), new double[] {0, grid.columns() - 1}),
                clamp(at.j(), new double[] {0, grid.rows() - 1}),
                clamp(at.k(), new double[] {0, grid.slices() - 1})));
    }

    private static double clamp(double at, double[] ends) {
        return Math.max(ends[0], Math.min(ends[1], at));
    }

    /**
     * The place so many steps on along a picture's normal: away from the viewer, for original slices up the stack. A step
     * is one slice, keeping column and row, or one voxel's extent; it ends at the last one.
     */
    public PatientPoint stepped(ExamPane pane, PatientPoint place, int steps) {
        if (pane == ExamPane.ORIGINAL) {
            int slice = Math.max(0, Math.min(grid.slices() - 1, sliceAt(place) + steps));
            VoxelCoord at = grid.patientToVoxel(place);
            return grid.voxelToPatient(new VoxelCoord(at.i(), at.j(), slice));
        }
        PatientVector normal = axes(pane).normal();
        PatientPoint moved = place.along(normal, steps * grid.voxelExtentMm(normal));
        return clamped(moved);
    }

    /** A picture's place and scale at a size in device pixels, both at least 1. */
    public CutGeometry geometry(ExamPane pane, WholeExamLook look, int width, int height) {
        CutAxes axes = axes(pane);
        PaneFrame frame = look.frame(pane);
        PatientPoint whole = pane == ExamPane.ORIGINAL ? sliceMiddle(sliceAt(look.crossing())) : middle;
        double depth =
                pane == ExamPane.ORIGINAL ? 0 : look.crossing().minus(whole).dot(axes.normal());
        PatientPoint centre = whole.along(axes.normal(), depth)
                .along(axes.right(), frame.panMm().dot(axes.right()))
                .along(axes.down(), frame.panMm().dot(axes.down()));
        double fitted = Math.max(widthMm(pane, axes) / width, heightMm(pane, axes) / height);
        return new CutGeometry(
                axes, centre, look.crossing(), fitted / frame.zoom(), width, height, RigidTransform.IDENTITY);
    }

    private PatientPoint sliceMiddle(int slice) {
        return grid.voxelToPatient(new VoxelCoord((grid.columns() - 1) / 2.0, (grid.rows() - 1) / 2.0, slice));
    }

    private double widthMm(ExamPane pane, CutAxes axes) {
        return pane == ExamPane.ORIGINAL ? grid.columns() * grid.columnSpacingMm() : wholeMm(axes.right());
    }

    private double heightMm(ExamPane pane, CutAxes axes) {
        return pane == ExamPane.ORIGINAL ? grid.rows() * grid.rowSpacingMm() : wholeMm(axes.down());
    }

    /** Length of the exam along a direction, half a voxel beyond the outer centres on either side. */
    private double wholeMm(PatientVector direction) {
        double[] ends = extent(direction);
        return ends[1] - ends[0] + Math.max(1e-3, grid.voxelExtentMm(direction));
    }

    /** The frame magnified by a factor, so that the place under a point of the picture stays where it is. */
    public PaneFrame zoomedAt(
            ExamPane pane, WholeExamLook look, double factor, double x, double y, int width, int height) {
        PaneFrame frame = look.frame(pane);
        CutLook as = new CutLook(look.crossing(), frame.zoom(), frame.panMm(), look.window());
        CutLook zoomed = geometry(pane, look, width, height).zoomedAt(as, factor, x, y);
        return new PaneFrame(zoomed.zoom(), zoomed.panMm());
    }
}
