package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.holdfast.construct.ComponentKind;
import org.holdfast.construct.Material;
import org.holdfast.volume.HuVolume;
import org.junit.jupiter.api.Test;

/** Zones round a screw of a simulated scan with a second screw beside it. */
class ScrewZonesTest {

    /** The goal for a station's width. */
    private static final double WIDTH_MM = 0.2;

    private static final ScrewScan SCAN = new ScrewScan(ComponentKind.PEDICLE_SCREW, Material.TITANIUM_SOLID);

    private static ScrewZones zones(ScrewScan scan) {
        return new ScrewZones(scan.construct, scan.first(), MeasurementSettings.withDefaults());
    }

    private static ScrewLucency.Zone fitted(ScrewZones.Measured measured) {
        return measured.lucency().value().orElseThrow().byFit().value().orElseThrow();
    }

    @Test
    void zoneThatCameAfterTheReferenceExamIsNew() {
        ScrewZones zones = zones(SCAN);
        ScrewZones.Measured first = zones.measureReference(SCAN.exam(SCAN.scan(SCAN.scene(0))));
        ScrewLucency.Zone firm = fitted(first);
        assertFalse(firm.isOverLimit());
        assertFalse(firm.isNew());
        // Phantom: no zone.
        assertEquals(0, firm.largestMeanMm().value().orElseThrow(), WIDTH_MM);
        ScrewLucency.Zone later = fitted(zones.measureFollowUp(
                SCAN.exam(SCAN.scan(SCAN.scene(1.5))), first.reference().orElseThrow()));
        assertTrue(later.isOverLimit());
        assertTrue(later.isNew());
        // Phantom: 1.5 mm all round.
        assertEquals(1.5, later.largestMeanMm().value().orElseThrow(), WIDTH_MM);
        // Phantom: 1.5 mm in every sector.
        assertEquals(1.5, later.widestSectorMm().value().orElseThrow(), WIDTH_MM);
        // Phantom: 1.5 mm wider than none.
        assertEquals(1.5, later.growthMm().value().orElseThrow(), 2 * WIDTH_MM);
        // Phantom: 20 mm in bone, all of it over 1 mm.
        assertEquals(20, later.lengthOverMm().value().orElseThrow(), 1e-9);
        // Phantom: every cell over 1 mm.
        assertEquals(1, later.shareOver().value().orElseThrow(), 0.05);
    }

    @Test
    void zoneOfTheReferenceExamIsBaseline() {
        ScrewZones zones = zones(SCAN);
        HuVolume volume = SCAN.scan(SCAN.scene(1.5));
        ScrewZones.Measured first = zones.measureReference(SCAN.exam(volume));
        ScrewLucency.Zone again = fitted(
                zones.measureFollowUp(SCAN.exam(volume), first.reference().orElseThrow()));
        assertTrue(again.isOverLimit());
        assertFalse(again.isNew());
    }

    @Test
    void darkWedgeBetweenTwoScrewsIsLeftOutAndNamed() {
        // A wedge of 4 mm from screw to screw, dark enough that its sectors read as fluid: 250 − 230 = 20 HU.
        HuVolume streaked = SCAN.withWedge(SCAN.scan(SCAN.scene(0)), 2, -230);
        ScrewLucency.Zone zone = fitted(zones(SCAN).measureReference(SCAN.exam(streaked)));
        List<ScrewLucency.Sector> out = zone.sectors().stream()
                .filter(s -> s.why().equals(StreakSectors.IN_LINE))
                .toList();
        assertFalse(out.isEmpty(), "the wedge's sectors are named");
        assertFalse(zone.isOverLimit());
        // Phantom: no zone; the wedge would add one on an eighth of the circumference.
        assertEquals(0, zone.largestMeanMm().value().orElseThrow(), WIDTH_MM);
        assertTrue(out.stream().allMatch(s -> s.zoneMm().isEmpty()));
    }

    @Test
    void thresholdIsBlindNearOneMillimetreAndSaysSo() {
        ScrewLucency lucency = zones(SCAN)
                .measureReference(SCAN.exam(SCAN.scan(SCAN.scene(1.1))))
                .lucency()
                .value()
                .orElseThrow();
        // Phantom: 1.1 mm.
        assertEquals(
                1.1,
                lucency.byFit().value().orElseThrow().largestMeanMm().value().orElseThrow(),
                WIDTH_MM);
        Stated seen = lucency.byThreshold().value().orElseThrow().smallestVisibleMm();
        assertTrue(seen.value().orElseThrow() > 1, "smallest visible zone " + seen);
        assertFalse(lucency.byThreshold().value().orElseThrow().isOverLimit());
    }

    @Test
    void stationsOutsideTheHostBoneAreLeftOutAndOfAnIliacScrewReportedApart() {
        ScrewLucency.Zone pedicle = fitted(zones(SCAN).measureReference(SCAN.exam(SCAN.scan(SCAN.boneUpTo(12)))));
        ScrewLucency.Station outside = pedicle.stations().get(16);
        assertEquals(HostStations.NOT_HOST, outside.meanMm().why());
        assertTrue(outside.isApart());
        assertTrue(pedicle.stations().get(1).meanMm().value().isPresent());
        ScrewScan iliac = new ScrewScan(ComponentKind.ILIAC_SCREW, Material.TITANIUM_SOLID);
        ScrewLucency.Station apart = fitted(zones(iliac).measureReference(iliac.exam(iliac.scan(iliac.boneUpTo(12)))))
                .stations()
                .get(16);
        assertTrue(apart.isApart());
        assertFalse(apart.meanMm().why().equals(HostStations.NOT_HOST));
    }
}
