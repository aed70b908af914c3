package org.holdfast.desktop.viewmodel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.holdfast.cases.SampleSubject;
import org.holdfast.construct.Component;
import org.holdfast.construct.ScrewShape;
import org.holdfast.desktop.state.PartState;
import org.holdfast.measure.Answer;
import org.holdfast.measure.ComponentExam;
import org.holdfast.measure.Continuity;
import org.holdfast.measure.ScrewLucency.Zone;
import org.holdfast.measure.Verdict;
import org.junit.jupiter.api.Test;

class ComponentFindingTest {

    private static Component component(String id) {
        return SampleSubject.construct().components().stream()
                .filter(each -> each.id().equals(id))
                .findFirst()
                .orElseThrow();
    }

    private static ComponentFinding screw(double widthMm) {
        Component screw = component("screw-l2-left");
        Zone zone = SampleComponents.zone((ScrewShape) screw.shape(), widthMm, 0.6, false);
        return gravest(SampleComponents.screw(screw, "24 mo", Answer.of(zone)));
    }

    private static ComponentFinding rod(List<Continuity.Break> breaks) {
        return gravest(SampleComponents.rod(component("rod-right"), "24 mo", breaks));
    }

    private static Continuity.Break broken(double gapMm, Continuity.Status status) {
        return SampleComponents.broken(component("rod-right"), gapMm, status);
    }

    private static ComponentFinding gravest(ComponentExam measured) {
        return ComponentFinding.of(measured, false).get(0);
    }

    @Test
    void saysWhatAScrewWithoutZoneCouldHaveHidden() {
        assertEquals(new ComponentFinding(PartState.NO_FINDING, "no zone ≥ 0.6\u2009mm"), screw(0.2));
    }

    @Test
    void marksAZoneOverTheLimit() {
        assertEquals(new ComponentFinding(PartState.CHANGED, "zone 1.3\u2009mm"), screw(1.3));
        assertEquals(new ComponentFinding(PartState.NO_FINDING, "zone 0.9\u2009mm"), screw(0.9));
    }

    @Test
    void callsAScrewLooseWhoseZoneIsTwoMillimetresAllRound() {
        // Phantom: the narrowest sector of a sample zone is 0.8 of its mean, at the head 2.6 · 0.98 · 0.8 = 2.04 mm
        assertEquals(PartState.FAULT, screw(2.6).state());
        // Phantom: the mean is over 2 mm, the narrowest sector 2.4 · 0.98 · 0.8 = 1.88 mm
        assertEquals(PartState.CHANGED, screw(2.4).state());
    }

    @Test
    void tellsAConfirmedBreakFromAnUnconfirmedOne() {
        assertEquals(
                new ComponentFinding(PartState.FAULT, "broken, 0.9\u2009mm"),
                rod(List.of(broken(0.9, Continuity.Status.CONFIRMED))));
        assertEquals(
                new ComponentFinding(PartState.UNCONFIRMED, "unconfirmed"),
                rod(List.of(broken(0.9, Continuity.Status.UNCONFIRMED))));
        assertEquals(new ComponentFinding(PartState.NO_FINDING, "no break ≥ 0.5\u2009mm"), rod(List.of()));
    }

    @Test
    void putsTheGravestFirst() {
        List<Continuity.Break> breaks =
                List.of(broken(0.4, Continuity.Status.UNCONFIRMED), broken(1.2, Continuity.Status.CONFIRMED));
        List<ComponentFinding> found =
                ComponentFinding.of(SampleComponents.rod(component("rod-right"), "24 mo", breaks), false);
        assertEquals(
                List.of(PartState.FAULT, PartState.UNCONFIRMED),
                found.stream().map(ComponentFinding::state).toList());
    }

    @Test
    void callsAMotionWithinRepeatabilityNone() {
        Component body = component("body-l1");
        assertEquals(
                new ComponentFinding(PartState.NO_FINDING, "within error"),
                gravest(SampleComponents.body(body, "24 mo", List.of(SampleComponents.motion("l2", 0.3)))));
        assertEquals(
                new ComponentFinding(PartState.CHANGED, "subsided 0.5\u2009mm"),
                gravest(SampleComponents.body(body, "24 mo", List.of(SampleComponents.motion("l2", 0.5)))));
        assertEquals(
                new ComponentFinding(PartState.CHANGED, "subsided 0.9\u2009mm"),
                gravest(SampleComponents.body(
                        body,
                        "24 mo",
                        List.of(SampleComponents.motion("t12", -0.5), SampleComponents.motion("l2", 0.9)))));
        assertEquals(
                List.of(new ComponentFinding(PartState.NO_FINDING, "reference")),
                ComponentFinding.of(SampleComponents.body(body, "surgery", List.of()), true));
    }

    @Test
    void saysThatAHiddenScrewCannotBeAssessedThoughItIsWhole() {
        ComponentExam hidden = SampleComponents.screw(component("screw-l2-left"), "24 mo", Answer.not("streaks"));
        assertEquals(PartState.NOT_ASSESSABLE, gravest(hidden).state());
        String cause = ComponentCauses.of(hidden, ComponentFinding.of(hidden, false), SampleSubject.construct());
        assertTrue(cause.contains("zone: streaks"), cause);
        assertTrue(cause.contains("no break ≥ 0.5"), cause);
    }

    @Test
    void leavesToTheReaderWhatTheVerdictDoes() {
        ComponentExam rod = SampleComponents.rod(component("rod-right"), "24 mo", List.of());
        ComponentExam peek = new ComponentExam(
                rod.component(),
                rod.examLabel(),
                new Verdict(Verdict.Value.READER_ONLY, List.of("no metal edge")),
                rod.lucency(),
                rod.continuity(),
                rod.migration(),
                rod.key());
        assertEquals(new ComponentFinding(PartState.NOT_ASSESSABLE, "read by eye"), gravest(peek));
    }

    @Test
    void countsNoRingThatIsMostlyHidden() {
        ScrewShape shape = (ScrewShape) component("screw-l2-left").shape();
        Zone zone = SampleComponents.zone(shape, 4, 0.6, true);
        assertTrue(ZoneRound.isAllRound(zone));
        Zone hidden = new Zone(
                zone.largestMeanMm(),
                zone.largestMeanSeMm(),
                zone.widestSectorMm(),
                zone.lengthOverMm(),
                zone.shareOver(),
                0.5,
                zone.rim(),
                zone.smallestVisibleMm(),
                zone.growthMm(),
                zone.growthSeMm(),
                true,
                true,
                zone.stations(),
                zone.sectors().stream()
                        .filter(sector -> sector.angleDeg() < 180)
                        .toList());
        assertEquals(false, ZoneRound.isAllRound(hidden));
        assertEquals(Optional.of(zone).map(Zone::isOverLimit), Optional.of(true));
    }
}
