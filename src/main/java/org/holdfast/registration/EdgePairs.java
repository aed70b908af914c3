package org.holdfast.registration;

import java.util.stream.IntStream;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.volume.HuVolume;

/**
 * The same edges of metal in two exams. In each exam an edge lies at half the way from the metal's own HU to what lies
 * outside, which the blur of a straight edge does not move. Where the scale of one exam is clipped, both are read at the
 * same share of that way, 500 HU under the ceiling; the shift that is left there is one offset for all such edges.
 */
final class EdgePairs {

    private static final double UNDER_CEILING_HU = 500;
    /** HU within this of the ceiling are at it: interpolation and noise lower them. */
    private static final double AT_CEILING_HU = 60;
    /** Over this, metal is solid, under it porous: the two shift differently with blur and scale. */
    private static final double SOLID_HU = 2700;

    private static final int CHUNK = 256;

    static final int GROUPS = 2;

    private final HuVolume reference;
    private final HuVolume exam;
    private final EdgeSettings settings;
    private final double referenceCeilingHu;
    private final double examCeilingHu;

    /** Per sample, of the reference: metal's HU, HU outside; NaN where there is no usable edge. */
    private final double[] plateauHu;

    private final double[] outsideHu;

    /** Way along the normal from the sample to the exam's edge against the reference's edge, mm; NaN for none. */
    final double[] shiftMm;
    /** Whether a sample lies in the exam's image. */
    final boolean[] isInside;

    /** The samples, and the group of each. */
    final SurfacePoints samples;

    final int[] group;

    EdgePairs(HuVolume reference, HuVolume exam, SurfacePoints samples, EdgeSettings settings) {
        this.reference = reference;
        this.exam = exam;
        this.settings = settings;
        this.samples = samples;
        this.referenceCeilingHu = ceiling(reference);
        this.examCeilingHu = ceiling(exam);
        int count = samples.size();
        this.plateauHu = new double[count];
        this.outsideHu = new double[count];
        this.shiftMm = new double[count];
        this.isInside = new boolean[count];
        this.group = new int[count];
        inChunks(count, (from, to) -> readReference(from, to));
    }

    private static double ceiling(HuVolume volume) {
        return volume.statistics().ceilingHu().orElse(Double.POSITIVE_INFINITY);
    }

    private interface Range {
        void run(int from, int to);
    }

    private static void inChunks(int count, Range work) {
        IntStream.range(0, (count + CHUNK - 1) / CHUNK)
                .parallel()
                .forEach(chunk -> work.run(chunk * CHUNK, Math.min(count, (chunk + 1) * CHUNK)));
    }

    private void readReference(int from, int to) {
        EdgeProfile profile = new EdgeProfile(reference, settings.reachMm());
        double[] p = samples.at;
        double[] m = samples.normals;
        for (int n = from; n < to; n++) {
            profile.read(p[3 * n], p[3 * n + 1], p[3 * n + 2], m[3 * n], m[3 * n + 1], m[3 * n + 2]);
            double level = 0.5 * (Math.min(profile.plateauHu(0), referenceCeilingHu) + profile.outsideHu(0));
            double first = profile.crossing(level, settings.reachMm());
            plateauHu[n] = profile.plateauHu(first);
            outsideHu[n] = profile.outsideHu(first);
            group[n] = plateauHu[n] > SOLID_HU ? 0 : 1;
        }
    }

    /** Reads all edges with the exam at a pose. */
    void read(RigidTransform pose) {
        SurfacePoints moved = samples.moved(pose);
        inChunks(samples.size(), (from, to) -> {
            EdgeProfile ours = new EdgeProfile(reference, settings.reachMm());
            EdgeProfile theirs = new EdgeProfile(exam, settings.reachMm());
            for (int n = from; n < to; n++) {
                isInside[n] = !Double.isNaN(exam.sample(moved.point(n)));
                shiftMm[n] = isInside[n] && plateauHu[n] - outsideHu[n] >= settings.leastContrastHu()
                        ? shift(n, moved, ours, theirs)
                        : Double.NaN;
            }
        });
    }

    private double shift(int n, SurfacePoints moved, EdgeProfile ours, EdgeProfile theirs) {
        double[] p = moved.at;
        double[] m = moved.normals;
        theirs.read(p[3 * n], p[3 * n + 1], p[3 * n + 2], m[3 * n], m[3 * n + 1], m[3 * n + 2]);
        double level = 0.5 * (Math.min(plateauHu[n], examCeilingHu) + outsideHu[n]);
        double first = theirs.crossing(level, settings.reachMm());
        if (Double.isNaN(first)) {
            return Double.NaN;
        }
        double plateau = theirs.plateauHu(first);
        double outside = theirs.outsideHu(first);
        if (!(plateau - outside >= settings.leastContrastHu())) {
            return Double.NaN;
        }
        double share = shareOfStep(plateauHu[n], outsideHu[n], plateau, outside);
        double fullOurs = trueHu(plateauHu[n], referenceCeilingHu, plateau, examCeilingHu);
        double fullTheirs = trueHu(plateau, examCeilingHu, plateauHu[n], referenceCeilingHu);
        double theirEdge = theirs.crossing(outside + share * (fullTheirs - outside), settings.reachMm());
        p = samples.at;
        m = samples.normals;
        ours.read(p[3 * n], p[3 * n + 1], p[3 * n + 2], m[3 * n], m[3 * n + 1], m[3 * n + 2]);
        double ourEdge = ours.crossing(outsideHu[n] + share * (fullOurs - outsideHu[n]), settings.reachMm());
        return theirEdge - ourEdge;
    }

    /** A clipped plateau hides the metal's HU; the other exam of the same metal may show it. */
    private static double trueHu(double hu, double ceilingHu, double other, double otherCeilingHu) {
        boolean isClipped = hu > ceilingHu - AT_CEILING_HU;
        boolean isOtherOpen = other <= otherCeilingHu - AT_CEILING_HU;
        return isClipped && isOtherOpen ? Math.max(hu, other) : hu;
    }

    /** At which share of the step from outside to metal both exams are read: a half, or less where one is clipped. */
    private double shareOfStep(double plateau, double outside, double otherPlateau, double otherOutside) {
        double share = 0.5;
        double ours = trueHu(plateau, referenceCeilingHu, otherPlateau, examCeilingHu);
        double theirs = trueHu(otherPlateau, examCeilingHu, plateau, referenceCeilingHu);
        if (plateau > referenceCeilingHu - AT_CEILING_HU) {
            share = Math.min(share, (referenceCeilingHu - UNDER_CEILING_HU - outside) / (ours - outside));
            share = ours == plateau ? (referenceCeilingHu - UNDER_CEILING_HU - outside) / (ours - outside) : share;
        }
        if (otherPlateau > examCeilingHu - AT_CEILING_HU) {
            double theirShare = (examCeilingHu - UNDER_CEILING_HU - otherOutside) / (theirs - otherOutside);
            share = theirs == otherPlateau ? theirShare : Math.min(share, theirShare);
        }
        return share;
    }
}
