package org.holdfast.validation;

import java.util.Locale;
import org.holdfast.construct.Construct;
import org.holdfast.measure.ExamScan;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.ScrewLucency;
import org.holdfast.measure.ScrewZones;
import org.holdfast.phantom.HuScale;
import org.junit.jupiter.api.Test;

class ProbeTest {
    @Test
    void probe() {
        double[] widths = {0, 0.3, 0.6, 1, 1.5, 2, 3};
        int total = Integer.getInteger("probe.n", 28);
        int skip = Integer.getInteger("probe.skip", 0);
        double sum = 0, sq = 0;
        int cnt = 0, in = 0;
        for (int n = skip; n < skip + total; n++) {
            LucencyScene scene = LucencyScene.draw(
                    ContactScene.Conditions.GOAL_SET,
                    LucencyScene.Zone.CONCENTRIC,
                    widths[n % 7],
                    n % 3 == 1,
                    n / 7 % 2 == 0 ? HuScale.EXTENDED_30710 : HuScale.CLIPPED_3071,
                    100 + n);
            ExamScan exam = scene.exam();
            Construct c = scene.construct();
            long t0 = System.nanoTime();
            ScrewLucency l = new ScrewZones(c, c.component("screw"), MeasurementSettings.withDefaults())
                    .measureReference(exam)
                    .lucency()
                    .value()
                    .orElseThrow();
            double t = (System.nanoTime() - t0) * 1e-9;
            ScrewLucency.Zone z = l.byFit().value().orElseThrow();
            double b = 0, se = 0, lo = 9, hi = -9;
            int m = 0, inside = 0;
            String why = "";
            for (ScrewLucency.Station s : z.stations())
                if (s.meanMm().value().isPresent()) {
                    double d = s.meanMm().value().getAsDouble() - widths[n % 7];
                    double e = s.seMm().value().getAsDouble();
                    b += d;
                    se += e;
                    m++;
                    lo = Math.min(lo, d);
                    hi = Math.max(hi, d);
                    inside += Math.abs(d) <= 1.96 * e ? 1 : 0;
                    sum += d;
                    sq += d * d;
                    cnt++;
                } else why = s.meanMm().why();
            in += inside;
            System.out.printf(
                    Locale.ROOT,
                    "n %d w %.1f rim %b scale %d: bias %.3f [%.3f %.3f] se %.3f inside %d/%d/%d %s; largest %s sector %s lenOver %s share %s hidden %.2f rim %s visible %s over %b t %.2f%n",
                    n,
                    widths[n % 7],
                    n % 3 == 1,
                    n / 7 % 2,
                    b / m,
                    lo,
                    hi,
                    se / m,
                    inside,
                    m,
                    z.stations().size(),
                    why,
                    z.largestMeanMm(),
                    z.widestSectorMm(),
                    z.lengthOverMm(),
                    z.shareOver(),
                    z.notAssessable(),
                    z.rim(),
                    z.smallestVisibleMm(),
                    z.isOverLimit(),
                    t);
            System.out.println("    "
                    + (l.byThreshold().value().isPresent()
                            ? l.byThreshold().value().get().largestMeanMm() + " "
                                    + l.byThreshold().value().get().smallestVisibleMm()
                                    + l.byThreshold().value().get().isOverLimit()
                            : l.byThreshold().why()));
        }
        double mean = sum / cnt, sd = Math.sqrt(sq / cnt - mean * mean);
        System.out.printf(
                Locale.ROOT,
                "ALL bias %.3f limits %.3f %.3f inside %.3f of %d%n",
                mean,
                mean - 1.96 * sd,
                mean + 1.96 * sd,
                (double) in / cnt,
                cnt);
    }
}
