package org.holdfast.volume;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * Where the voxels of a stack of parallel slices lie in patient space. Immutable.
 *
 * <p>Each slice has its own true position, so the grid may be sheared (a tilted gantry: the step between slices is not
 * along the normal) and irregular (unequal steps, holes). Between two slices the position is interpolated linearly, so
 * that for a regular stack the mapping is exactly affine, with the step between image positions as third axis
 * (measurement definition, section 1). Nothing here reads SliceThickness, SpacingBetweenSlices or GantryDetectorTilt.
 */
public final class VolumeGrid {

    /** A position off the regular grid by more than this share of the pitch (or the floor below) is irregular. */
    static final double IRREGULAR_SHARE = 0.01;
    /** Floor of the irregularity rule, mm. */
    static final double IRREGULAR_FLOOR_MM = 0.01;
    /** A step longer than this multiple of its neighbours is a hole. */
    static final double HOLE_FACTOR = 1.5;

    private final int columns;
    private final int rows;
    private final double columnSpacingMm;
    private final double rowSpacingMm;
    private final PatientVector rowDirection;
    private final PatientVector columnDirection;
    private final PatientVector normal;
    private final PatientPoint[] origins;
    private final double[] positionsMm;
    private final boolean irregular;
    private final boolean[] holeAfter;

    // Copies as plain numbers for the sampling loops.
    final double ux;
    final double uy;
    final double uz;
    final double vx;
    final double vy;
    final double vz;

    /**
     * @param columns voxels in a row, ≥ 1
     * @param rows rows in a slice, ≥ 1
     * @param columnSpacingMm distance between columns, the second value of DICOM's PixelSpacing, mm
     * @param rowSpacingMm distance between rows, the first value of DICOM's PixelSpacing, mm
     * @param rowDirection direction in which the column index rises; unit within 1e-3
     * @param columnDirection direction in which the row index rises; unit and at right angles to the first within 1e-3;
     *     both are made orthonormal (the row direction is kept)
     * @param sliceOrigins centre of voxel (0, 0) of each slice, strictly ascending along rowDirection × columnDirection
     * @throws IllegalArgumentException if a value is outside its range
     */
    public VolumeGrid(
            int columns,
            int rows,
            double columnSpacingMm,
            double rowSpacingMm,
            PatientVector rowDirection,
            PatientVector columnDirection,
            List<PatientPoint> sliceOrigins) {
        if (columns < 1 || rows < 1 || sliceOrigins.isEmpty()) {
            throw new IllegalArgumentException("a grid needs columns, rows and slices, got " + columns + " × " + rows
                    + " × " + sliceOrigins.size());
        }
        if (!(columnSpacingMm > 0 && rowSpacingMm > 0)
                || !Double.isFinite(columnSpacingMm)
                || !Double.isFinite(rowSpacingMm)) {
            throw new IllegalArgumentException("pixel spacing must be positive and finite, got " + rowSpacingMm + " \\ "
                    + columnSpacingMm + " mm");
        }
        requireNearlyOrthonormal(rowDirection, columnDirection);
        this.columns = columns;
        this.rows = rows;
        this.columnSpacingMm = columnSpacingMm;
        this.rowSpacingMm = rowSpacingMm;
        this.rowDirection = rowDirection.unit();
        this.columnDirection = columnDirection
                .minus(this.rowDirection.times(columnDirection.dot(this.rowDirection)))
                .unit();
        this.normal = this.rowDirection.cross(this.columnDirection);
        this.origins = sliceOrigins.toArray(PatientPoint[]::new);
        this.positionsMm = new double[origins.length];
        for (int k = 0; k < origins.length; k++) {
            positionsMm[k] = origins[k].minus(PatientPoint.ORIGIN).dot(normal);
            if (k > 0 && !(positionsMm[k] > positionsMm[k - 1])) {
                throw new IllegalArgumentException(String.format(
                        Locale.ROOT,
                        "slice positions must ascend along the normal, slice %d lies at %.4f mm after %.4f mm",
                        k,
                        positionsMm[k],
                        positionsMm[k - 1]));
            }
        }
        this.irregular = departsFromRegular();
        if (!irregular && origins.length > 1) {
            snapToRegular();
        }
        this.holeAfter = findHoles();
        ux = this.rowDirection.x();
        uy = this.rowDirection.y();
        uz = this.rowDirection.z();
        vx = this.columnDirection.x();
        vy = this.columnDirection.y();
        vz = this.columnDirection.z();
    }

    /** Voxels in a row. */
    public int columns() {
        return columns;
    }

    /** Rows in a slice. */
    public int rows() {
        return rows;
    }

    /** Slices. */
    public int slices() {
        return origins.length;
    }

    /** Distance between columns, mm. */
    public double columnSpacingMm() {
        return columnSpacingMm;
    }

    /** Distance between rows, mm. */
    public double rowSpacingMm() {
        return rowSpacingMm;
    }

    /** Unit direction in which the column index rises. */
    public PatientVector rowDirection() {
        return rowDirection;
    }

    /** Unit direction in which the row index rises. */
    public PatientVector columnDirection() {
        return columnDirection;
    }

    /** Unit normal of the slices, rowDirection × columnDirection; slice positions ascend along it. */
    public PatientVector normal() {
        return normal;
    }

    /** Centre of voxel (0, 0) of a slice. */
    public PatientPoint sliceOrigin(int k) {
        return origins[k];
    }

    /** Position of a slice along the normal, mm. */
    public double positionMm(int k) {
        return positionsMm[k];
    }

    /** Positions of all slices along the normal, mm; a copy. */
    public double[] positionsMm() {
        return positionsMm.clone();
    }

    /** Median step between neighbouring slices along the normal, mm; empty for a single slice. */
    public OptionalDouble pitchMm() {
        if (origins.length < 2) {
            return OptionalDouble.empty();
        }
        double[] steps = steps();
        Arrays.sort(steps);
        int half = steps.length / 2;
        return OptionalDouble.of(steps.length % 2 == 1 ? steps[half] : 0.5 * (steps[half - 1] + steps[half]));
    }

    /** Whether a slice lies off the regular grid by more than 1 % of the pitch (and 0.01 mm). */
    public boolean isIrregular() {
        return irregular;
    }

    /** Whether slices are missing between slice k and k + 1. */
    public boolean isHoleAfter(int k) {
        return holeAfter[k];
    }

    /** Slices after which others are missing, ascending; empty for a stack without holes. */
    public List<Integer> holesAfter() {
        List<Integer> result = new ArrayList<>();
        for (int k = 0; k < holeAfter.length; k++) {
            if (holeAfter[k]) {
                result.add(k);
            }
        }
        return List.copyOf(result);
    }

    /** Angle between the track of the image positions (first to last) and the normal, degrees; 0 for one slice. */
    public double shearDeg() {
        return origins.length < 2
                ? 0
                : origins[origins.length - 1].minus(origins[0]).angleDegTo(normal);
    }

    /** The centre of a voxel. */
    public PatientPoint voxelToPatient(VoxelIndex voxel) {
        return voxelToPatient(new VoxelCoord(voxel.i(), voxel.j(), voxel.k()));
    }

    /** A continuous voxel position in patient space; beyond the ends the last step is continued. */
    public PatientPoint voxelToPatient(VoxelCoord c) {
        PatientPoint origin = originAt(c.k());
        return origin.along(rowDirection, c.i() * columnSpacingMm).along(columnDirection, c.j() * rowSpacingMm);
    }

    /** The continuous voxel position of a patient point; beyond the ends the last step is continued. */
    public VoxelCoord patientToVoxel(PatientPoint p) {
        double k = sliceCoordAt(p.x() * normal.x() + p.y() * normal.y() + p.z() * normal.z());
        PatientVector d = p.minus(originAt(k));
        return new VoxelCoord(d.dot(rowDirection) / columnSpacingMm, d.dot(columnDirection) / rowSpacingMm, k);
    }

    /** Whether a voxel index lies in the grid. */
    public boolean contains(VoxelIndex v) {
        return v.i() >= 0 && v.j() >= 0 && v.k() >= 0 && v.i() < columns && v.j() < rows && v.k() < slices();
    }

    /** Extent of one voxel along a unit direction, mm: the length of its projection's standard box, Σ|d·axis|·spacing. */
    public double voxelExtentMm(PatientVector direction) {
        double pitch = pitchMm().orElse(0);
        return Math.abs(direction.dot(rowDirection)) * columnSpacingMm
                + Math.abs(direction.dot(columnDirection)) * rowSpacingMm
                + Math.abs(direction.dot(normal)) * pitch;
    }

    /** Volume of the voxels of a slice, mm³: pixel area × half the way to each neighbour (a whole step at the ends). */
    public double voxelVolumeMm3(int k) {
        int last = origins.length - 1;
        if (last == 0) {
            throw new IllegalArgumentException("a single slice has no volume");
        }
        double before = k == 0 ? positionsMm[1] - positionsMm[0] : positionsMm[k] - positionsMm[k - 1];
        double after = k == last ? positionsMm[last] - positionsMm[last - 1] : positionsMm[k + 1] - positionsMm[k];
        return columnSpacingMm * rowSpacingMm * 0.5 * (before + after);
    }

    /** Continuous slice coordinate of a position along the normal. */
    double sliceCoordAt(double positionMm) {
        int last = origins.length - 1;
        if (last == 0) {
            return positionMm - positionsMm[0];
        }
        if (!irregular) {
            return (positionMm - positionsMm[0]) * last / (positionsMm[last] - positionsMm[0]);
        }
        int at = Arrays.binarySearch(positionsMm, positionMm);
        int below = Math.min(last - 1, Math.max(0, at >= 0 ? at : -at - 2));
        return below + (positionMm - positionsMm[below]) / (positionsMm[below + 1] - positionsMm[below]);
    }

    /** Position of voxel (0, 0) at a continuous slice coordinate. */
    PatientPoint originAt(double k) {
        int last = origins.length - 1;
        if (last == 0) {
            return origins[0].along(normal, k);
        }
        int below = Math.min(last - 1, Math.max(0, (int) Math.floor(k)));
        return origins[below].towards(origins[below + 1], k - below);
    }

    private double[] steps() {
        double[] steps = new double[origins.length - 1];
        for (int k = 0; k < steps.length; k++) {
            steps[k] = positionsMm[k + 1] - positionsMm[k];
        }
        return steps;
    }

    private boolean departsFromRegular() {
        int last = origins.length - 1;
        if (last < 2) {
            return false;
        }
        double pitch = pitchMm().orElseThrow();
        double tolerance = Math.max(IRREGULAR_SHARE * pitch, IRREGULAR_FLOOR_MM);
        for (int k = 1; k < last; k++) {
            PatientPoint regular = origins[0].towards(origins[last], (double) k / last);
            if (origins[k].distanceTo(regular) > tolerance) {
                return true;
            }
        }
        return false;
    }

    /** Within tolerance the grid is exactly affine: rounding noise of written positions is taken out. */
    private void snapToRegular() {
        int last = origins.length - 1;
        PatientPoint first = origins[0];
        PatientPoint end = origins[last];
        for (int k = 1; k < last; k++) {
            origins[k] = first.towards(end, (double) k / last);
            positionsMm[k] = positionsMm[0] + (positionsMm[last] - positionsMm[0]) * k / last;
        }
    }

    private boolean[] findHoles() {
        boolean[] holes = new boolean[Math.max(0, origins.length - 1)];
        if (holes.length < 2) {
            return holes;
        }
        double[] steps = steps();
        double median = pitchMm().orElseThrow();
        for (int k = 0; k < steps.length; k++) {
            double before = k > 0 ? steps[k - 1] : median;
            double after = k < steps.length - 1 ? steps[k + 1] : median;
            holes[k] = steps[k] > HOLE_FACTOR * before && steps[k] > HOLE_FACTOR * after;
        }
        return holes;
    }

    private static void requireNearlyOrthonormal(PatientVector u, PatientVector v) {
        double worst = Math.max(Math.abs(u.dot(v)), Math.max(Math.abs(u.norm() - 1), Math.abs(v.norm() - 1)));
        if (worst > 1e-3) {
            throw new IllegalArgumentException(
                    "slice directions must be orthonormal within 1e-3, they are off by " + worst + ": " + u + ", " + v);
        }
    }
}
