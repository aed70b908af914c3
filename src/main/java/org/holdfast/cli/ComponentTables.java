package org.holdfast.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.app.ContactReport;
import org.holdfast.app.ExamResult;
import org.holdfast.app.SimulationTruth;
import org.holdfast.geometry.PatientVector;
import org.holdfast.measure.ComponentExam;
import org.holdfast.measure.Continuity;
import org.holdfast.measure.Migration;
import org.holdfast.measure.ScrewLucency;
import org.holdfast.measure.ScrewLucency.Zone;
import org.holdfast.measure.Stated;

/** What was measured on screws, rods and bodies, as tables; each statement of absence with what the scan can see. */
final class ComponentTables {

    private ComponentTables() {}

    /** Zones round screws; empty where none was asked for. */
    static List<String> zones(ContactReport report, SimulationTruth truth) {
        List<String> header = new ArrayList<>(List.of(
                "exam",
                "day",
                "screw",
                "by fit\nmean ± SE, mm",
                "\nwidest, mm",
                "\ncall",
                "by threshold",
                "hidden\n%"));
        if (!truth.isEmpty()) {
            header.add("truth\nmm");
        }
        TextTable table = new TextTable(header);
        boolean isAny = false;
        for (ExamResult exam : report.exams()) {
            for (ComponentExam part : exam.components()) {
                if (part.lucency().value().isEmpty()) {
                    continue;
                }
                isAny = true;
                Optional<Zone> fit =
                        part.lucency().value().flatMap(l -> l.byFit().value());
                List<String> row = start(exam, part);
                row.add(fit.map(ComponentTables::mean).orElse(Cells.NOT_STATED));
                row.add(fit.map(z -> Cells.decimals(z.widestSectorMm(), 2)).orElse(Cells.NOT_STATED));
                row.add(fit.map(ComponentTables::call).orElse(Cells.NOT_STATED));
                row.add(byThreshold(part));
                row.add(fit.map(z -> Cells.percent(z.notAssessable())).orElse(Cells.NOT_STATED));
                if (!truth.isEmpty()) {
                    row.add(trueZone(truth, exam, part));
                }
                table.add(row);
            }
        }
        return isAny ? table.lines() : List.of();
    }

    /** Breaks of screws and rods; empty where they were not asked for. */
    static List<String> breaks(ContactReport report, SimulationTruth truth) {
        List<String> header = new ArrayList<>(List.of("exam", "day", "part", "break", "bend"));
        if (!truth.isEmpty()) {
            header.add("truth");
        }
        TextTable table = new TextTable(header);
        boolean isAny = false;
        for (ExamResult exam : report.exams()) {
            for (ComponentExam part : exam.components()) {
                if (part.continuity().value().isEmpty()) {
                    continue;
                }
                isAny = true;
                Continuity continuity = part.continuity().value().get();
                List<String> row = start(exam, part);
                row.add(breaks(continuity));
                row.add(bend(continuity));
                if (!truth.isEmpty()) {
                    row.add(trueBreak(truth, exam, part));
                }
                table.add(row);
            }
        }
        return isAny ? table.lines() : List.of();
    }

    private static List<String> start(ExamResult exam, ComponentExam part) {
        return new ArrayList<>(
                List.of(exam.label(), Cells.day(exam), part.component().label()));
    }

    private static String bend(Continuity continuity) {
        if (continuity.bendChangeDeg().isEmpty()) {
            return "";
        }
        return Cells.signed(continuity.bendChangeDeg().get(), 1) + "°" + (continuity.isBent() ? ", bent" : "");
    }

    private static String mean(Zone zone) {
        return zone.largestMeanMm().value().isEmpty()
                ? Cells.NOT_STATED
                : Cells.decimals(zone.largestMeanMm(), 2) + " ± " + Cells.decimals(zone.largestMeanSeMm(), 2);
    }

    private static String call(Zone zone) {
        if (zone.isNew()) {
            return "new zone";
        }
        return zone.isOverLimit() ? "zone" : none("zone", zone.smallestVisibleMm());
    }

    private static String byThreshold(ComponentExam part) {
        Optional<ScrewLucency> lucency = part.lucency().value();
        if (lucency.isEmpty()) {
            return "";
        }
        return lucency.get()
                .byThreshold()
                .value()
                .map(z -> z.isOverLimit()
                        ? Cells.decimals(z.largestMeanMm(), 2) + " mm"
                        : none("zone", z.smallestVisibleMm()))
                .orElse(Cells.NOT_STATED);
    }

    private static String breaks(Continuity continuity) {
        if (continuity.breaks().isEmpty()) {
            return none("break", continuity.smallestVisibleBreakMm());
        }
        return String.join(
                "; ", continuity.breaks().stream().map(ComponentTables::words).toList());
    }

    private static String words(Continuity.Break seen) {
        String gap =
                seen.gapAlongAxisMm().value().isPresent() ? Cells.decimals(seen.gapAlongAxisMm(), 2) + " mm" : "break";
        return gap + " at " + Cells.decimals(seen.atMm(), 1) + " mm"
                + (seen.isDisplaced() ? ", displaced" : "")
                + (seen.status() == Continuity.Status.UNCONFIRMED ? ", unconfirmed" : "");
    }

    /** "no zone ≥ 1.2 mm": what was not seen is told with what could have been. */
    static String none(String what, Stated smallestVisibleMm) {
        return smallestVisibleMm.value().isPresent()
                ? String.format(
                        Locale.ROOT,
                        "no %s ≥ %.1f mm",
                        what,
                        roundedUp(smallestVisibleMm.value().getAsDouble()))
                : "no " + what + " seen";
    }

    /** To the tenth above: a limit must not be told better than it is. */
    private static double roundedUp(double mm) {
        return Math.ceil(10 * mm - 1e-9) / 10;
    }

    private static String trueZone(SimulationTruth truth, ExamResult exam, ComponentExam part) {
        OptionalDouble zone = truth.zoneMm(exam.label(), part.component().id());
        return zone.isPresent() ? Cells.decimals(zone.getAsDouble(), 2) : "";
    }

    private static String trueBreak(SimulationTruth truth, ExamResult exam, ComponentExam part) {
        return truth.breaks(exam.label(), part.component().id()).stream()
                .map(b -> Cells.decimals(b.gapAlongAxisMm(), 2) + " mm at " + Cells.decimals(b.atMm(), 1) + " mm")
                .findFirst()
                .orElse("none");
    }

    /** Migration against the bones; empty where none is stated. */
    static List<String> migration(ContactReport report, SimulationTruth truth) {
        List<String> header = new ArrayList<>(List.of(
                "exam",
                "day",
                "part",
                "against",
                "left\nmm",
                "posterior\nmm",
                "cranial\nmm",
                "into bone\nmm",
                "turn\n°",
                "beyond\nerror"));
        if (!truth.isEmpty()) {
            header.add("truth:\ninto bone");
        }
        TextTable table = new TextTable(header);
        boolean isAny = false;
        for (ExamResult exam : report.exams()) {
            for (ComponentExam part : exam.components()) {
                for (Migration each : part.migration()) {
                    if (each.motion().value().isEmpty()) {
                        continue;
                    }
                    isAny = true;
                    List<String> row = new ArrayList<>(List.of(
                            exam.label(),
                            Cells.day(exam),
                            part.component().label(),
                            report.construct().bone(each.bone()).label()));
                    row.addAll(cells(each.motion().value().get()));
                    if (!truth.isEmpty()) {
                        OptionalDouble known =
                                truth.intoBoneMm(exam.label(), part.component().id(), each.bone());
                        row.add(known.isPresent() ? Cells.signed(known.getAsDouble(), 2) : "");
                    }
                    table.add(row);
                }
            }
        }
        return isAny ? table.lines() : List.of();
    }

    private static List<String> cells(Migration.Motion motion) {
        PatientVector t = motion.translationMm();
        return List.of(
                Cells.signed(t.x(), 2),
                Cells.signed(t.y(), 2),
                Cells.signed(t.z(), 2),
                motion.intoBoneMm().value().isPresent()
                        ? Cells.signed(motion.intoBoneMm().value().getAsDouble(), 2)
                        : Cells.NOT_STATED,
                Cells.decimals(motion.rotationDeg().norm(), 2),
                motion.isWithinError() ? "no" : "yes");
    }
}
