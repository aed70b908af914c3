package org.holdfast.measure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.IntStream;

/**
 * Sums up the single samples of a screw's surface to its zone by threshold: bone at the guard's end is a zone of 0, no bone
 * within the gap limit one of that limit. Nothing narrower than the smallest visible gap is seen.
 */
final class ThresholdZone {

    private static final int BLOCK_SLABS = 3;
    private static final int WIDE_SLABS = 5;
    private static final int WIDE_SECTORS = 2;
    private static final String NO_ERROR = "single samples, no error is known";
    private static final String NOTHING = "no station can be assessed";

    private final ScrewInExam screw;
    private final boolean[] host;
    private final double minShare;
    private final double[][] sum;
    private final int[][] read;
    private final int[][] all;

    /**
     * @param contact readings of the screw's lateral surface
     * @param laidOut axis on the reference exam, for the places of the samples
     * @param host whether a station lies in host bone
     */
    ThresholdZone(
            ScrewInExam screw,
            ThresholdContact contact,
            ScrewAxis laidOut,
            boolean[] host,
            MeasurementSettings settings) {
        this.screw = screw;
        this.host = host;
        this.minShare = settings.minAssessable();
        int slabs = screw.slabs();
        this.sum = new double[slabs][ScrewVoxels.SECTORS];
        this.read = new int[slabs][ScrewVoxels.SECTORS];
        this.all = new int[slabs][ScrewVoxels.SECTORS];
        double start = screw.atMm(0) - 0.5 * screw.voxels().widthMm();
        for (SampleReading reading : contact.readings()) {
            double along = laidOut.alongMm(reading.sample().point()) - start;
            int slab = (int) Math.floor(along / screw.voxels().widthMm());
            if (slab < 0 || slab >= slabs) {
                continue;
            }
            int sector = ScrewVoxels.sector(laidOut.angleRad(reading.sample().normal()));
            all[slab][sector]++;
            if (reading.tissue() != Tissue.NOT_ASSESSABLE) {
                read[slab][sector]++;
                sum[slab][sector] += width(reading, settings);
            }
        }
    }

    private static double width(SampleReading reading, MeasurementSettings settings) {
        return switch (reading.tissue()) {
            case CONTACT, NOT_ASSESSABLE -> 0;
            case GAP -> reading.gapMm().orElse(settings.gapLimitMm());
            case NO_BONE -> settings.gapLimitMm();
        };
    }

    /** Mean width over slabs [from, from + count) and sectors; NaN where too little can be read. */
    private double mean(int from, int count, int sector, int sectors) {
        double total = 0;
        int seen = 0;
        int samples = 0;
        for (int slab = from; slab < Math.min(sum.length, from + count); slab++) {
            if (!host[slab]) {
                return Double.NaN;
            }
            for (int n = 0; n < sectors; n++) {
                int s = (sector + n) % ScrewVoxels.SECTORS;
                total += sum[slab][s];
                seen += read[slab][s];
                samples += all[slab][s];
            }
        }
        return seen == 0 || seen < minShare * samples ? Double.NaN : total / seen;
    }

    /**
     * The zone.
     *
     * @param reference means of the reference exam's stations, NaN where there is none; null on that itself
     */
    ScrewLucency.Zone zone(Stated smallestVisibleMm, double[] reference, LucencySettings settings) {
        double[] means = means();
        OptionalDouble largest =
                Arrays.stream(means).filter(v -> !Double.isNaN(v)).max();
        Stated largestMean = largest.isPresent() ? Stated.of(largest.getAsDouble()) : Stated.not(NOTHING);
        OptionalDouble wide = IntStream.range(0, Math.max(0, sum.length - WIDE_SLABS + 1) * ScrewVoxels.SECTORS)
                .mapToDouble(n -> mean(n / ScrewVoxels.SECTORS, WIDE_SLABS, n % ScrewVoxels.SECTORS, WIDE_SECTORS))
                .filter(v -> !Double.isNaN(v))
                .max();
        Stated widest = wide.isPresent()
                ? Stated.of(wide.getAsDouble())
                : Stated.not("no sector of 60° × 5 mm can be assessed");
        long over = Arrays.stream(means)
                .filter(v -> !Double.isNaN(v) && settings.isOver(v))
                .count();
        Stated judged = settings.judgedBy() == LucencySettings.JudgedBy.CIRCUMFERENTIAL_MEAN ? largestMean : widest;
        List<ScrewLucency.Sector> sectors = sectors();
        List<ScrewLucency.Sector> stated =
                sectors.stream().filter(s -> s.zoneMm().isPresent()).toList();
        long sectorsOver = stated.stream()
                .filter(s -> settings.isOver(s.zoneMm().getAsDouble()))
                .count();
        String noGrowth = reference == null ? "this is the reference exam" : NO_ERROR;
        return new ScrewLucency.Zone(
                largestMean,
                Stated.not(NO_ERROR),
                widest,
                largest.isPresent() ? Stated.of(over * screw.voxels().widthMm()) : Stated.not(NOTHING),
                stated.isEmpty()
                        ? Stated.not("no sector can be assessed")
                        : Stated.of((double) sectorsOver / stated.size()),
                sectors.isEmpty() ? 1 : 1 - (double) stated.size() / sectors.size(),
                Stated.not("the rim is read by fit only"),
                smallestVisibleMm,
                growth(means, reference),
                Stated.not(noGrowth),
                judged.value().isPresent() && settings.isOver(judged.value().getAsDouble()),
                isNew(means, reference, smallestVisibleMm, settings),
                stations(means),
                sectors);
    }

    /** Mean width of each station; NaN where there is none. */
    double[] means() {
        return IntStream.range(0, sum.length)
                .mapToDouble(n -> mean(n, 1, 0, ScrewVoxels.SECTORS))
                .toArray();
    }

    private static Stated growth(double[] means, double[] reference) {
        if (reference == null) {
            return Stated.not("this is the reference exam");
        }
        OptionalDouble most = IntStream.range(0, means.length)
                .mapToDouble(n -> means[n] - reference[n])
                .filter(v -> !Double.isNaN(v))
                .max();
        return most.isPresent() ? Stated.of(most.getAsDouble()) : Stated.not(NOTHING);
    }

    /** New by threshold: over the limit where the reference exam was not, by more than what it cannot see. */
    private static boolean isNew(
            double[] means, double[] reference, Stated smallestVisibleMm, LucencySettings settings) {
        double unseen = smallestVisibleMm.value().orElse(Double.POSITIVE_INFINITY);
        return reference != null
                && IntStream.range(0, means.length)
                        .anyMatch(n -> settings.isOver(means[n]) && means[n] - reference[n] > unseen);
    }

    private List<ScrewLucency.Station> stations(double[] means) {
        List<ScrewLucency.Station> stations = new ArrayList<>();
        for (int n = 0; n < means.length; n++) {
            int slab = n;
            OptionalDouble max = IntStream.range(0, ScrewVoxels.SECTORS)
                    .mapToDouble(s -> mean(slab, 1, s, 1))
                    .filter(v -> !Double.isNaN(v))
                    .max();
            String why = host[n] ? "less than half of the circumference can be read" : HostStations.NOT_HOST;
            stations.add(new ScrewLucency.Station(
                    screw.atMm(n),
                    Stated.ofOrNot(means[n], why),
                    max.isPresent() ? Stated.of(max.getAsDouble()) : Stated.not("no sector can be read"),
                    Stated.not(NO_ERROR),
                    !host[n]));
        }
        return stations;
    }

    private List<ScrewLucency.Sector> sectors() {
        List<ScrewLucency.Sector> cells = new ArrayList<>();
        double width = 360.0 / ScrewVoxels.SECTORS;
        for (int from = 0; from + BLOCK_SLABS <= sum.length; from += BLOCK_SLABS) {
            for (int s = 0; s < ScrewVoxels.SECTORS; s++) {
                double mean = mean(from, BLOCK_SLABS, s, 1);
                cells.add(new ScrewLucency.Sector(
                        screw.atMm(from + 1),
                        BLOCK_SLABS * screw.voxels().widthMm(),
                        (s + 0.5) * width,
                        width,
                        Double.isNaN(mean) ? OptionalDouble.empty() : OptionalDouble.of(mean),
                        OptionalDouble.empty(),
                        Double.isNaN(mean) ? "not host bone, other metal or a dark streak" : ""));
            }
        }
        return cells;
    }
}
