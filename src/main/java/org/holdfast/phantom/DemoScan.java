package org.holdfast.phantom;

import java.util.ArrayList;
import java.util.List;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.volume.VolumeGrid;

/**
 * How the demo subject lay and was scanned at each exam.
 *
 * @param sceneToExam where the subject lay
 * @param settings grid, blur, noise, scale
 * @param kernel name of the reconstruction kernel, invented
 */
record DemoScan(RigidTransform sceneToExam, ScanSettings settings, String kernel) {

    private static final double FULL_FIELD_MM = 182;
    private static final double FULL_HEIGHT_MM = 136;
    private static final PatientPoint FULL_MIDDLE = new PatientPoint(0, 17, 0);
    private static final double SMALL_PIXEL_MM = 0.65;
    private static final double SMALL_PITCH_MM = 0.6;
    private static final int SMALL_COLUMNS = 116;
    private static final int SMALL_ROWS = 120;
    private static final int SMALL_SLICES = 160;
    private static final PatientPoint SMALL_MIDDLE = new PatientPoint(0, 17, 0);
    private static final String SHARP_KERNEL = "SIM BONE 60";
    private static final String SOFT_KERNEL = "SIM SOFT 40";

    static DemoScan of(DemoStage stage, DemoSeries.Size size) {
        return switch (stage) {
            case SURGERY -> scan(stage, size, pose(3, -2, 1.5, 6, -118, 32), 0.47, 0.6, 0);
            case MONTH_3 -> scan(stage, size, pose(-4, 3, 2, -14, -131, -21), 0.49, 0.65, 0);
            case MONTH_6 -> scan(stage, size, pose(5, -1, -1, 22, -109, 57), 0.45, 0.6, 0);
            case MONTH_12 -> scan(stage, size, pose(-2, -5, 4, 9, -124, -48), 0.47, 0.6, 12);
            case MONTH_24 -> scan(stage, size, pose(5, 1, -0.5, -18, -114, 15), 0.46, 0.62, 0);
        };
    }

    private static DemoScan scan(
            DemoStage stage,
            DemoSeries.Size size,
            RigidTransform pose,
            double pixelMm,
            double pitchMm,
            double gantryDeg) {
        boolean soft = stage == DemoStage.MONTH_3;
        PointSpread spread = soft ? new PointSpread(0.42, 0.29) : new PointSpread(0.32, 0.26);
        VolumeGrid grid;
        if (size == DemoSeries.Size.FULL) {
            int pixels = (int) Math.round(FULL_FIELD_MM / pixelMm);
            int slices = (int) Math.round(FULL_HEIGHT_MM / pitchMm);
            grid = grid(pose.apply(FULL_MIDDLE), pixels, pixels, pixelMm, slices, pitchMm, gantryDeg);
        } else {
            grid = grid(
                    pose.apply(SMALL_MIDDLE),
                    SMALL_COLUMNS,
                    SMALL_ROWS,
                    SMALL_PIXEL_MM,
                    SMALL_SLICES,
                    SMALL_PITCH_MM,
                    gantryDeg);
        }
        // One exam on the clipped scale: many archives hold nothing else.
        HuScale scale = soft ? HuScale.CLIPPED_3071 : HuScale.EXTENDED_30710;
        ScanSettings settings = new ScanSettings(grid, spread, soft ? 28 : 20, 7001 + stage.ordinal(), scale);
        return new DemoScan(pose, settings, soft ? SOFT_KERNEL : SHARP_KERNEL);
    }

    /** Turned about the construct's middle, then carried to a place in the exam's patient space. */
    private static RigidTransform pose(
            double aboutLeftDeg, double aboutPosteriorDeg, double aboutCranialDeg, double x, double y, double z) {
        return RigidTransform.rotation(PatientVector.LEFT, aboutLeftDeg, PatientPoint.ORIGIN)
                .then(RigidTransform.rotation(PatientVector.POSTERIOR, aboutPosteriorDeg, PatientPoint.ORIGIN))
                .then(RigidTransform.rotation(PatientVector.CRANIAL, aboutCranialDeg, PatientPoint.ORIGIN))
                .then(RigidTransform.translation(new PatientVector(x, y, z)));
    }

    /**
     * A grid of axial slices round a point; with a tilted gantry the slices are turned about the left axis while the
     * table still runs along z, so the stack is sheared.
     */
    private static VolumeGrid grid(
            PatientPoint middle, int columns, int rows, double pixelMm, int slices, double pitchMm, double gantryDeg) {
        double cosine = Math.cos(Math.toRadians(gantryDeg));
        PatientVector column = new PatientVector(0, cosine, Math.sin(Math.toRadians(gantryDeg)));
        PatientPoint corner = new PatientPoint(tenth(middle.x()), tenth(middle.y()), tenth(middle.z()))
                .along(PatientVector.LEFT, -0.5 * (columns - 1) * pixelMm)
                .along(column, -0.5 * (rows - 1) * pixelMm);
        List<PatientPoint> origins = new ArrayList<>();
        for (int k = 0; k < slices; k++) {
            origins.add(corner.along(PatientVector.CRANIAL, (k - 0.5 * (slices - 1)) * pitchMm / cosine));
        }
        return new VolumeGrid(columns, rows, pixelMm, pixelMm, PatientVector.LEFT, column, origins);
    }

    private static double tenth(double mm) {
        return Math.rint(10 * mm) / 10;
    }
}
