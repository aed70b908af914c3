package org.holdfast.registration;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.progress.Progress;

/** One level of matching by voxels: places of the reference with HU and gradient, and the exam's blurred image. */
final class IntensityFit {

    private static final int ROUNDS = 40;
    private static final double STILL_MM = 5e-4;
    private static final double TYPICAL_RADIUS_MM = 25;
    private static final double TUKEY_MADS = 4.685 * 1.4826;
    private static final double LEAST_SHARE = 0.003;
    /** Fewer valid places than this say nothing. */
    private static final int FEWEST = 100;
    /** Steepness of a place against the mean that even flat places are given: some of them tell the offset. */
    private static final double FLAT_SHARE = 0.2;

    private static final int CHUNK = 512;

    private final BlurredImage exam;
    private final int count;
    /** [x, y, z, HU, dx, dy, dz] of the reference, one after the other. */
    private final double[] places;

    /** Places of the region that the reference shows. */
    private final double shownShare;

    /**
     * A pose at which the steps came to rest.
     *
     * @param correlation of the HU over all places that can be compared
     * @param overlap share of the places that can be compared
     * @param inlierShare share of these that have weight
     */
    record Fitted(
            RigidTransform pose, double correlation, double overlap, double inlierShare, PoseUncertainty uncertainty) {}

    /** @param points number of places that are chosen from the region, steep ones first */
    IntensityFit(BlurredImage reference, BlurredImage exam, List<PatientPoint> region, int points) {
        this.exam = exam;
        double[] all = new double[7 * region.size()];
        double[] read = new double[4];
        double[] steep = new double[region.size()];
        int shown = 0;
        for (int n = 0; n < region.size(); n++) {
            PatientPoint p = jittered(region.get(n), n);
            if (reference.read(p.x(), p.y(), p.z(), read)) {
                int at = 7 * shown;
                all[at] = p.x();
                all[at + 1] = p.y();
                all[at + 2] = p.z();
                System.arraycopy(read, 0, all, at + 3, 4);
                steep[shown++] = Math.sqrt(read[1] * read[1] + read[2] * read[2] + read[3] * read[3]);
            }
        }
        int[] chosen = chosen(Arrays.copyOf(steep, shown), points);
        this.places = new double[7 * chosen.length];
        this.count = chosen.length;
        this.shownShare = (double) shown / region.size();
        for (int n = 0; n < count; n++) {
            System.arraycopy(all, 7 * chosen[n], places, 7 * n, 7);
        }
    }

    /** Places off the grid of the volume, by a sequence that fills space evenly: no beat between two grids. */
    private static PatientPoint jittered(PatientPoint p, int n) {
        // Roberts 2018: powers of the inverse of the real root of x⁴ = x + 1.
        double a = 0.8191725133961645 * n % 1 - 0.5;
        double b = 0.6710436067037893 * n % 1 - 0.5;
        double c = 0.5497004779019703 * n % 1 - 0.5;
        return new PatientPoint(p.x() + 0.7 * a, p.y() + 0.7 * b, p.z() + 0.7 * c);
    }

    /** Places in proportion to their steepness, systematically: the same places give the same choice. */
    private static int[] chosen(double[] steep, int points) {
        if (steep.length <= points) {
            return IntStream.range(0, steep.length).toArray();
        }
        double mean = Arrays.stream(steep).average().orElse(1);
        double total = 0;
        for (double s : steep) {
            total += s + FLAT_SHARE * mean;
        }
        int[] chosen = new int[points];
        int found = 0;
        double sum = 0;
        double next = 0.5 * total / points;
        for (int n = 0; n < steep.length; n++) {
            sum += steep[n] + FLAT_SHARE * mean;
            if (sum >= next && found < points) {
                chosen[found++] = n;
                next = Math.max(sum, next + total / points);
            }
        }
        return Arrays.copyOf(chosen, found);
    }

    /** Correlation at a pose over some of the places; −1 where too few can be compared. */
    double correlation(RigidTransform pose, int some) {
        int step = Math.max(1, count / some);
        Sums sums = new Sums();
        double[] m = pose.toMatrix();
        double[] read = new double[4];
        int tried = 0;
        for (int n = 0; n < count; n += step) {
            tried++;
            if (readExam(m, n, read)) {
                sums.add(places[7 * n + 3], read[0]);
            }
        }
        return sums.n < 0.3 * tried ? -1 : sums.correlation();
    }

    private boolean readExam(double[] m, int n, double[] into) {
        double x = places[7 * n];
        double y = places[7 * n + 1];
        double z = places[7 * n + 2];
        return exam.read(
                m[0] * x + m[1] * y + m[2] * z + m[3],
                m[4] * x + m[5] * y + m[6] * z + m[7],
                m[8] * x + m[9] * y + m[10] * z + m[11],
                into);
    }

    /** Steps from a start until they come to rest; empty where too few places can be compared. */
    Optional<Fitted> fit(RigidTransform start, Progress progress) {
        RigidTransform pose = start;
        Fitted last = null;
        for (int round = 0; round < ROUNDS; round++) {
            progress.stopIfCancelled();
            double[] read = readAll(pose);
            Sums sums = sums(read);
            if (sums.n < FEWEST || !(sums.correlation() > 0)) {
                return Optional.empty();
            }
            double gain = sums.gain();
            double offset = sums.meanA() - gain * sums.meanB();
            double width = width(read, gain, offset);
            MotionFit rows = rows(read, pose, gain, offset, width);
            if (rows.size() < FEWEST) {
                return Optional.empty();
            }
            MotionFit.Solution solution = rows.solve();
            last = new Fitted(
                    pose.then(solution.step()),
                    sums.correlation(),
                    shownShare * sums.n / count,
                    (double) rows.size() / sums.n,
                    rows.uncertainty(solution));
            pose = last.pose();
            if (solution.translationMm() + TYPICAL_RADIUS_MM * solution.rotationRad() < STILL_MM) {
                break;
            }
        }
        return Optional.ofNullable(last);
    }

    /** HU and gradient of the exam at all places; NaN where they cannot be compared. */
    private double[] readAll(RigidTransform pose) {
        double[] m = pose.toMatrix();
        double[] read = new double[4 * count];
        IntStream.range(0, (count + CHUNK - 1) / CHUNK).parallel().forEach(chunk -> {
            double[] one = new double[4];
            for (int n = chunk * CHUNK; n < Math.min(count, (chunk + 1) * CHUNK); n++) {
                if (readExam(m, n, one)) {
                    System.arraycopy(one, 0, read, 4 * n, 4);
                } else {
                    read[4 * n] = Double.NaN;
                }
            }
        });
        return read;
    }

    private Sums sums(double[] read) {
        Sums sums = new Sums();
        for (int n = 0; n < count; n++) {
            if (!Double.isNaN(read[4 * n])) {
                sums.add(places[7 * n + 3], read[4 * n]);
            }
        }
        return sums;
    }

    private double width(double[] read, double gain, double offset) {
        double[] left = new double[count];
        int n = 0;
        for (int p = 0; p < count; p++) {
            if (!Double.isNaN(read[4 * p])) {
                left[n++] = Math.abs(places[7 * p + 3] - gain * read[4 * p] - offset);
            }
        }
        Arrays.sort(left, 0, n);
        return Math.max(1, TUKEY_MADS * left[n / 2]);
    }

    /** Rows along the mean of both exams' gradients: steps of second order (Benhimane and Malis, IROS 2004). */
    private MotionFit rows(double[] read, RigidTransform pose, double gain, double offset, double width) {
        double[] m = pose.toMatrix();
        double[] centre = new double[3];
        for (int n = 0; n < count; n++) {
            for (int axis = 0; axis < 3; axis++) {
                centre[axis] += place(m, n, axis) / count;
            }
        }
        MotionFit rows = new MotionFit(new PatientPoint(centre[0], centre[1], centre[2]), LEAST_SHARE, 1, 1e6, 1);
        for (int n = 0; n < count; n++) {
            double left = places[7 * n + 3] - gain * read[4 * n] - offset;
            double share = left / width;
            if (Math.abs(share) < 1) {
                double tukey = (1 - share * share) * (1 - share * share);
                rows.add(
                        place(m, n, 0),
                        place(m, n, 1),
                        place(m, n, 2),
                        gradient(m, n, 0, gain, read),
                        gradient(m, n, 1, gain, read),
                        gradient(m, n, 2, gain, read),
                        left,
                        tukey,
                        0);
            }
        }
        return rows;
    }

    private double place(double[] m, int n, int row) {
        return m[4 * row] * places[7 * n]
                + m[4 * row + 1] * places[7 * n + 1]
                + m[4 * row + 2] * places[7 * n + 2]
                + m[4 * row + 3];
    }

    private double gradient(double[] m, int n, int row, double gain, double[] read) {
        double ours = m[4 * row] * places[7 * n + 4]
                + m[4 * row + 1] * places[7 * n + 5]
                + m[4 * row + 2] * places[7 * n + 6];
        return 0.5 * (ours + gain * read[4 * n + 1 + row]);
    }

    /** Moments of pairs (reference, exam). */
    private static final class Sums {
        private int n;
        private double a;
        private double b;
        private double aa;
        private double bb;
        private double ab;

        void add(double x, double y) {
            n++;
            a += x;
            b += y;
            aa += x * x;
            bb += y * y;
            ab += x * y;
        }

        double meanA() {
            return a / n;
        }

        double meanB() {
            return b / n;
        }

        double gain() {
            return (ab - a * b / n) / (bb - b * b / n);
        }

        double correlation() {
            double varA = aa - a * a / n;
            double varB = bb - b * b / n;
            return varA > 0 && varB > 0 ? (ab - a * b / n) / Math.sqrt(varA * varB) : -1;
        }
    }
}
