package org.holdfast.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/**
 * Where the profile along a part says that metal is missing. The same rule reads a scan and the model of a scan, so that
 * what it can see is found by running it.
 *
 * <p>Extended scale: the core lies under the local plateau by more than a share of it and by more than so many of its
 * local standard deviations. Clipped scale: the area of metal falls under a share of its median over a length, or the
 * core falls under the ceiling by a share of it.
 */
final class DipRule {

    /** The local plateau is read within this distance, mm: past a gap of several mm, within a slow change of HU. */
    private static final double LOCAL_MM = 12;
    /** And no nearer than this, so that a dip does not lower its own plateau, mm. */
    private static final double CLEAR_MM = 2;
    /** A core under this share of the part's plateau does not belong to it. */
    private static final double WHOLE_SHARE = 0.7;

    private static final int FEWEST_LOCAL = 8;
    /** Dips so near to each other are one, mm. */
    private static final double ONE_DIP_MM = 1;
    /** Median absolute deviation → standard deviation of a Gaussian: 1 / Φ⁻¹(0.75). */
    private static final double SD_OF_MAD = 1.4826;

    private final Profile profile;
    private final ContinuitySettings settings;

    DipRule(Profile profile, ContinuitySettings settings) {
        this.profile = profile;
        this.settings = settings;
    }

    /**
     * What the rule reads; arrays one a station.
     *
     * @param stepMm distance of stations, mm
     * @param coreHu core
     * @param areaMm2 area of metal
     * @param isAssessable whether a station counts
     * @param plateauHu the part's plateau
     * @param isClipped whether that is the ceiling
     * @param wholeAreaMm2 area of the whole part
     */
    record Profile(
            double stepMm,
            double[] coreHu,
            double[] areaMm2,
            boolean[] isAssessable,
            double plateauHu,
            boolean isClipped,
            double wholeAreaMm2) {

        static Profile of(PartTrack track) {
            boolean[] counts = new boolean[track.size()];
            IntStream.range(0, counts.length).forEach(n -> counts[n] = track.isAssessable(n));
            return new Profile(
                    track.axis().stepMm(),
                    track.coreHu(),
                    track.areaMm2(),
                    counts,
                    track.plateauHu(),
                    track.isClipped(),
                    track.medianAreaMm2());
        }
    }

    /** Stations first … last of a dip. */
    record Dip(int first, int last) {}

    /** All dips in order; those that run into an end of the part are among them. */
    List<Dip> dips() {
        int size = profile.coreHu().length;
        boolean[] dipped = new boolean[size];
        for (int n = 0; n < size; n++) {
            dipped[n] = profile.isAssessable()[n] && isCoreDip(n);
        }
        if (profile.isClipped()) {
            markSmallAreas(dipped);
        }
        int near = (int) Math.round(ONE_DIP_MM / profile.stepMm());
        List<Dip> found = new ArrayList<>();
        for (int n = 0; n < size; n++) {
            if (dipped[n]) {
                int lastOne = found.size() - 1;
                if (lastOne >= 0 && n - found.get(lastOne).last() <= near) {
                    found.set(lastOne, new Dip(found.get(lastOne).first(), n));
                } else {
                    found.add(new Dip(n, n));
                }
            }
        }
        return found;
    }

    private boolean isCoreDip(int n) {
        double core = profile.coreHu()[n];
        if (profile.isClipped()) {
            return profile.plateauHu() - core > settings.clippedDipShare() * profile.plateauHu();
        }
        double[] local = localCores(n);
        double plateau = local.length < FEWEST_LOCAL ? profile.plateauHu() : Quantiles.median(local);
        double depth = plateau - core;
        return depth > settings.dipShare() * plateau && depth > settings.dipSd() * sd(local);
    }

    /** Plateau at a station, HU. */
    double plateauHu(int n) {
        double[] local = localCores(n);
        return profile.isClipped() || local.length < FEWEST_LOCAL ? profile.plateauHu() : Quantiles.median(local);
    }

    private double[] localCores(int n) {
        int within = (int) Math.round(LOCAL_MM / profile.stepMm());
        int clear = (int) Math.round(CLEAR_MM / profile.stepMm());
        return IntStream.range(Math.max(0, n - within), Math.min(profile.coreHu().length, n + within + 1))
                .filter(m -> Math.abs(m - n) >= clear && profile.isAssessable()[m])
                .mapToDouble(m -> profile.coreHu()[m])
                .filter(hu -> hu >= WHOLE_SHARE * profile.plateauHu())
                .toArray();
    }

    /** Robust standard deviation; 0 for too few. */
    static double sd(double[] values) {
        if (values.length < FEWEST_LOCAL) {
            return 0;
        }
        double middle = Quantiles.median(values);
        double[] away = new double[values.length];
        for (int n = 0; n < away.length; n++) {
            away[n] = Math.abs(values[n] - middle);
        }
        return SD_OF_MAD * Quantiles.median(away);
    }

    private void markSmallAreas(boolean[] dipped) {
        int shortest = Math.max(1, (int) Math.ceil(settings.areaLengthMm() / profile.stepMm() - 1e-9));
        int start = 0;
        for (int n = 0; n <= dipped.length; n++) {
            boolean small = n < dipped.length
                    && profile.isAssessable()[n]
                    && profile.areaMm2()[n] < settings.areaShare() * profile.wholeAreaMm2();
            if (!small) {
                if (n - start >= shortest) {
                    java.util.Arrays.fill(dipped, start, n, true);
                }
                start = n + 1;
            }
        }
    }
}
