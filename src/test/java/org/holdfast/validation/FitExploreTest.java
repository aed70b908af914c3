package org.holdfast.validation;

import java.util.*;
import org.holdfast.construct.*;
import org.holdfast.measure.*;
import org.holdfast.phantom.HuScale;
import org.junit.jupiter.api.Test;

class FitExploreTest {
    @Test
    void explore() {
        int scenes = Integer.getInteger("scenes", 6);
        boolean solid = Boolean.getBoolean("solid");
        boolean stress = Boolean.getBoolean("stress");
        int seed = Integer.getInteger("seed", 1000);
        double[] chances = {0, 0.2, 0.4, 0.6, 0.8, 1};
        TreeMap<String, double[]> bins = new TreeMap<>();
        List<Double> diffs = new ArrayList<>();
        for (int n = 0; n < scenes; n++) {
            boolean ext = solid || n % 2 == 1;
            ContactScene.Gaps gaps = n % 3 == 0 ? ContactScene.Gaps.NARROW : ContactScene.Gaps.LARGE_AREAS;
            ContactScene scene = ContactScene.draw(
                    stress ? ContactScene.Conditions.STRESS_SET : ContactScene.Conditions.GOAL_SET,
                    gaps,
                    solid ? Material.TITANIUM_SOLID : Material.TITANIUM_POROUS,
                    ext ? HuScale.EXTENDED_30710 : HuScale.CLIPPED_3071,
                    chances[n / 2 % 6],
                    seed + n);
            ExamScan exam = ContactValidation.examOf(scene);
            Construct construct = ContactValidation.constructOf(scene);
            long start = System.nanoTime();
            FittedContact c = new ContactByFit(
                            construct, construct.interfaces().get(0), MeasurementSettings.withDefaults())
                    .measureReference(exam)
                    .contact()
                    .value()
                    .orElseThrow();
            double ms = (System.nanoTime() - start) / 1e6;
            double seen = 0, truth = 0, area = 0;
            for (FittedReading r : c.readings()) {
                double gap =
                        scene.scene().trueGapMm(r.sample().uMm(), r.sample().vMm());
                double away = scene.scene()
                        .pattern()
                        .distanceFromChangeMm(r.sample().uMm(), r.sample().vMm());
                if (r.tissue() != Tissue.NOT_ASSESSABLE && (gap < 0.3 || gap > 0.7)) {
                    area++;
                    seen += r.tissue() == Tissue.CONTACT ? 1 : 0;
                    truth += gap < 0.5 ? 1 : 0;
                }
                if (away < 1.5) continue;
                String key = gap == 0
                        ? "0"
                        : gap < 0.3 ? "0+" : gap < 0.7 ? "0.3-0.7" : gap < 1.5 ? "0.7-1.5" : gap < 3 ? "1.5-3" : "3+";
                double[] b = bins.computeIfAbsent(key, k -> new double[9]);
                b[0]++;
                if (r.gapMm().isPresent()) {
                    double d = r.gapMm().getAsDouble() - gap, se = r.gapSeMm().getAsDouble();
                    b[1]++;
                    b[2] += d;
                    b[3] += d * d;
                    b[4] += se;
                    b[5] += Math.abs(d) <= 1.96 * se ? 1 : 0;
                }
                b[6] += r.tissue() == Tissue.NO_BONE ? 1 : 0;
                b[7] += r.tissue() == Tissue.NOT_ASSESSABLE ? 1 : 0;
                b[8] += r.tissue() == Tissue.CONTACT ? 1 : 0;
            }
            if (area > 0) diffs.add((seen - truth) / area);
            System.out.printf(
                    "scene %d n=%d frac %s na %.2f limit %s %s diff %.3f front %.2f gaps %s  %.0f ms  %s%n",
                    n,
                    c.readings().size(),
                    c.fraction().value(),
                    c.notAssessable(),
                    c.smallestVisibleGapMm().value(),
                    c.smallestVisibleGapMm().why(),
                    area > 0 ? (seen - truth) / area : Double.NaN,
                    scene.scene().spec().bone().frontMm(),
                    Arrays.deepToString(scene.scene().pattern().gapsMm()).replaceAll("(\\.\\d\\d)\\d*", "$1"),
                    ms,
                    c.obstacles());
        }
        bins.forEach((k, b) -> {
            double m = b[2] / b[1];
            System.out.printf(
                    "%-8s n %6.0f bias %.3f sd %.3f se %.3f in %.3f nobone %.3f na %.3f contact %.3f%n",
                    k,
                    b[0],
                    m,
                    Math.sqrt(b[3] / b[1] - m * m),
                    b[4] / b[1],
                    b[5] / b[1],
                    b[6] / b[0],
                    b[7] / b[0],
                    b[8] / b[0]);
        });
        double m = diffs.stream().mapToDouble(d -> d).average().orElse(0);
        System.out.printf(
                "contact diff bias %.4f sd %.4f%n",
                m, Math.sqrt(diffs.stream().mapToDouble(d -> (d - m) * (d - m)).sum() / (diffs.size() - 1)));
    }
}
