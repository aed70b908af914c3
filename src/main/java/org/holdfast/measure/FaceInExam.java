package org.holdfast.measure;

import java.util.Arrays;
import java.util.Optional;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import org.holdfast.geometry.PatientVector;

/**
 * A face as one exam shows it: the profiles under its samples and the implant's edges on them. Arrays are one a sample and
 * must not be written.
 *
 * @param profiles HU along the normals
 * @param ownEdges edges found in this exam
 * @param edges edges that count: the reference exam's where it has one, else this exam's own
 */
record FaceInExam(FaceProfiles profiles, ImplantEdge[] ownEdges, ImplantEdge[] edges) {

    /** A sum of normals shorter than this share of their number has no direction: a ring round a cylinder. */
    private static final double NO_MEAN = 0.1;

    /** Finds the edges; where the reference exam has an edge it is kept, the plateau is this exam's own. */
    static FaceInExam of(
            FaceProfiles profiles,
            ExamScan exam,
            FaceLayer layer,
            Optional<ReferenceFace> reference,
            MeasurementSettings settings) {
        int count = profiles.profiles().length;
        ImplantEdge[] own = new ImplantEdge[count];
        ImplantEdge[] edges = new ImplantEdge[count];
        double ceiling = exam.ceilingHuOrNaN();
        for (int n = 0; n < count; n++) {
            double sigma = exam.pointSpread()
                    .sigmaAlongMm(profiles.normals()[n], exam.volume().grid());
            own[n] = ImplantEdge.find(profiles.profiles()[n], layer, ceiling, sigma, settings);
            double kept = reference.isPresent() ? reference.get().edgeMm()[n] : Double.NaN;
            edges[n] = own[n].obstacle() == null && !Double.isNaN(kept)
                    ? new ImplantEdge(kept, own[n].plateauHu(), own[n].isClipped(), null)
                    : own[n];
        }
        return new FaceInExam(profiles, own, edges);
    }

    int size() {
        return edges.length;
    }

    /** Median HU of the implant under the face; NaN where none is seen. */
    double plateauHu() {
        return median(n -> edges[n].plateauHu());
    }

    /** Median HU at the depth where host bone is read; NaN where it is not seen. */
    double hostHu(MeasurementSettings settings) {
        return median(n -> hostHu(n, settings));
    }

    /** HU at the depth where host bone is read, under one sample; NaN where it is not seen. */
    double hostHu(int n, MeasurementSettings settings) {
        return HostBone.depthHu(profiles.profiles()[n], edges[n].tMm(), profiles.cutsMm()[n], settings);
    }

    /** Median place of the edges, mm from the patch; NaN where there is none. */
    double edgeMm() {
        return median(n -> edges[n].tMm());
    }

    /** How far the edges that count lie beyond those found in this exam, mm, median; 0 on the reference exam. */
    double keptBeyondOwnMm() {
        double shift = median(n -> edges[n].tMm() - ownEdges[n].tMm());
        return Double.isNaN(shift) ? 0 : shift;
    }

    /** Whether the implant lies at the ceiling of the scale under most samples. */
    boolean isMostlyClipped() {
        long clipped = Arrays.stream(edges).filter(ImplantEdge::isClipped).count();
        long found = Arrays.stream(edges).filter(e -> e.obstacle() == null).count();
        return 2 * clipped > found;
    }

    /** Mean outward normal in the exam; for a ring of normals, which has no mean, the first. */
    PatientVector meanNormal() {
        PatientVector sum = new PatientVector(0, 0, 0);
        for (PatientVector n : profiles.normals()) {
            sum = sum.plus(n);
        }
        return sum.norm() > NO_MEAN * size() ? sum.unit() : profiles.normals()[0];
    }

    private double median(IntToDoubleFunction value) {
        return Quantiles.median(IntStream.range(0, size())
                .mapToDouble(value)
                .filter(v -> !Double.isNaN(v))
                .toArray());
    }
}
