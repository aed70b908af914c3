package org.holdfast.validation;

import java.util.Locale;
import org.holdfast.construct.Construct;
import org.holdfast.measure.ExamScan;
import org.holdfast.measure.MeasurementSettings;
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
            double[][] r = new ScrewZones(c, c.component("screw"), MeasurementSettings.withDefaults()).probe(exam);
            double b = 0, se = 0, red = 0, x = 0, lo = 9, hi = -9;
            int m = 0, inside = 0;
            for (int k = 2; k < r.length; k++)
                if (r[k].length > 0) {
                    double d = r[k][1] - widths[n % 7];
                    b += d;
                    se += r[k][2];
                    red += r[k][6];
                    x += r[k][5];
                    m++;
                    lo = Math.min(lo, d);
                    hi = Math.max(hi, d);
                    inside += Math.abs(d) <= 1.96 * r[k][2] ? 1 : 0;
                    sum += d;
                    sq += d * d;
                    cnt++;
                }
            in += inside;
            System.out.printf(
                    Locale.ROOT,
                    "n %d w %.1f rim %b scale %d: bias %.3f [%.3f %.3f] se %.3f (spread %.3f) inside %d/%d red %.2f X %.0f cut %.0f; sigma found/true ip %.3f al %.3f (stated %.3f %.3f) noise %.1f/%.1f shift %.3f t %.2f %.2f %.2f%n",
                    n,
                    widths[n % 7],
                    n % 3 == 1,
                    n / 7 % 2,
                    b / m,
                    lo,
                    hi,
                    se / m,
                    r[0][2],
                    inside,
                    m,
                    red / m,
                    x / m,
                    r[0][3],
                    r[0][0] / scene.scan().pointSpread().sigmaInPlaneMm(),
                    r[0][1] / scene.scan().pointSpread().sigmaAlongTableMm(),
                    scene.statedSpread().sigmaInPlaneMm()
                            / scene.scan().pointSpread().sigmaInPlaneMm(),
                    scene.statedSpread().sigmaAlongTableMm()
                            / scene.scan().pointSpread().sigmaAlongTableMm(),
                    r[0][5],
                    scene.scan().noiseSdHu(),
                    r[1][0],
                    r[1][1],
                    r[1][2],
                    r[1][3]);
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
