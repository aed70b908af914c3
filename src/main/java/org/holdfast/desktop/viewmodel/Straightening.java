package org.holdfast.desktop.viewmodel;

import java.util.List;
import org.holdfast.desktop.render.StraightenedImage;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.measure.Continuity.Station;
import org.holdfast.volume.HuVolume;

/** Reads a part's image along its centre line, so that a bent rod lies straight. Stateless. */
final class Straightening {

    /** Reach on either side of the centre line, mm. */
    private static final double REACH_MM = 8;

    private Straightening() {}

    /**
     * HU along the stations and across.
     *
     * @param volume the exam's image
     * @param stations centre line in the exam's patient space, by rising distance, at least one
     * @param side direction across the part, in the exam's patient space, length 1
     */
    static StraightenedImage image(HuVolume volume, List<Station> stations, PatientVector side) {
        double from = stations.get(0).atMm();
        double to = stations.get(stations.size() - 1).atMm();
        double step = Math.max(0.2, (to - from) / 600);
        int along = 1 + (int) Math.floor((to - from) / step);
        int across = 1 + 2 * (int) Math.round(REACH_MM / step);
        float[] hu = new float[Math.multiplyExact(along, across)];
        int n = 0;
        for (int i = 0; i < along; i++) {
            double at = from + i * step;
            while (n + 2 < stations.size() && stations.get(n + 1).atMm() < at) {
                n++;
            }
            PatientPoint middle = between(stations, n, at);
            for (int j = 0; j < across; j++) {
                double aside = (j - (across - 1) / 2) * step;
                hu[i + along * j] = (float) volume.sample(middle.along(side, aside));
            }
        }
        return new StraightenedImage(along, across, from, step, hu);
    }

    private static PatientPoint between(List<Station> stations, int n, double at) {
        Station from = stations.get(n);
        if (n + 1 >= stations.size()) {
            return from.pointMm();
        }
        Station to = stations.get(n + 1);
        double length = to.atMm() - from.atMm();
        double share = length > 0 ? Math.max(0, Math.min(1, (at - from.atMm()) / length)) : 0;
        return from.pointMm().towards(to.pointMm(), share);
    }
}
