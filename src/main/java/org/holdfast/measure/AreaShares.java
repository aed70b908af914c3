package org.holdfast.measure;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import org.holdfast.construct.PatchSample;

/** Area-weighted shares of the outcomes of a face's samples; lists are in step, one entry a sample. */
final class AreaShares {

    private final List<PatchSample> samples;
    private final List<SampleClassifier.Outcome> outcomes;

    AreaShares(List<PatchSample> samples, List<SampleClassifier.Outcome> outcomes) {
        this.samples = samples;
        this.outcomes = outcomes;
    }

    double totalMm2() {
        return samples.stream().mapToDouble(PatchSample::areaMm2).sum();
    }

    double areaMm2(Predicate<SampleClassifier.Outcome> kind) {
        double area = 0;
        for (int n = 0; n < samples.size(); n++) {
            if (kind.test(outcomes.get(n))) {
                area += samples.get(n).areaMm2();
            }
        }
        return area;
    }

    double contactMm2() {
        return areaMm2(o -> o.tissue() == Tissue.CONTACT);
    }

    double notAssessableMm2() {
        return areaMm2(o -> o.tissue() == Tissue.NOT_ASSESSABLE);
    }

    /** Contact over assessable area; NaN where nothing is assessable. */
    double contactOfAssessable() {
        double assessable = totalMm2() - notAssessableMm2();
        return assessable > 0 ? contactMm2() / assessable : Double.NaN;
    }

    /** Contact over assessable area among the samples that are marked; NaN where none is. */
    double contactAmong(boolean[] marked) {
        double contact = 0;
        double assessable = 0;
        for (int n = 0; n < samples.size(); n++) {
            Tissue tissue = outcomes.get(n).tissue();
            if (marked[n] && tissue != Tissue.NOT_ASSESSABLE) {
                assessable += samples.get(n).areaMm2();
                contact += tissue == Tissue.CONTACT ? samples.get(n).areaMm2() : 0;
            }
        }
        return assessable > 0 ? contact / assessable : Double.NaN;
    }

    Map<Obstacle, Double> obstacleShares() {
        Map<Obstacle, Double> shares = new EnumMap<>(Obstacle.class);
        double total = totalMm2();
        for (Obstacle obstacle : Obstacle.values()) {
            double area = areaMm2(o -> o.obstacle() == obstacle);
            if (area > 0) {
                shares.put(obstacle, area / total);
            }
        }
        return shares;
    }
}
