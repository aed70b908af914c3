package org.holdfast.app;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import org.holdfast.construct.Component;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.measure.Answer;
import org.holdfast.measure.ComponentExam;
import org.holdfast.measure.Continuity;
import org.holdfast.measure.Migration;
import org.holdfast.measure.PublishedGrading;
import org.holdfast.measure.ScrewLucency;
import org.holdfast.measure.Stated;
import org.holdfast.measure.Verdict;

/** A component's entry among the parts of a report's document. */
final class ComponentNodes {

    private static final String OF_INTERFACES = "a component; contact is stated of its interfaces";

    private ComponentNodes() {}

    static void put(ObjectNode node, ComponentExam part) {
        head(node, part.component(), part.verdict());
        node.put("key", part.key());
        JsonDocument.absent(node, "contact", OF_INTERFACES);
        if (part.lucency().value().isPresent()) {
            ObjectNode lucency = node.putObject("lucency");
            zone(lucency, "byFit", part.lucency().value().get().byFit());
            zone(lucency, "byThreshold", part.lucency().value().get().byThreshold());
        } else {
            JsonDocument.absent(node, "lucency", part.lucency().why());
        }
        if (part.continuity().value().isPresent()) {
            continuity(node.putObject("continuity"), part.continuity().value().get());
        } else {
            JsonDocument.absent(node, "continuity", part.continuity().why());
        }
        ArrayNode migration = node.putArray("migration");
        part.migration().forEach(each -> migration(migration.addObject(), each));
    }

    /** A component of which nothing was measured. */
    static void none(ObjectNode node, Component component, Verdict verdict, String why) {
        head(node, component, verdict);
        JsonDocument.absent(node, "contact", OF_INTERFACES);
        JsonDocument.absent(node, "lucency", why);
        JsonDocument.absent(node, "continuity", why);
        JsonDocument.absent(node, "migration", why);
    }

    private static void head(ObjectNode node, Component component, Verdict verdict) {
        node.put("id", component.id());
        node.put("label", component.label());
        node.put("kind", component.kind().word());
        verdict(node, verdict);
    }

    static void verdict(ObjectNode node, Verdict stated) {
        ObjectNode verdict = node.putObject("verdict");
        verdict.put("value", stated.value().words());
        ArrayNode causes = verdict.putArray("causes");
        stated.causes().forEach(causes::add);
    }

    private static void zone(ObjectNode lucency, String name, Answer<ScrewLucency.Zone> answer) {
        if (answer.value().isEmpty()) {
            JsonDocument.absent(lucency, name, answer.why());
            return;
        }
        ScrewLucency.Zone zone = answer.value().get();
        ObjectNode node = lucency.putObject(name);
        JsonDocument.stated(node, "largestMeanMm", zone.largestMeanMm());
        JsonDocument.stated(node, "largestMeanSeMm", zone.largestMeanSeMm());
        JsonDocument.stated(node, "growthMm", zone.growthMm());
        JsonDocument.stated(node, "growthSeMm", zone.growthSeMm());
        JsonDocument.stated(node, "widestSectorMm", zone.widestSectorMm());
        JsonDocument.stated(node, "lengthOverMm", zone.lengthOverMm());
        JsonDocument.stated(node, "shareOver", zone.shareOver());
        node.put("notAssessable", zone.notAssessable());
        JsonDocument.stated(node, "rim", zone.rim());
        JsonDocument.stated(node, "smallestVisibleMm", zone.smallestVisibleMm());
        node.put("overLimit", zone.isOverLimit());
        node.put("new", zone.isNew());
        ArrayNode stations = node.putArray("stations");
        for (ScrewLucency.Station station : zone.stations()) {
            ObjectNode entry = stations.addObject();
            entry.put("atMm", station.atMm());
            JsonDocument.stated(entry, "meanMm", station.meanMm());
            JsonDocument.stated(entry, "maxMm", station.maxMm());
            JsonDocument.stated(entry, "se", station.seMm());
            entry.put("apart", station.isApart());
        }
    }

    private static void continuity(ObjectNode node, Continuity continuity) {
        ArrayNode breaks = node.putArray("breaks");
        for (Continuity.Break each : continuity.breaks()) {
            ObjectNode entry = breaks.addObject();
            entry.put("atMm", each.atMm());
            PatientPoint at = each.pointMm();
            JsonDocument.xyz(entry, "pointMm", at.x(), at.y(), at.z());
            JsonDocument.stated(entry, "gapAlongAxisMm", each.gapAlongAxisMm());
            JsonDocument.stated(entry, "gapPerpendicularMm", each.gapPerpendicularMm());
            JsonDocument.stated(entry, "stepMm", each.stepMm());
            JsonDocument.stated(entry, "angulationDeg", each.angulationDeg());
            entry.put("displaced", each.isDisplaced());
            entry.put("status", each.status().name());
        }
        JsonDocument.stated(node, "smallestVisibleBreakMm", continuity.smallestVisibleBreakMm());
        if (continuity.bendChangeDeg().isPresent()) {
            node.put("bendChangeDeg", continuity.bendChangeDeg().get());
        } else {
            JsonDocument.absent(node, "bendChangeDeg", "no reference exam to compare with");
        }
        node.put("bent", continuity.isBent());
        JsonDocument.stated(node, "plateauHu", continuity.plateauHu());
        node.put("clipped", continuity.isClipped());
        ArrayNode unassessed = node.putArray("unassessed");
        for (Continuity.Unassessed each : continuity.unassessed()) {
            unassessed
                    .addObject()
                    .put("fromMm", each.fromMm())
                    .put("toMm", each.toMm())
                    .put("why", each.why());
        }
        node.put("caution", continuity.caution());
    }

    private static void migration(ObjectNode node, Migration migration) {
        node.put("bone", migration.bone());
        if (migration.motion().value().isEmpty()) {
            String why = migration.motion().why();
            JsonDocument.absent(node, "translationMm", why);
            JsonDocument.absent(node, "rotationDeg", why);
            JsonDocument.absent(node, "intoBoneMm", why);
            JsonDocument.absent(node, "screwAngleChangeDeg", why);
            JsonDocument.absent(node, "repeatabilityMm", why);
            JsonDocument.absent(node, "repeatabilityDeg", why);
            JsonDocument.absent(node, "withinError", why);
            return;
        }
        Migration.Motion motion = migration.motion().value().get();
        xyz(node, "translationMm", motion.translationMm());
        xyz(node, "rotationDeg", motion.rotationDeg());
        JsonDocument.stated(node, "intoBoneMm", motion.intoBoneMm());
        JsonDocument.stated(node, "screwAngleChangeDeg", motion.screwAngleChangeDeg());
        stated(node, "repeatabilityMm", motion.repeatabilityMm());
        stated(node, "repeatabilityDeg", motion.repeatabilityDeg());
        node.put("repeatabilitySource", motion.repeatabilitySource());
        node.put("withinError", motion.isWithinError());
        ArrayNode grades = node.putArray("grades");
        motion.grades().forEach(grade -> grades.addObject()
                .put("of", grade.grading().title())
                .put("grade", grade.label())
                .put("source", grade.grading().source())
                .put("adapted", grade.use() == PublishedGrading.Use.ADAPTED));
    }

    private static void stated(ObjectNode node, String name, double value) {
        JsonDocument.stated(node, name, Stated.of(value));
    }

    private static void xyz(ObjectNode node, String name, PatientVector v) {
        JsonDocument.xyz(node, name, v.x(), v.y(), v.z());
    }
}
