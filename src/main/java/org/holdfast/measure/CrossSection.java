package org.holdfast.measure;

import org.holdfast.geometry.PatientPoint;
import org.holdfast.volume.HuVolume;

/** Reads HU in the plane across a part at one station: its core, its metal and what lies round it. */
final class CrossSection {

    /** Distance of the places that are read in the plane, mm: well under a voxel, so that sums are smooth. */
    private static final double GRID_MM = 0.3;
    /** The core is read within this share of the diameter: inside a screw's thread and clear of the blurred edge. */
    private static final double CORE_OF_DIAMETER = 0.2;
    /** The ring in which metal beside the part is looked for, beyond the part's radius, mm. */
    private static final double RING_FROM_MM = 1.0;

    private static final double RING_TO_MM = 2.0;

    private final HuVolume volume;
    private final double radiusMm;
    private final double[] du;
    private final double[] dv;
    private final double[] away;

    CrossSection(HuVolume volume, double diameterMm) {
        this.volume = volume;
        this.radiusMm = 0.5 * diameterMm;
        int reach = (int) Math.ceil((radiusMm + RING_TO_MM) / GRID_MM);
        int side = 2 * reach + 1;
        this.du = new double[side * side];
        this.dv = new double[side * side];
        this.away = new double[side * side];
        for (int n = 0; n < du.length; n++) {
            du[n] = (n % side - reach) * GRID_MM;
            dv[n] = (n / side - reach) * GRID_MM;
            away[n] = Math.hypot(du[n], dv[n]);
        }
    }

    /**
     * Metal found within a disc.
     *
     * @param uMm centroid, weighted by how far HU rise over the level (up to the top)
     * @param vMm the same
     * @param areaMm2 area at or over the level
     */
    record Metal(double uMm, double vMm, double areaMm2) {}

    /** Places that belong to another part and do not count; given in the laid-out station's own (u, v). */
    interface Foreign {
        Foreign NONE = (u, v) -> false;

        boolean has(double uMm, double vMm);
    }

    /** Mean HU over the core round a place; NaN where the image does not reach. */
    double coreHu(PartAxis.Station station, double uMm, double vMm) {
        double within = CORE_OF_DIAMETER * 2 * radiusMm;
        double sum = 0;
        int count = 0;
        for (int n = 0; n < du.length; n++) {
            if (away[n] <= within) {
                sum += sample(station, uMm + du[n], vMm + dv[n]);
                count++;
            }
        }
        return sum / count;
    }

    /** Metal in a disc round a place; area 0 and the place itself where there is none. */
    Metal metal(
            PartAxis.Station station,
            double uMm,
            double vMm,
            double beyondRadiusMm,
            double levelHu,
            double topHu,
            Foreign foreign) {
        double weights = 0;
        double u = 0;
        double v = 0;
        int count = 0;
        for (int n = 0; n < du.length; n++) {
            if (away[n] > radiusMm + beyondRadiusMm) {
                continue;
            }
            double hu = sample(station, uMm + du[n], vMm + dv[n]);
            if (hu >= levelHu && !foreign.has(uMm + du[n], vMm + dv[n])) {
                double weight = Math.min(1, (hu - levelHu) / (topHu - levelHu));
                weights += weight;
                u += weight * du[n];
                v += weight * dv[n];
                count++;
            }
        }
        double area = count * GRID_MM * GRID_MM;
        return weights > 0 ? new Metal(uMm + u / weights, vMm + v / weights, area) : new Metal(uMm, vMm, area);
    }

    /** Share of a ring close round the part that is metal: 0 for a part that lies alone. */
    double ringShare(PartAxis.Station station, double uMm, double vMm, double levelHu) {
        int metal = 0;
        int all = 0;
        for (int n = 0; n < du.length; n++) {
            if (away[n] >= radiusMm + RING_FROM_MM && away[n] <= radiusMm + RING_TO_MM) {
                all++;
                metal += sample(station, uMm + du[n], vMm + dv[n]) >= levelHu ? 1 : 0;
            }
        }
        return (double) metal / all;
    }

    private double sample(PartAxis.Station s, double u, double v) {
        PatientPoint p = s.point();
        return volume.sample(
                p.x() + u * s.u().x() + v * s.v().x(),
                p.y() + u * s.u().y() + v * s.v().y(),
                p.z() + u * s.u().z() + v * s.v().z());
    }
}
