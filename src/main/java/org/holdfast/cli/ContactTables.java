package org.holdfast.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.app.ContactReport;
import org.holdfast.app.ExamResult;
import org.holdfast.app.SimulationTruth;
import org.holdfast.measure.ChangeMap;
import org.holdfast.measure.FittedContact;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.Stated;
import org.holdfast.measure.ThresholdContact;

/** What was measured at the interfaces, as tables: by fit first, then by threshold, then what changed. */
final class ContactTables {

    private ContactTables() {}

    static List<String> byFit(ContactReport report, SimulationTruth truth) {
        List<String> header = new ArrayList<>(List.of(
                "exam",
                "day",
                "interface",
                "contact\n%",
                "bounds\n%",
                "unseen\ngap, mm",
                "gap mean/median\nmm",
                "± SE\nmm",
                "bridged\n%",
                "hidden\n%"));
        addTruth(header, truth, "under\n0.5 mm %");
        TextTable table = new TextTable(header);
        for (ExamResult exam : report.exams()) {
            for (InterfaceExam part : exam.parts()) {
                List<String> row = start(exam, part);
                row.addAll(part.byFit().value().map(ContactTables::fit).orElse(dashes(7)));
                addTruth(
                        row,
                        exam,
                        part,
                        truth,
                        OptionalDouble.of(report.settings().fit().contactGapMm()));
                table.add(row);
            }
        }
        return table.lines();
    }

    private static List<String> fit(FittedContact c) {
        return List.of(
                Cells.percent(c.fraction()),
                Cells.bounds(c.low(), c.high()),
                Cells.decimals(c.smallestVisibleGapMm(), 2),
                Cells.decimals(c.gapMm().mean(), 2) + "/"
                        + Cells.decimals(c.gapMm().median(), 2),
                Cells.decimals(c.gapSeMm(), 2),
                Cells.percent(c.bridged()),
                Cells.percent(c.notAssessable()));
    }

    static List<String> byThreshold(ContactReport report, SimulationTruth truth) {
        List<String> header = new ArrayList<>(List.of(
                "exam",
                "day",
                "interface",
                "contact\n%",
                "bounds\n%",
                "unseen\ngap, mm",
                "at -50/+50\nHU, %",
                "bridged\n%",
                "hidden\n%",
                "bone/host\nHU"));
        addTruth(header, truth, "under\nunseen gap %");
        TextTable table = new TextTable(header);
        for (ExamResult exam : report.exams()) {
            for (InterfaceExam part : exam.parts()) {
                List<String> row = start(exam, part);
                row.addAll(part.contact().map(ContactTables::threshold).orElse(dashes(7)));
                addTruth(
                        row,
                        exam,
                        part,
                        truth,
                        part.contact()
                                .map(c -> c.smallestVisibleGapMm().value())
                                .orElse(OptionalDouble.empty()));
                table.add(row);
            }
        }
        return table.lines();
    }

    private static List<String> threshold(ThresholdContact c) {
        Stated limit = c.smallestVisibleGapMm();
        return List.of(
                Cells.percent(c.fraction()),
                Cells.bounds(c.statedLow(), c.statedHigh()),
                Cells.decimals(limit, 2) + (limit.value().isPresent() && !c.isLimitSettled() ? " ?" : ""),
                Cells.percent(c.sensitivity().get(-50)) + "/"
                        + Cells.percent(c.sensitivity().get(50)),
                Cells.percent(c.bridged()),
                Cells.percent(c.notAssessable()),
                Cells.decimals(c.boneHu(), 0) + "/" + Cells.decimals(c.hostHu(), 0));
    }

    /** Empty where no exam could be compared with the reference exam. */
    static List<String> change(ContactReport report) {
        TextTable table = new TextTable(List.of(
                "exam",
                "day",
                "interface",
                "more\nmineral %",
                "less\nmineral %",
                "no change\n%",
                "not com-\nparable %",
                "error\nHU",
                "pores filled\n%",
                "± SE\n%"));
        boolean isAny = false;
        for (ExamResult exam : report.exams()) {
            for (InterfaceExam part : exam.parts()) {
                Optional<ChangeMap> change = part.change().value();
                Stated fill = part.fill().value();
                if (change.isEmpty() && fill.value().isEmpty()) {
                    continue;
                }
                isAny = true;
                List<String> row = start(exam, part);
                row.addAll(change.map(ContactTables::shares).orElse(dashes(5)));
                row.add(Cells.percent(fill));
                row.add(Cells.percent(part.fill().se()));
                table.add(row);
            }
        }
        return isAny ? table.lines() : List.of();
    }

    private static List<String> shares(ChangeMap map) {
        return List.of(
                Cells.percent(map.more()),
                Cells.percent(map.less()),
                Cells.percent(map.none()),
                Cells.percent(map.notComparable()),
                Cells.decimals(map.errorHu(), 0));
    }

    private static List<String> start(ExamResult exam, InterfaceExam part) {
        return new ArrayList<>(
                List.of(exam.label(), Cells.day(exam), part.face().label()));
    }

    private static List<String> dashes(int count) {
        return java.util.Collections.nCopies(count, Cells.NOT_STATED);
    }

    private static void addTruth(List<String> header, SimulationTruth truth, String under) {
        if (!truth.isEmpty()) {
            header.add("truth:\ntouching %");
            header.add(under);
        }
    }

    private static void addTruth(
            List<String> row, ExamResult exam, InterfaceExam part, SimulationTruth truth, OptionalDouble underMm) {
        if (!truth.isEmpty()) {
            String face = part.face().id();
            row.add(Cells.percent(truth.touchingFraction(exam.label(), face)));
            row.add(
                    underMm.isPresent()
                            ? Cells.percent(truth.fractionUnder(exam.label(), face, underMm.getAsDouble()))
                            : Cells.NOT_STATED);
        }
    }
}
