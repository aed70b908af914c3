package org.holdfast.measure;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleBinaryOperator;
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
import org.holdfast.construct.Porous;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;

/**
 * A flat porous face at z = 0 with bone above it, as a volume whose HU follow the closed form of the blurred layers along
 * z, with a gap that may differ from place to place (no blur sideways), and the construct that is laid out on it.
 */
final class LayeredFace {

    static final double HALF_MM = 8;
    private static final double IN_PLANE_MM = 0.5;
    private static final double PITCH_MM = 0.5;
    private static final int SIDE = 49;
    private static final int SLICES = 49;
    private static final double LOWEST_Z = -8;

    final ProfileModel model;
    final Construct construct;

    LayeredFace(ProfileModel model) {
        this(model, Filler.NONE, Material.TITANIUM_POROUS);
    }

    LayeredFace(ProfileModel model, Filler filler, Material material) {
        this.model = model;
        this.construct = construct(filler, material);
    }

    BoneInterface face() {
        return construct.interfaces().get(0);
    }

    /** An exam with a gap of {@code gapMm(x, y)} mm over each place of the face. */
    ExamScan exam(DoubleBinaryOperator gapMm) {
        VolumeGrid grid = grid();
        short[][] hu = new short[SLICES][SIDE * SIDE];
        for (int k = 0; k < SLICES; k++) {
            double z = LOWEST_Z + k * PITCH_MM;
            for (int j = 0; j < SIDE; j++) {
                for (int i = 0; i < SIDE; i++) {
                    double x = (i - SIDE / 2) * IN_PLANE_MM;
                    double y = (j - SIDE / 2) * IN_PLANE_MM;
                    hu[k][i + SIDE * j] = (short) Math.rint(model.hu(z, gapMm.applyAsDouble(x, y)));
                }
            }
        }
        return exam(HuVolume.ofHu(grid, hu), Acquisition.unknown());
    }

    ExamScan exam(HuVolume volume, Acquisition acquisition) {
        // The volume holds the closed form itself: blur without the voxel's box, which the estimate adds.
        double sigma = Math.sqrt(model.sigmaMm() * model.sigmaMm() - PITCH_MM * PITCH_MM / 12);
        return new ExamScan(
                "surgery",
                "1.2.3",
                "00",
                volume,
                acquisition,
                new PointSpreadEstimate(sigma, sigma, PointSpreadEstimate.Source.GIVEN),
                RigidTransform.IDENTITY,
                ExamScan.PoseKind.IDENTITY);
    }

    static VolumeGrid grid() {
        List<PatientPoint> origins = new java.util.ArrayList<>();
        double corner = -(SIDE / 2) * IN_PLANE_MM;
        for (int k = 0; k < SLICES; k++) {
            origins.add(new PatientPoint(corner, corner, LOWEST_Z + k * PITCH_MM));
        }
        return new VolumeGrid(
                SIDE, SIDE, IN_PLANE_MM, IN_PLANE_MM, PatientVector.LEFT, PatientVector.POSTERIOR, origins);
    }

    private static Construct construct(Filler filler, Material material) {
        LocalDate day = LocalDate.of(2030, 1, 1);
        Component body = new Component(
                "body",
                1,
                "vertebral body",
                ComponentKind.VERTEBRAL_BODY,
                material,
                day,
                Optional.empty(),
                material.mayBePorous() ? Optional.of(new Porous(0.7, 3)) : Optional.empty(),
                new BoxShape(
                        new PatientPoint(0, 0, -10),
                        List.of(PatientVector.LEFT, PatientVector.POSTERIOR, PatientVector.CRANIAL),
                        List.of(HALF_MM, HALF_MM, 10.0)));
        PlanePatch patch = new PlanePatch(
                PlanePatch.Outline.RECTANGLE,
                PatientPoint.ORIGIN,
                PatientVector.LEFT,
                PatientVector.POSTERIOR,
                PatientVector.CRANIAL,
                HALF_MM,
                HALF_MM);
        return new Construct(
                "layered",
                1,
                day,
                "1.2.3",
                "1.2.4",
                new Axes(PatientPoint.ORIGIN, PatientVector.LEFT, PatientVector.POSTERIOR, PatientVector.CRANIAL),
                List.of(new Bone("t12", "T12")),
                List.of(body),
                List.of(),
                List.of(new BoneInterface("cranial", 1, "cranial endplate", "body", "t12", filler, List.of(patch))));
    }
}
