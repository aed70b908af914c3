package org.holdfast.measure;

import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.IntStream;

/** Sums up the stations and sectors of a screw to its zone by fit. */
final class FittedZone {

    private static final double NORMAL_95 = 1.959963984540054;
    /** So many standard errors of a width of 0 must a zone be wide to be told from none in 95 % and not be found where there is none in 97.5 %. */
    private static final double SEEN_SE = NORMAL_95 + 1.6448536269514722;

    private static final double SE_QUANTILE = 0.9;
    private static final String NOTHING = "no station can be assessed";
    private static final String REFERENCE = "this is the reference exam";
    private static final String NO_COMMON = "no station can be assessed on both exams";

    private FittedZone() {}

    /**
     * The zone.
     *
     * @param reference the same of the reference exam, or null on that itself
     */
    static ScrewLucency.Zone of(ScrewInExam screw, ZoneStations now, ZoneStations reference, LucencySettings settings) {
        int[] counted =
                IntStream.range(0, now.fitted().length).filter(now::isCounted).toArray();
        int widest = IntStream.of(counted)
                .boxed()
                .max(java.util.Comparator.comparingDouble(n -> now.fitted()[n].widthMm()))
                .orElse(-1);
        Stated largest = widest < 0 ? Stated.not(NOTHING) : Stated.of(now.fitted()[widest].widthMm());
        Stated largestSe = widest < 0 ? Stated.not(NOTHING) : Stated.of(now.fitted()[widest].seMm());
        Stated sector = now.widest()
                .map(w -> Stated.of(w.widthMm().getAsDouble()))
                .orElseGet(() -> Stated.not("no sector of 60° × 5 mm can be assessed"));
        long over = IntStream.of(counted)
                .filter(n -> settings.isOver(now.fitted()[n].widthMm()))
                .count();
        long rims = IntStream.of(counted)
                .filter(n -> now.fitted()[n].edgeOverDepthHu(settings.rimDepthMm()) >= settings.rimHu())
                .count();
        Stated length = counted.length == 0
                ? Stated.not(NOTHING)
                : Stated.of(over * screw.voxels().widthMm());
        Stated rim = counted.length == 0 ? Stated.not(NOTHING) : Stated.of((double) rims / counted.length);
        Growth growth = growth(now, reference);
        Stated judged = settings.judgedBy() == LucencySettings.JudgedBy.CIRCUMFERENTIAL_MEAN ? largest : sector;
        boolean isOver =
                judged.value().isPresent() && settings.isOver(judged.value().getAsDouble());
        return new ScrewLucency.Zone(
                largest,
                largestSe,
                sector,
                length,
                shareOver(now, settings),
                hidden(now),
                rim,
                smallestVisible(now, counted),
                growth.largest,
                growth.se,
                isOver,
                isNew(now, reference, settings),
                now.stations(screw),
                now.sectors());
    }

    private record Growth(Stated largest, Stated se) {}

    private static Growth growth(ZoneStations now, ZoneStations reference) {
        if (reference == null) {
            return new Growth(Stated.not(REFERENCE), Stated.not(REFERENCE));
        }
        int most = IntStream.range(0, now.fitted().length)
                .filter(n -> now.isCounted(n) && reference.isCounted(n))
                .boxed()
                .max(java.util.Comparator.comparingDouble(n -> widening(now, reference, n)))
                .orElse(-1);
        return most < 0
                ? new Growth(Stated.not(NO_COMMON), Stated.not(NO_COMMON))
                : new Growth(
                        Stated.of(widening(now, reference, most)),
                        Stated.of(Math.hypot(now.fitted()[most].seMm(), reference.fitted()[most].seMm())));
    }

    private static double widening(ZoneStations now, ZoneStations reference, int n) {
        return now.fitted()[n].widthMm() - reference.fitted()[n].widthMm();
    }

    /** Over the limit somewhere, and wider there than on the reference exam by more than its error. */
    private static boolean isNew(ZoneStations now, ZoneStations reference, LucencySettings settings) {
        if (reference == null) {
            return false;
        }
        if (settings.judgedBy() == LucencySettings.JudgedBy.CIRCUMFERENTIAL_MEAN) {
            return IntStream.range(0, now.fitted().length)
                    .filter(n -> now.isCounted(n) && reference.isCounted(n))
                    .anyMatch(n -> settings.isOver(now.fitted()[n].widthMm())
                            && widening(now, reference, n)
                                    > NORMAL_95 * Math.hypot(now.fitted()[n].seMm(), reference.fitted()[n].seMm()));
        }
        return IntStream.range(0, now.wide().length).anyMatch(n -> {
            ZoneStations.Wide later = now.wide()[n];
            ZoneStations.Wide before = reference.wide()[n];
            return later.widthMm().isPresent()
                    && before.widthMm().isPresent()
                    && settings.isOver(later.widthMm().getAsDouble())
                    && later.widthMm().getAsDouble() - before.widthMm().getAsDouble()
                            > NORMAL_95 * Math.hypot(later.seMm(), before.seMm());
        });
    }

    private static Stated shareOver(ZoneStations now, LucencySettings settings) {
        List<ScrewLucency.Sector> read =
                counting(now).stream().filter(s -> s.zoneMm().isPresent()).toList();
        return read.isEmpty()
                ? Stated.not("no sector can be assessed")
                : Stated.of((double) read.stream()
                                .filter(s -> settings.isOver(s.zoneMm().getAsDouble()))
                                .count()
                        / read.size());
    }

    private static double hidden(ZoneStations now) {
        List<ScrewLucency.Sector> all = counting(now);
        return all.isEmpty()
                ? 1
                : (double) all.stream().filter(s -> s.zoneMm().isEmpty()).count() / all.size();
    }

    private static List<ScrewLucency.Sector> counting(ZoneStations now) {
        return IntStream.range(0, now.sectors().size())
                .filter(n -> now.blockOver()[n])
                .mapToObj(n -> now.sectors().get(n))
                .toList();
    }

    private static Stated smallestVisible(ZoneStations now, int[] counted) {
        OptionalDouble se = counted.length == 0
                ? OptionalDouble.empty()
                : OptionalDouble.of(Quantiles.quantile(
                        IntStream.of(counted)
                                .mapToDouble(n -> now.fitted()[n].fittedSeMm())
                                .toArray(),
                        SE_QUANTILE));
        return se.isPresent() ? Stated.of(SEEN_SE * se.getAsDouble()) : Stated.not(NOTHING);
    }
}
