package org.holdfast.cases;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import org.holdfast.app.ExamFacts;
import org.holdfast.app.ExamVolumes;
import org.holdfast.app.UseCaseException;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.measure.ExamScan.PoseKind;
import org.holdfast.progress.Progress;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;

/**
 * Exams that are made in memory, all alike: 8 × 8 × 8 voxels of 0.5 × 0.5 × 2 mm, HU = 100 · index of the exam. Writes
 * down what it is asked for. Used on one thread.
 */
public final class MemoryExams implements ExamVolumes {

    /** Distance of slices, mm; rows and columns are half a millimetre apart. */
    public static final double SLICE_STEP_MM = 2;

    private static final int SIDE = 8;

    private final Map<Integer, HuVolume> kept = new HashMap<>();
    private final Map<Integer, String> faults = new HashMap<>();
    private final Map<Integer, String> hashes = new HashMap<>();
    private final List<Integer> read = new ArrayList<>();
    private RigidTransform pose = RigidTransform.IDENTITY;
    private Set<Integer> onScreen = Set.of();
    private boolean closed;

    /** From now on an exam cannot be read, for a reason. */
    public MemoryExams failing(int exam, String reason) {
        faults.put(exam, reason);
        return this;
    }

    /** From now on an exam can be read again. */
    public void mend(int exam) {
        faults.remove(exam);
    }

    /** The hash of an exam's files from now on; "hash 0" and so on unless told. */
    public MemoryExams hash(int exam, String sha256) {
        hashes.put(exam, sha256);
        return this;
    }

    /** Where the construct lies in every exam but the first. */
    public MemoryExams posed(RigidTransform referenceToExam) {
        pose = referenceToExam;
        return this;
    }

    /** Gives an exam's voxels up, as little memory would. */
    public void giveUp(int exam) {
        kept.remove(exam);
    }

    /** Exams whose voxels were read, in that order. */
    public List<Integer> read() {
        return List.copyOf(read);
    }

    /** What was last said to be on the screen. */
    public Set<Integer> seen() {
        return new HashSet<>(onScreen);
    }

    /** Whether all was given up. */
    public boolean isClosed() {
        return closed;
    }

    /** How the voxels of every exam lie. */
    public static VolumeGrid grid() {
        List<PatientPoint> origins = new ArrayList<>();
        for (int k = 0; k < SIDE; k++) {
            origins.add(new PatientPoint(0, 0, SLICE_STEP_MM * k));
        }
        return new VolumeGrid(SIDE, SIDE, 0.5, 0.5, PatientVector.LEFT, PatientVector.POSTERIOR, origins);
    }

    @Override
    public ExamFacts facts(int exam, Progress progress) throws UseCaseException {
        require(exam);
        return new ExamFacts(
                "2.25." + (exam + 1),
                grid(),
                Acquisition.unknown(),
                OptionalInt.of(90 * exam),
                exam == 0,
                exam == 0 ? RigidTransform.IDENTITY : pose,
                exam == 0 ? PoseKind.IDENTITY : PoseKind.NUDGED,
                "made up",
                List.of());
    }

    @Override
    public HuVolume volume(int exam, Progress progress) throws UseCaseException {
        require(exam);
        progress.report(0.5, "reading exam " + exam);
        progress.stopIfCancelled();
        if (!kept.containsKey(exam)) {
            read.add(exam);
            short[][] hu = new short[SIDE][SIDE * SIDE];
            for (short[] slice : hu) {
                Arrays.fill(slice, (short) (100 * exam));
            }
            kept.put(exam, HuVolume.ofHu(grid(), hu));
        }
        return kept.get(exam);
    }

    @Override
    public Optional<HuVolume> loaded(int exam) {
        return Optional.ofNullable(kept.get(exam));
    }

    @Override
    public void onScreen(Set<Integer> exams) {
        onScreen = Set.copyOf(exams);
    }

    @Override
    public String seriesSha256(int exam, Progress progress) throws UseCaseException {
        require(exam);
        return hashes.getOrDefault(exam, "hash " + exam);
    }

    @Override
    public void close() {
        closed = true;
        kept.clear();
    }

    private void require(int exam) throws UseCaseException {
        if (faults.containsKey(exam)) {
            throw new UseCaseException(faults.get(exam));
        }
    }
}
