package org.holdfast.measure;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;

/**
 * The zone of a screw in one exam by fit: stations, unrolled cells and the sectors for the widest one, before they are
 * summed up. Arrays must not be written.
 *
 * @param fitted one a slab; null where nothing can be said
 * @param why why nothing can be said, one a slab; empty where something is
 * @param counts whether the station counts in the figures of the zone, one a slab
 * @param sectors cells of 30° × 3 mm
 * @param blockOver whether a cell lies on stations that count, one a sector
 * @param wide sectors of 60° × 5 mm
 */
record ZoneStations(
        ZoneFit.Zone[] fitted,
        String[] why,
        boolean[] counts,
        List<ScrewLucency.Sector> sectors,
        boolean[] blockOver,
        Wide[] wide) {

    private static final int WIDE_SECTORS = 2;
    private static final int WIDE_SLABS = 5;
    private static final int WIDE_STEP_SLABS = 2;
    private static final int BLOCK_SLABS = 3;
    private static final String TOO_UNSURE = "standard error over %.2f mm";
    private static final String NO_FIT = "what is seen does not fit layers round a screw";
    private static final String NO_BORDER = "no bone seen beyond the zone within reach";
    private static final String HIDDEN = "less than half of the circumference can be read";
    private static final String NO_VOXELS = "too few voxels under the scale's ceiling";

    /** A sector of 60° × 5 mm; empty where nothing can be said. */
    record Wide(OptionalDouble widthMm, double seMm) {
        static final Wide NOTHING = new Wide(OptionalDouble.empty(), Double.NaN);
    }

    /**
     * Fits everything, on all cores.
     *
     * @param host whether a station lies in host bone
     * @param isApart whether stations that do not are fitted all the same
     * @param cellWhy why a cell is left out, [slab][sector]; empty where it is not
     * @param spreadSeMm standard error that the point spread leaves in a width
     */
    static ZoneStations of(
            ScrewInExam screw,
            ScrewRings rings,
            boolean[] host,
            boolean isApart,
            String[][] cellWhy,
            double spreadSeMm,
            MeasurementSettings settings) {
        int slabs = screw.slabs();
        ZoneFit.Zone[] fitted = new ZoneFit.Zone[slabs];
        String[] why = new String[slabs];
        IntStream.range(0, slabs).parallel().forEach(n -> {
            if (!host[n] && !isApart) {
                why[n] = HostStations.NOT_HOST;
                return;
            }
            ZoneFit.Zone zone = rings.station(n, settings.minAssessable());
            why[n] = zone == null ? HIDDEN : refusal(zone, spreadSeMm, settings);
            fitted[n] = why[n].isEmpty() ? zone.withError(spreadSeMm) : null;
        });
        int blocks = Math.max(1, slabs / BLOCK_SLABS);
        List<ScrewLucency.Sector> cells = IntStream.range(0, blocks * ScrewVoxels.SECTORS)
                .parallel()
                .mapToObj(n -> cell(
                        screw,
                        rings,
                        n / ScrewVoxels.SECTORS,
                        n % ScrewVoxels.SECTORS,
                        host,
                        isApart,
                        cellWhy,
                        spreadSeMm,
                        settings))
                .toList();
        boolean[] counted = new boolean[cells.size()];
        for (int n = 0; n < counted.length; n++) {
            counted[n] = all(host, n / ScrewVoxels.SECTORS * BLOCK_SLABS, BLOCK_SLABS);
        }
        int places = slabs < WIDE_SLABS ? 0 : (slabs - WIDE_SLABS) / WIDE_STEP_SLABS + 1;
        Wide[] wide = IntStream.range(0, places * ScrewVoxels.SECTORS)
                .parallel()
                .mapToObj(n -> wide(
                        rings,
                        n / ScrewVoxels.SECTORS * WIDE_STEP_SLABS,
                        n % ScrewVoxels.SECTORS,
                        host,
                        cellWhy,
                        spreadSeMm,
                        settings))
                .toArray(Wide[]::new);
        return new ZoneStations(fitted, why, host, cells, counted, wide);
    }

    private static ScrewLucency.Sector cell(
            ScrewInExam screw,
            ScrewRings rings,
            int block,
            int sector,
            boolean[] host,
            boolean isApart,
            String[][] cellWhy,
            double spreadSeMm,
            MeasurementSettings settings) {
        int from = block * BLOCK_SLABS;
        int to = Math.min(from + BLOCK_SLABS, screw.slabs());
        double at = 0.5 * (screw.atMm(from) + screw.atMm(to - 1));
        double length = (to - from) * screw.voxels().widthMm();
        double width = 360.0 / ScrewVoxels.SECTORS;
        String why = "";
        for (int n = from; n < to; n++) {
            why = why.isEmpty() ? cellWhy[n][sector] : why;
        }
        ZoneFit.Zone zone = null;
        if (!isApart && !all(host, from, to - from)) {
            why = HostStations.NOT_HOST;
        } else if (why.isEmpty()) {
            zone = rings.fit(from, to, ScrewRings.sectors(sector, 1));
            why = zone == null ? NO_VOXELS : refusal(zone, spreadSeMm, settings);
        }
        boolean isStated = why.isEmpty();
        ZoneFit.Zone weighed = isStated ? zone.withError(spreadSeMm) : null;
        return new ScrewLucency.Sector(
                at,
                length,
                (sector + 0.5) * width,
                width,
                isStated ? OptionalDouble.of(weighed.widthMm()) : OptionalDouble.empty(),
                isStated ? OptionalDouble.of(weighed.seMm()) : OptionalDouble.empty(),
                why);
    }

    private static Wide wide(
            ScrewRings rings,
            int from,
            int sector,
            boolean[] host,
            String[][] cellWhy,
            double spreadSeMm,
            MeasurementSettings settings) {
        boolean isRead = all(host, from, WIDE_SLABS);
        for (int n = from; n < from + WIDE_SLABS; n++) {
            for (int m = 0; m < WIDE_SECTORS; m++) {
                isRead &= cellWhy[n][(sector + m) % ScrewVoxels.SECTORS].isEmpty();
            }
        }
        ZoneFit.Zone zone =
                isRead ? rings.fit(from, from + WIDE_SLABS, ScrewRings.sectors(sector, WIDE_SECTORS)) : null;
        if (zone == null || !refusal(zone, spreadSeMm, settings).isEmpty()) {
            return Wide.NOTHING;
        }
        ZoneFit.Zone weighed = zone.withError(spreadSeMm);
        return new Wide(OptionalDouble.of(weighed.widthMm()), weighed.seMm());
    }

    private static String refusal(ZoneFit.Zone zone, double spreadSeMm, MeasurementSettings settings) {
        if (!zone.isFitting()) {
            return NO_FIT;
        }
        if (!zone.isBordered()) {
            return NO_BORDER;
        }
        double most = settings.fit().maxGapSeMm();
        return Math.hypot(zone.seMm(), spreadSeMm) <= most ? "" : String.format(Locale.ROOT, TOO_UNSURE, most);
    }

    private static boolean all(boolean[] flags, int from, int count) {
        boolean all = true;
        for (int n = from; n < Math.min(flags.length, from + count); n++) {
            all &= flags[n];
        }
        return all;
    }

    /** Whether a station has a width and counts. */
    boolean isCounted(int slab) {
        return counts[slab] && fitted[slab] != null;
    }

    /** Stations for the result. */
    List<ScrewLucency.Station> stations(ScrewInExam screw) {
        return IntStream.range(0, fitted.length)
                .mapToObj(n -> station(screw, n))
                .toList();
    }

    private ScrewLucency.Station station(ScrewInExam screw, int n) {
        int block = Math.min(n / BLOCK_SLABS, sectors.size() / ScrewVoxels.SECTORS - 1);
        OptionalDouble widest = sectors.subList(block * ScrewVoxels.SECTORS, (block + 1) * ScrewVoxels.SECTORS).stream()
                .filter(s -> s.zoneMm().isPresent())
                .mapToDouble(s -> s.zoneMm().getAsDouble())
                .max();
        Stated max = widest.isPresent() ? Stated.of(widest.getAsDouble()) : Stated.not("no sector can be read");
        if (fitted[n] == null) {
            return new ScrewLucency.Station(screw.atMm(n), Stated.not(why[n]), max, Stated.not(why[n]), !counts[n]);
        }
        return new ScrewLucency.Station(
                screw.atMm(n), Stated.of(fitted[n].widthMm()), max, Stated.of(fitted[n].seMm()), !counts[n]);
    }

    /** The sector of 60° × 5 mm with the widest zone. */
    Optional<Wide> widest() {
        return java.util.Arrays.stream(wide)
                .filter(w -> w.widthMm().isPresent())
                .max(java.util.Comparator.comparingDouble(w -> w.widthMm().getAsDouble()));
    }
}
