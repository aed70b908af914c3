package org.holdfast.desktop.viewmodel;

import java.util.OptionalDouble;
import org.holdfast.desktop.state.Words;
import org.holdfast.measure.ScrewLucency.Sector;
import org.holdfast.measure.ScrewLucency.Zone;

/** The zone around a screw in words. */
final class ZoneWords {

    private ZoneWords() {}

    /** One sector. */
    static String of(Sector sector) {
        String where = "at " + Words.quantity(sector.atMm(), 1, "mm") + " from the head, "
                + Words.number(sector.angleDeg(), 0) + "° from cranial: ";
        if (sector.zoneMm().isEmpty()) {
            return where + "cannot tell, " + sector.why();
        }
        OptionalDouble se = sector.seMm();
        return where + "zone " + Words.number(sector.zoneMm().getAsDouble(), 1)
                + (se.isPresent() ? " ± " + Words.number(se.getAsDouble(), 1) : "") + "\u2009mm";
    }

    /** The whole, for those who cannot see the map. */
    static String summary(String part, String exam, Zone zone) {
        OptionalDouble seen = ComponentFinding.seenMm(zone);
        return "unrolled zone map, " + part + ", " + exam + ", "
                + (seen.isPresent()
                        ? "largest mean width " + Words.quantity(seen.getAsDouble(), 1, "mm")
                        : ComponentFinding.noZone(zone))
                + ", widest sector " + Words.millimetres(zone.widestSectorMm().value(), 1, "not stated")
                + ", cannot tell " + Words.percent(zone.notAssessable());
    }
}
