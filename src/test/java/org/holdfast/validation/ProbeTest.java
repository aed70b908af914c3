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
        for (int n = 0; n < 14; n++) {
            LucencyScene scene = LucencyScene.draw(
                    ContactScene.Conditions.GOAL_SET,
                    LucencyScene.Zone.CONCENTRIC,
                    widths[n % 7],
                    n % 3 == 1,
                    n < 7 ? HuScale.EXTENDED_30710 : HuScale.CLIPPED_3071,
                    100 + n);
            long t0 = System.nanoTime();
            ExamScan exam = scene.exam();
            Construct c = scene.construct();
            long t1 = System.nanoTime();
            double[][] r = new ScrewZones(c, c.component("screw"), MeasurementSettings.withDefaults()).probe(exam);
            long t2 = System.nanoTime();
            System.out.printf(
                    Locale.ROOT,
                    "== w %.1f rim %b scale %d sim %.2f s fit %.2f s; s=%.3f (%s) metal %.0f noise %.1f/%.1f; shift %.3f; true/stated ip %.3f al %.3f%n",
                    widths[n % 7],
                    n % 3 == 1,
                    n / 7,
                    (t1 - t0) * 1e-9,
                    (t2 - t1) * 1e-9,
                    r[0][0],
                    String.format(Locale.ROOT, "%.0f %.0f %.0f", r[0][1], r[0][2], r[0][3]),
                    r[0][4],
                    r[0][5],
                    scene.scan().noiseSdHu(),
                    r[1][0],
                    scene.scan().pointSpread().sigmaInPlaneMm()
                            / scene.statedSpread().sigmaInPlaneMm(),
                    scene.scan().pointSpread().sigmaAlongTableMm()
                            / scene.statedSpread().sigmaAlongTableMm());
            for (int k = 2; k < r.length; k += 5) {
                StringBuilder b = new StringBuilder();
                for (double v : r[k]) b.append(String.format(Locale.ROOT, " %.3f", v));
                System.out.println(b);
            }
        }
    }
}
