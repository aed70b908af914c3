package org.holdfast.phantom;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;

/**
 * How a {@link SpineScene} is scanned: axial slices cropped to the implants and so much round them.
 *
 * @param sceneToExam where the subject lay
 * @param pixelMm pixel spacing, mm
 * @param pitchMm distance of slices, mm
 * @param marginMm of image round the implants, mm
 * @param pointSpread blur
 * @param noiseSdHu noise of a voxel, HU
 * @param scale HU scale
 * @param seed start of the noise
 */
public record SpineScan(
        RigidTransform sceneToExam,
        double pixelMm,
        double pitchMm,
        double marginMm,
        PointSpread pointSpread,
        double noiseSdHu,
        HuScale scale,
        long seed) {

    public SpineScan {
        Objects.requireNonNull(sceneToExam, "sceneToExam");
        Objects.requireNonNull(pointSpread, "pointSpread");
        Objects.requireNonNull(scale, "scale");
        Require.positive(pixelMm, "pixelMm");
        Require.positive(pitchMm, "pitchMm");
        Require.notNegative(marginMm, "marginMm");
        Require.notNegative(noiseSdHu, "noiseSdHu");
    }

    /** Scans a scene. */
    public HuVolume of(SpineScene scene, Progress progress) {
        ScanSettings settings = new ScanSettings(grid(), pointSpread, noiseSdHu, seed, scale);
        return ScanSimulator.scan(scene.scene().moved(sceneToExam), settings, progress);
    }

    private VolumeGrid grid() {
        List<PatientPoint> corners = SpineScene.metalCorners();
        double[] low = {Double.MAX_VALUE, Double.MAX_VALUE, Double.MAX_VALUE};
        double[] high = {-Double.MAX_VALUE, -Double.MAX_VALUE, -Double.MAX_VALUE};
        for (int corner = 0; corner < 8; corner++) {
            PatientPoint p = sceneToExam.apply(new PatientPoint(
                    corners.get(corner & 1).x(),
                    corners.get(corner >> 1 & 1).y(),
                    corners.get(corner >> 2 & 1).z()));
            double[] at = {p.x(), p.y(), p.z()};
            for (int axis = 0; axis < 3; axis++) {
                low[axis] = Math.min(low[axis], at[axis] - marginMm);
                high[axis] = Math.max(high[axis], at[axis] + marginMm);
            }
        }
        int columns = (int) Math.ceil((high[0] - low[0]) / pixelMm);
        int rows = (int) Math.ceil((high[1] - low[1]) / pixelMm);
        int slices = (int) Math.ceil((high[2] - low[2]) / pitchMm);
        List<PatientPoint> origins = new ArrayList<>();
        for (int k = 0; k < slices; k++) {
            origins.add(new PatientPoint(low[0], low[1], low[2] + k * pitchMm));
        }
        return new VolumeGrid(columns, rows, pixelMm, pixelMm, PatientVector.LEFT, PatientVector.POSTERIOR, origins);
    }
}
