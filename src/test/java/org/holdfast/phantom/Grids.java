package org.holdfast.phantom;

import java.util.ArrayList;
import java.util.List;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.VolumeGrid;

/** Grids for tests, centred on the origin. */
final class Grids {

    private Grids() {}

    /** Axial slices with rows to the left and columns to posterior. */
    static VolumeGrid upright(int columns, int rows, int slices, double columnMm, double rowMm, double pitchMm) {
        return tilted(columns, rows, slices, columnMm, rowMm, pitchMm, 0);
    }

    /** Slices turned about the left axis, moved along the table: the step stays along z, so the stack is sheared. */
    static VolumeGrid tilted(
            int columns, int rows, int slices, double columnMm, double rowMm, double pitchMm, double gantryDeg) {
        double c = Math.cos(Math.toRadians(gantryDeg));
        double s = Math.sin(Math.toRadians(gantryDeg));
        PatientVector row = PatientVector.LEFT;
        PatientVector column = new PatientVector(0, c, s);
        PatientPoint corner = PatientPoint.ORIGIN
                .along(row, -0.5 * (columns - 1) * columnMm)
                .along(column, -0.5 * (rows - 1) * rowMm);
        List<PatientPoint> origins = new ArrayList<>();
        for (int k = 0; k < slices; k++) {
            origins.add(corner.along(PatientVector.CRANIAL, (k - 0.5 * (slices - 1)) * pitchMm / c));
        }
        return new VolumeGrid(columns, rows, columnMm, rowMm, row, column, origins);
    }
}
