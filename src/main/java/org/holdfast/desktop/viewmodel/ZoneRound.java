package org.holdfast.desktop.viewmodel;

import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.holdfast.measure.ScrewLucency.Sector;
import org.holdfast.measure.ScrewLucency.Zone;

/**
 * Whether a zone is so wide all round a screw that the screw counts as loose. Stateless.
 *
 * <p>At one place along the screw every sector that can be assessed is at least 2 mm wide, and these are at least 270° of
 * the circumference: less says nothing of the whole of it.
 */
final class ZoneRound {

    private static final double LOOSE_MM = 2;
    private static final double LEAST_DEG = 270;

    private ZoneRound() {}

    static boolean isAllRound(Zone zone) {
        Map<Double, List<Sector>> rings = zone.sectors().stream().collect(Collectors.groupingBy(Sector::atMm));
        return rings.values().stream().anyMatch(ZoneRound::isLoose);
    }

    private static boolean isLoose(List<Sector> ring) {
        List<Sector> assessed =
                ring.stream().filter(sector -> sector.zoneMm().isPresent()).toList();
        double degrees = assessed.stream().mapToDouble(Sector::widthDeg).sum();
        return degrees >= LEAST_DEG
                && assessed.stream().allMatch(sector -> sector.zoneMm().getAsDouble() >= LOOSE_MM);
    }
}
