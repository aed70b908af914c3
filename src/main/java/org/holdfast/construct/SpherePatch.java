package org.holdfast.construct;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * A cap of a sphere around a pole, with normals away from the centre.
 *
 * <p>Map coordinates: Lambert's azimuthal equal-area projection about the pole. A point at the angle θ from the pole
 * and the azimuth φ lies at the distance 2·radius·sin(θ/2) from the map's middle; (u, v) = that · (cos φ, sin φ). Azimuth
 * 0 is {@link #zeroDirection()}, counted right-handed about the pole. (Snyder, Map Projections, USGS Professional Paper
 * 1395, 1987, section 24, oblique aspect.)
 *
 * @param centre centre of the sphere, mm
 * @param radiusMm radius, mm
 * @param pole direction from the centre to the middle of the cap; unit within 1e-3
 * @param halfAngleDeg angle between the pole and the cap's rim, degrees, above 0 and at most 180 (the whole sphere)
 */
public record SpherePatch(PatientPoint centre, double radiusMm, PatientVector pole, double halfAngleDeg)
        implements Patch {

    public SpherePatch {
        Objects.requireNonNull(centre, "centreMm");
        Rule.positive("radiusMm", radiusMm);
        Rule.unit("pole", pole);
        if (!(halfAngleDeg > 0 && halfAngleDeg <= 180)) {
            throw new InvalidField("halfAngleDeg", "an angle above 0 and at most 180 degrees", halfAngleDeg);
        }
    }

    /** The direction at right angles to the pole where the azimuth is 0; fixed by the pole alone. */
    public PatientVector zeroDirection() {
        return pole.anyPerpendicular();
    }

    /** 2π·radius²·(1 − cos halfAngle), written as 4π·radius²·sin²(halfAngle/2), which keeps its digits for small caps. */
    @Override
    public double areaMm2() {
        double s = Math.sin(0.5 * Math.toRadians(halfAngleDeg));
        return 4 * Math.PI * radiusMm * radiusMm * s * s;
    }

    /** Zones from the pole to the rim; in a zone the azimuth ascends. */
    @Override
    public List<PatchSample> samples(double spacingMm) {
        double halfAngle = Math.toRadians(halfAngleDeg);
        double rim = Math.sin(0.5 * halfAngle);
        EqualAreaRows zones = new EqualAreaRows(
                EqualAreaRows.pieces(halfAngle * radiusMm, spacingMm),
                EqualAreaRows.cells(areaMm2(), spacingMm),
                s -> square(Math.sin(0.5 * s * halfAngle) / rim));
        double area = areaMm2() / zones.cells();
        PatientVector up = pole.unit();
        PatientVector zero = zeroDirection();
        PatientVector quarter = up.cross(zero);
        List<PatchSample> samples = new ArrayList<>();
        for (int zone = 0; zone < zones.rows(); zone++) {
            int around = zones.cellsInRow(zone);
            double sinHalf = around == zones.cells() && around == 1 ? 0 : rim * Math.sqrt(zones.middleShare(zone));
            double cosHalf = Math.sqrt(1 - square(sinHalf));
            double sin = 2 * sinHalf * cosHalf;
            double cos = 1 - 2 * square(sinHalf);
            for (int n = 0; n < around; n++) {
                double azimuth = 2 * Math.PI * (n + 0.5) / around;
                PatientVector outwards = zero.times(Math.cos(azimuth)).plus(quarter.times(Math.sin(azimuth)));
                PatientVector normal = up.times(cos).plus(outwards.times(sin)).unit();
                double map = 2 * radiusMm * sinHalf;
                samples.add(new PatchSample(
                        centre.along(normal, radiusMm),
                        normal,
                        area,
                        map * Math.cos(azimuth),
                        map * Math.sin(azimuth)));
            }
        }
        return List.copyOf(samples);
    }

    private static double square(double x) {
        return x * x;
    }
}
