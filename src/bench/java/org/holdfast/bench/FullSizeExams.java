package org.holdfast.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.holdfast.app.ExamFacts;
import org.holdfast.app.ExamImages;
import org.holdfast.app.ExamVolumes;
import org.holdfast.app.ReviewSubject;
import org.holdfast.app.UseCaseException;
import org.holdfast.construct.ConstructPart;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;

/**
 * Exams of 512 × 512 × 400 voxels in memory, in place of a subject's small files: noise over soft tissue, a column of bone
 * and rods of metal, so that every cut has all tones. Each exam has voxels of its own and lies in a pose of its own, a few
 * degrees and millimetres from the others, its grid centred on the construct.
 */
final class FullSizeExams implements ExamVolumes {

    static final int SIDE = 512;
    static final int SLICES = 400;

    private static final double SPACING_MM = 0.45;
    private static final double PITCH_MM = 0.6;
    private static final int NOISE_HU = 120;

    private final ExamImages files;
    private final List<ExamFacts> facts = new ArrayList<>();
    private final List<HuVolume> volumes = new ArrayList<>();

    FullSizeExams(ReviewSubject subject) throws UseCaseException {
        files = new ExamImages(subject, 0);
        PatientPoint middle =
                ConstructPart.of(subject.construct()).get(0).frame().middle();
        for (int exam = 0; exam < subject.exams().size(); exam++) {
            RigidTransform pose = RigidTransform.rotation(new PatientVector(1, 0.5, 0.3), 2.0 * exam, middle)
                    .then(RigidTransform.translation(new PatientVector(1.5 * exam, -exam, 0.7 * exam)));
            VolumeGrid grid = grid(pose.apply(middle));
            volumes.add(HuVolume.ofHu(grid, voxels(exam)));
            ExamFacts small = files.facts(exam, Progress.NONE);
            facts.add(new ExamFacts(
                    small.seriesUid(),
                    grid,
                    small.acquisition(),
                    small.daysSinceSurgery(),
                    small.isReference(),
                    pose,
                    small.poseKind(),
                    small.poseSource(),
                    small.findings()));
        }
    }

    private static VolumeGrid grid(PatientPoint middle) {
        double half = SPACING_MM * (SIDE - 1) / 2;
        List<PatientPoint> origins = new ArrayList<>();
        for (int k = 0; k < SLICES; k++) {
            origins.add(new PatientPoint(
                    middle.x() - half, middle.y() - half, middle.z() + PITCH_MM * (k - (SLICES - 1) / 2.0)));
        }
        return new VolumeGrid(SIDE, SIDE, SPACING_MM, SPACING_MM, PatientVector.LEFT, PatientVector.POSTERIOR, origins);
    }

    private static short[][] voxels(int exam) {
        Random random = new Random(53 + exam);
        short[][] slices = new short[SLICES][SIDE * SIDE];
        for (int k = 0; k < SLICES; k++) {
            for (int j = 0; j < SIDE; j++) {
                for (int i = 0; i < SIDE; i++) {
                    slices[k][i + SIDE * j] = (short) (tissueHu(i - SIDE / 2, j - SIDE / 2) + random.nextInt(NOISE_HU));
                }
            }
        }
        return slices;
    }

    /** HU at a distance from the middle axis, voxels. */
    private static int tissueHu(int dx, int dy) {
        double fromAxis = Math.hypot(dx, dy);
        if (fromAxis < 20) {
            return 1500;
        }
        if (fromAxis < 55) {
            return 250 + 40 * (Math.floorMod(dx, 9) == 0 ? 5 : 0);
        }
        if (Math.hypot(Math.abs(dx) - 45, dy - 80) < 7) {
            return 2900;
        }
        return fromAxis < 230 ? 0 : -1000;
    }

    @Override
    public ExamFacts facts(int exam, Progress progress) {
        return facts.get(exam);
    }

    @Override
    public HuVolume volume(int exam, Progress progress) {
        return volumes.get(exam);
    }

    @Override
    public Optional<HuVolume> loaded(int exam) {
        return Optional.of(volumes.get(exam));
    }

    @Override
    public void onScreen(Set<Integer> exams) {
        // All stay in memory.
    }

    @Override
    public String seriesSha256(int exam, Progress progress) throws UseCaseException {
        return files.seriesSha256(exam, progress);
    }

    @Override
    public void close() {
        files.close();
    }
}
