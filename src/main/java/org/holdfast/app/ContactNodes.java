package org.holdfast.app;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Locale;
import java.util.Map;
import org.holdfast.construct.BoneInterface;
import org.holdfast.measure.ChangeMap;
import org.holdfast.measure.FittedContact;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.Obstacle;
import org.holdfast.measure.PointSpreadEstimate;
import org.holdfast.measure.PorousFill;
import org.holdfast.measure.Stated;
import org.holdfast.measure.ThresholdContact;
import org.holdfast.measure.Verdict;

/** An interface's entry among the parts of a report's document. */
final class ContactNodes {

    private static final String OF_COMPONENTS = "an interface; it is stated of the components";
    private static final String INTERFACE = "interface";

    private ContactNodes() {}

    static void put(ObjectNode node, InterfaceExam part, PointSpreadEstimate spread) {
        head(node, part.face(), part.verdict());
        node.put("key", part.key());
        ObjectNode contact = node.putObject("contact");
        if (part.contact().isPresent()) {
            byThreshold(contact.putObject("byThreshold"), part.contact().get());
        } else {
            JsonDocument.absent(
                    contact, "byThreshold", String.join("; ", part.verdict().causes()));
        }
        if (part.byFit().value().isPresent()) {
            byFit(contact.putObject("byFit"), part.byFit().value().get(), spread);
        } else {
            JsonDocument.absent(contact, "byFit", part.byFit().why());
        }
        porousFill(contact.putObject("porousFill"), part.fill());
        if (part.change().value().isPresent()) {
            change(contact.putObject("change"), part.change().value().get());
        } else {
            JsonDocument.absent(contact, "change", part.change().why());
        }
        noComponent(node, OF_COMPONENTS);
    }

    /** An interface of which nothing was measured. */
    static void none(ObjectNode node, BoneInterface face, Verdict verdict, String why) {
        head(node, face, verdict);
        ObjectNode contact = node.putObject("contact");
        JsonDocument.absent(contact, "byThreshold", why);
        JsonDocument.absent(contact, "byFit", why);
        JsonDocument.absent(contact, "porousFill", why);
        JsonDocument.absent(contact, "change", why);
        noComponent(node, why);
    }

    private static void head(ObjectNode node, BoneInterface face, Verdict verdict) {
        node.put("id", face.id());
        node.put("label", face.label());
        node.put("kind", INTERFACE);
        ComponentNodes.verdict(node, verdict);
    }

    private static void noComponent(ObjectNode node, String why) {
        JsonDocument.absent(node, "lucency", why);
        JsonDocument.absent(node, "continuity", why);
        JsonDocument.absent(node, "migration", why);
    }

    private static void byThreshold(ObjectNode node, ThresholdContact c) {
        JsonDocument.stated(node, "fraction", c.fraction());
        bounds(node, c.statedLow(), c.statedHigh());
        JsonDocument.stated(node, "ofOppositeBone", c.ofOppositeBone());
        JsonDocument.stated(node, "bridged", c.bridged());
        hidden(node, c.notAssessable(), c.obstacles());
        JsonDocument.stated(node, "smallestVisibleGapMm", c.smallestVisibleGapMm());
        JsonDocument.stated(node, "smallestVisibleGapIfBlurrierMm", c.smallestVisibleGapIfBlurrierMm());
        ObjectNode sensitivity = node.putObject("sensitivity");
        c.sensitivity()
                .forEach((change, value) ->
                        JsonDocument.stated(sensitivity, String.format(Locale.ROOT, "%+d", change), value));
        JsonDocument.stated(node, "jitterSd", c.jitterSd());
        node.put("boneHu", c.boneHu());
        node.put("boneHuRule", c.boneRule());
        JsonDocument.stated(node, "hostHu", c.hostHu());
        JsonDocument.stated(node, "noiseSdHu", c.noiseSdHu());
        node.put("guardMm", c.guardMm());
        JsonDocument.stated(node, "plateauHu", c.plateauHu());
        JsonDocument.stated(node, "frontHu", c.frontHu());
        node.put("areaMm2", c.areaMm2());
        spread(node.putObject("gapMm"), c.gapMm(), "no gap found");
        spread(node.putObject("beyondGuardHu"), c.beyondGuardHu(), "nothing is assessable");
    }

    private static void byFit(ObjectNode node, FittedContact c, PointSpreadEstimate spread) {
        JsonDocument.stated(node, "fraction", c.fraction());
        bounds(node, c.low(), c.high());
        JsonDocument.stated(node, "ofOppositeBone", c.ofOppositeBone());
        JsonDocument.stated(node, "bridged", c.bridged());
        hidden(node, c.notAssessable(), c.obstacles());
        JsonDocument.stated(node, "smallestVisibleGapMm", c.smallestVisibleGapMm());
        ObjectNode gap = node.putObject("gapMm");
        spread(gap, c.gapMm(), "nothing is assessable");
        JsonDocument.stated(gap, "se", c.gapSeMm());
        node.putArray("sigmaMm").add(spread.sigmaInPlaneMm()).add(spread.sigmaAlongTableMm());
        node.put("boneHu", c.boneHu());
        node.put("areaMm2", c.areaMm2());
    }

    private static void porousFill(ObjectNode node, PorousFill fill) {
        JsonDocument.stated(node, "value", fill.value());
        JsonDocument.stated(node, "se", fill.se());
        JsonDocument.stated(node, "driftHu", fill.driftHu());
        node.put("reference", fill.reference());
    }

    private static void change(ObjectNode node, ChangeMap map) {
        node.put("more", map.more());
        node.put("less", map.less());
        node.put("none", map.none());
        node.put("notComparable", map.notComparable());
        node.putArray("moreBounds").add(map.more()).add(map.moreAtMost());
        node.putArray("lessBounds").add(map.less()).add(map.lessAtMost());
        node.put("errorHu", map.errorHu());
        node.put("errorSource", map.errorSource());
        node.put("smallestVisibleHu", map.smallestVisibleHu());
        node.put("byChance", map.byChance());
        JsonDocument.stated(node, "driftHu", map.driftHu());
    }

    private static void bounds(ObjectNode node, Stated low, Stated high) {
        if (low.value().isPresent() && high.value().isPresent()) {
            node.putArray("bounds")
                    .add(low.value().getAsDouble())
                    .add(high.value().getAsDouble());
        } else {
            JsonDocument.absent(node, "bounds", low.value().isEmpty() ? low.why() : high.why());
        }
    }

    private static void hidden(ObjectNode node, double share, Map<Obstacle, Double> obstacles) {
        node.put("notAssessable", share);
        ObjectNode causes = node.putObject("notAssessableCauses");
        obstacles.forEach((obstacle, part) -> causes.put(obstacle.name(), part));
    }

    private static void spread(ObjectNode node, ThresholdContact.Spread spread, String why) {
        JsonDocument.number(node, "mean", spread.mean(), why);
        JsonDocument.number(node, "p10", spread.p10(), why);
        JsonDocument.number(node, "median", spread.median(), why);
        JsonDocument.number(node, "p90", spread.p90(), why);
    }
}
