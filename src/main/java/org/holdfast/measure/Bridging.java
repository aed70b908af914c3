package org.holdfast.measure;

import java.util.ArrayDeque;
import java.util.List;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.PatchOffset;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.volume.VolumeGrid;
import org.holdfast.volume.VoxelCoord;
import org.holdfast.volume.VoxelIndex;

/**
 * Which contact is connected with host bone in depth: 26-neighbours among voxels at or above the bone threshold, not
 * metal, from the guard to the profile's end, inside the face's outline grown by a margin. A fleck that touches only the
 * implant is contact, not bridging.
 *
 * <p>The blur of the implant raises the voxels beside it; what the model of the profile says of that is taken off before
 * a voxel is called bone, else flecks would be joined along the implant.
 */
final class Bridging {

    private final BoneInterface face;
    private final List<Component> parts;
    private final ExamScan exam;
    private final SampleClassifier classifier;
    private final MeasurementSettings settings;
    private final VolumeGrid grid;
    private final RigidTransform examToReference;
    private final double edgeMm;
    private final ProfileModel implantOnly;
    private final double voxelMm;
    private final int[] low;
    private final int[] size;

    /** Bone, and bone connected with the host, one flag a voxel of the box. */
    private final boolean[] bone;

    private final double[] depthMm;
    private final boolean[] connected;

    private Bridging(
            BoneInterface face, Construct construct, ExamScan exam, FaceInExam seen, SampleClassifier classifier) {
        FaceProfiles profiles = seen.profiles();
        this.face = face;
        this.parts = construct.components();
        this.exam = exam;
        this.classifier = classifier;
        this.settings = classifier.settings();
        this.grid = exam.volume().grid();
        this.examToReference = exam.referenceToExam().inverse();
        this.edgeMm = seen.edgeMm();
        double sigma = exam.pointSpread().sigmaAlongMm(seen.meanNormal(), grid);
        this.implantOnly = new ProfileModel(seen.plateauHu(), 0, 0, 1, 0, sigma);
        this.voxelMm = grid.voxelExtentMm(seen.meanNormal());
        int[] high = new int[3];
        this.low = new int[] {Integer.MAX_VALUE, Integer.MAX_VALUE, Integer.MAX_VALUE};
        box(profiles, low, high);
        this.size = new int[] {
            Math.max(0, high[0] - low[0] + 1), Math.max(0, high[1] - low[1] + 1), Math.max(0, high[2] - low[2] + 1)
        };
        int voxels = Math.multiplyExact(Math.multiplyExact(size[0], size[1]), size[2]);
        this.bone = new boolean[voxels];
        this.depthMm = new double[voxels];
        this.connected = new boolean[voxels];
        java.util.stream.IntStream.range(0, size[2]).parallel().forEach(this::markSlice);
        spread();
    }

    /**
     * What is bridged.
     *
     * @param share bridged contact over the area that can be assessed for bridging
     * @param bridged whether a sample is bridged contact, one a sample
     */
    record Result(Stated share, boolean[] bridged) {
        /** Bridging is not looked for. */
        static Result not(String why, int samples) {
            return new Result(Stated.not(why), new boolean[samples]);
        }
    }

    /** Looks for bridging under every sample of a face. */
    static Result of(
            BoneInterface face,
            Construct construct,
            ExamScan exam,
            FaceInExam seen,
            List<SampleClassifier.Outcome> outcomes,
            SampleClassifier classifier) {
        Bridging bridging = new Bridging(face, construct, exam, seen, classifier);
        FaceProfiles profiles = seen.profiles();
        ImplantEdge[] edges = seen.edges();
        MeasurementSettings settings = classifier.settings();
        boolean[] isBridged = new boolean[edges.length];
        double assessable = 0;
        double bridged = 0;
        for (int n = 0; n < edges.length; n++) {
            SampleClassifier.Outcome outcome = outcomes.get(n);
            boolean reaches = profiles.cutsMm()[n] >= edges[n].tMm() + settings.bridgingDepthMm()
                    && !Double.isNaN(profiles.profiles()[n].at(edges[n].tMm() + settings.bridgingDepthMm()));
            if (outcome.tissue() == Tissue.NOT_ASSESSABLE || !reaches) {
                continue;
            }
            double area = profiles.samples().get(n).areaMm2();
            assessable += area;
            if (outcome.tissue() == Tissue.CONTACT) {
                PatientPoint at = profiles.points()[n].along(
                        profiles.normals()[n], outcome.boneAtMm() + 0.5 * settings.boneWindowMm());
                isBridged[n] = bridging.isConnectedNear(at);
                bridged += isBridged[n] ? area : 0;
            }
        }
        Stated share = assessable > 0
                ? Stated.of(bridged / assessable)
                : Stated.not("no profile reaches the depth at which host bone is sought");
        return new Result(share, isBridged);
    }

    private void box(FaceProfiles profiles, int[] lowest, int[] highest) {
        int margin = 1
                + (int) Math.ceil(settings.bridgingMarginMm()
                        / Math.min(
                                grid.columnSpacingMm(),
                                Math.min(grid.rowSpacingMm(), grid.pitchMm().orElse(1))));
        int[] last = {grid.columns() - 1, grid.rows() - 1, grid.slices() - 1};
        for (int n = 0; n < profiles.points().length; n++) {
            for (double t : new double[] {0, settings.profileOutsideMm()}) {
                VoxelCoord c = grid.patientToVoxel(profiles.points()[n].along(profiles.normals()[n], t));
                double[] at = {c.i(), c.j(), c.k()};
                for (int axis = 0; axis < 3; axis++) {
                    int floor = (int) Math.floor(at[axis]) - margin;
                    int ceil = (int) Math.ceil(at[axis]) + margin;
                    lowest[axis] = Math.max(0, Math.min(lowest[axis], floor));
                    highest[axis] = Math.min(last[axis], Math.max(highest[axis], ceil));
                }
            }
        }
    }

    private int indexOf(int i, int j, int k) {
        return i + size[0] * (j + size[1] * k);
    }

    private void markSlice(int k) {
        for (int j = 0; j < size[1]; j++) {
            for (int i = 0; i < size[0]; i++) {
                double hu = exam.volume().hu(low[0] + i, low[1] + j, low[2] + k);
                if (!(hu >= classifier.boneHu()) || hu >= settings.metalHu()) {
                    continue;
                }
                PatientPoint p =
                        examToReference.apply(grid.voxelToPatient(new VoxelIndex(low[0] + i, low[1] + j, low[2] + k)));
                double depth = depthInFaceMm(p);
                if (Double.isNaN(depth) || hu - implantOnly.hu(depth, 0) < classifier.boneHu() || isInsidePart(p, hu)) {
                    continue;
                }
                int index = indexOf(i, j, k);
                bone[index] = true;
                depthMm[index] = depth;
            }
        }
    }

    /** Depth beyond the implant's edge where the point lies in front of the face; NaN elsewhere. */
    private double depthInFaceMm(PatientPoint p) {
        for (org.holdfast.construct.Patch patch : face.patches()) {
            PatchOffset offset = PatchOffset.of(patch, p);
            double depth = offset.heightMm() - edgeMm;
            if (offset.outsideMm() <= settings.bridgingMarginMm()
                    && depth >= classifier.guardMm() - 0.5 * voxelMm
                    && depth <= settings.profileOutsideMm()) {
                return depth;
            }
        }
        return Double.NaN;
    }

    private boolean isInsidePart(PatientPoint p, double hu) {
        for (Component part : parts) {
            boolean counts = part.porous().isEmpty() || hu >= settings.implantMinHu();
            if (counts && part.shape().hasDistance() && part.shape().signedDistanceMm(p) <= 0) {
                return true;
            }
        }
        return false;
    }

    /** Fills from the host bone in depth through touching bone. */
    private void spread() {
        ArrayDeque<Integer> queue = new ArrayDeque<>();
        for (int n = 0; n < bone.length; n++) {
            if (bone[n] && Math.abs(depthMm[n] - settings.bridgingDepthMm()) <= 0.5 * voxelMm) {
                connected[n] = true;
                queue.add(n);
            }
        }
        while (!queue.isEmpty()) {
            int at = queue.remove();
            visitNeighbours(at, n -> {
                if (bone[n] && !connected[n]) {
                    connected[n] = true;
                    queue.add(n);
                }
            });
        }
    }

    private void visitNeighbours(int at, java.util.function.IntConsumer visitor) {
        int i = at % size[0];
        int j = at / size[0] % size[1];
        int k = at / (size[0] * size[1]);
        for (int z = Math.max(0, k - 1); z <= Math.min(size[2] - 1, k + 1); z++) {
            for (int y = Math.max(0, j - 1); y <= Math.min(size[1] - 1, j + 1); y++) {
                for (int x = Math.max(0, i - 1); x <= Math.min(size[0] - 1, i + 1); x++) {
                    visitor.accept(indexOf(x, y, z));
                }
            }
        }
    }

    /** Whether the voxel at a point of the exam, or one that touches it, is bone connected with the host. */
    private boolean isConnectedNear(PatientPoint p) {
        VoxelCoord c = grid.patientToVoxel(p);
        int i = (int) Math.round(c.i()) - low[0];
        int j = (int) Math.round(c.j()) - low[1];
        int k = (int) Math.round(c.k()) - low[2];
        if (i < 0 || j < 0 || k < 0 || i >= size[0] || j >= size[1] || k >= size[2]) {
            return false;
        }
        boolean[] found = {false};
        visitNeighbours(indexOf(i, j, k), n -> found[0] |= connected[n]);
        return found[0];
    }
}
