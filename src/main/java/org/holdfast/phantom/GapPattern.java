package org.holdfast.phantom;

import java.util.Arrays;
import java.util.Locale;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;

/**
 * The gap between a face and the bone opposite it, as a patchwork: the face is divided into rectangular areas by lines
 * along u and v, and every area has its gap width, 0 where bone touches. Immutable. Beyond the face the outermost areas
 * go on.
 */
public final class GapPattern {

    private final double[] uLines;
    private final double[] vLines;
    private final double[][] gapMm;

    /**
     * @param uLinesMm ascending lines of constant u that bound the areas, first and last are the ends of the face, mm
     * @param vLinesMm the same along v
     * @param gapMm gap width of each area, mm, ≥ 0, {@code [area along u][area along v]}
     */
    public GapPattern(double[] uLinesMm, double[] vLinesMm, double[][] gapMm) {
        this.uLines = ascending(uLinesMm, "uLinesMm");
        this.vLines = ascending(vLinesMm, "vLinesMm");
        if (gapMm.length != uLines.length - 1) {
            throw new IllegalArgumentException(
                    "gapMm needs " + (uLines.length - 1) + " areas along u, got " + gapMm.length);
        }
        this.gapMm = new double[gapMm.length][];
        for (int a = 0; a < gapMm.length; a++) {
            this.gapMm[a] = gapMm[a].clone();
            if (gapMm[a].length != vLines.length - 1) {
                throw new IllegalArgumentException(
                        "gapMm needs " + (vLines.length - 1) + " areas along v, got " + gapMm[a].length);
            }
            for (double gap : gapMm[a]) {
                Require.notNegative(gap, "gap width");
            }
        }
    }

    /** One gap width over a whole face. */
    public static GapPattern uniform(double halfUMm, double halfVMm, double gapMm) {
        return stripes(halfUMm, halfVMm, gapMm);
    }

    /** Stripes of equal width side by side along u, from −u to +u, with these gaps. */
    public static GapPattern stripes(double halfUMm, double halfVMm, double... gapMm) {
        return new GapPattern(
                evenLines(halfUMm, gapMm.length),
                evenLines(halfVMm, 1),
                Arrays.stream(gapMm).mapToObj(g -> new double[] {g}).toArray(double[][]::new));
    }

    /**
     * Contact over a share of the face and one gap over the rest, parted by one line of constant u.
     *
     * @param contactShare share of the face with gap 0, 0 to 1
     */
    public static GapPattern contactAndGap(double halfUMm, double halfVMm, double contactShare, double gapMm) {
        if (!(contactShare >= 0 && contactShare <= 1)) {
            throw new IllegalArgumentException("contactShare must lie in [0, 1], got " + contactShare);
        }
        if (contactShare == 0 || contactShare == 1) {
            return uniform(halfUMm, halfVMm, contactShare == 1 ? 0 : gapMm);
        }
        double[] lines = {-halfUMm, -halfUMm + 2 * halfUMm * contactShare, halfUMm};
        return new GapPattern(lines, evenLines(halfVMm, 1), new double[][] {{0}, {gapMm}});
    }

    /**
     * Equal areas, each with contact by chance and else a gap drawn evenly from a range. The same seed gives the same
     * pattern.
     *
     * @param contactChance chance of gap 0 of each area, 0 to 1
     * @param lowestMm smallest gap of the others, mm
     * @param highestMm largest gap of the others, mm
     */
    public static GapPattern drawn(
            FaceFrame face,
            int areasU,
            int areasV,
            double contactChance,
            double lowestMm,
            double highestMm,
            long seed) {
        UniformRandomProvider random = RandomSource.XO_RO_SHI_RO_128_PP.create(seed);
        double[][] gaps = new double[areasU][areasV];
        for (double[] column : gaps) {
            for (int b = 0; b < areasV; b++) {
                boolean contact = random.nextDouble() < contactChance;
                double gap = lowestMm + (highestMm - lowestMm) * random.nextDouble();
                column[b] = contact ? 0 : gap;
            }
        }
        return new GapPattern(evenLines(face.halfUMm(), areasU), evenLines(face.halfVMm(), areasV), gaps);
    }

    /** Lines that cut [−half, half] into equal parts. */
    static double[] evenLines(double halfMm, int parts) {
        double[] lines = new double[parts + 1];
        for (int n = 0; n <= parts; n++) {
            lines[n] = -halfMm + 2 * halfMm * n / parts;
        }
        return lines;
    }

    /** The gap at a place of the face, mm; on a line, that of the area on its higher side. */
    public double gapMm(double uMm, double vMm) {
        return gapMm[area(uLines, uMm)][area(vLines, vMm)];
    }

    /** Distance of a place from the nearest line between two areas of different gap, mm; infinite if there is none. */
    public double distanceFromChangeMm(double uMm, double vMm) {
        int a = area(uLines, uMm);
        int b = area(vLines, vMm);
        double nearest = Double.POSITIVE_INFINITY;
        for (int i = 0; i < gapMm.length; i++) {
            for (int j = 0; j < gapMm[i].length; j++) {
                if (gapMm[i][j] != gapMm[a][b]) {
                    double du = outside(uMm, i, uLines);
                    double dv = outside(vMm, j, vLines);
                    nearest = Math.min(nearest, Math.sqrt(du * du + dv * dv));
                }
            }
        }
        return nearest;
    }

    /** Share of the face whose gap is under a limit (strictly), 0 to 1. */
    public double shareUnder(double limitMm) {
        double area = 0;
        for (int i = 0; i < gapMm.length; i++) {
            for (int j = 0; j < gapMm[i].length; j++) {
                if (gapMm[i][j] < limitMm) {
                    area += (uLines[i + 1] - uLines[i]) * (vLines[j + 1] - vLines[j]);
                }
            }
        }
        return area / ((uLines[uLines.length - 1] - uLines[0]) * (vLines[vLines.length - 1] - vLines[0]));
    }

    /** Share of the face with gap 0, 0 to 1. */
    public double contactShare() {
        return shareUnder(Double.MIN_VALUE);
    }

    /** The smallest gap of any area, mm. */
    public double narrowestMm() {
        return Arrays.stream(gapMm).flatMapToDouble(Arrays::stream).min().orElseThrow();
    }

    /** The areas with their gap widths. */
    public double[][] gapsMm() {
        return Arrays.stream(gapMm).map(double[]::clone).toArray(double[][]::new);
    }

    /** Lines of constant u, mm; a copy. */
    public double[] uLinesMm() {
        return uLines.clone();
    }

    /** Lines of constant v, mm; a copy. */
    public double[] vLinesMm() {
        return vLines.clone();
    }

    /** How far a place lies outside one area in one direction; the outermost areas have no outer end. */
    private static double outside(double at, int area, double[] lines) {
        double low = area == 0 ? Double.NEGATIVE_INFINITY : lines[area];
        double high = area == lines.length - 2 ? Double.POSITIVE_INFINITY : lines[area + 1];
        return Math.max(0, Math.max(low - at, at - high));
    }

    private static int area(double[] lines, double at) {
        int n = 0;
        while (n < lines.length - 2 && at >= lines[n + 1]) {
            n++;
        }
        return n;
    }

    private static double[] ascending(double[] lines, String name) {
        if (lines.length < 2) {
            throw new IllegalArgumentException(name + " needs at least two lines, got " + lines.length);
        }
        for (int n = 0; n < lines.length; n++) {
            Require.finite(lines[n], name);
            if (n > 0 && !(lines[n] > lines[n - 1])) {
                throw new IllegalArgumentException(
                        String.format(Locale.ROOT, "%s must ascend, got %s", name, Arrays.toString(lines)));
            }
        }
        return lines.clone();
    }
}
