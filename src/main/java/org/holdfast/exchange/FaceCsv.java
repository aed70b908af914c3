package org.holdfast.exchange;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.holdfast.construct.PatchSample;
import org.holdfast.measure.ChangeReading;
import org.holdfast.measure.FittedReading;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.Obstacle;
import org.holdfast.measure.SampleReading;

/**
 * Writes the face-on map of an interface in an exam as a table: RFC 4180, UTF-8, a header, a line a sample, with its
 * place in patient space of the reference exam and on the map, and what each estimator says there. A cell is empty where
 * nothing is stated; a class of {@code NOT_ASSESSABLE} has its cause beside it. Immutable.
 */
public final class FaceCsv {

    private static final List<String> HEADER = List.of(
            "exam",
            "interface",
            "xMm",
            "yMm",
            "zMm",
            "uMm",
            "vMm",
            "areaMm2",
            "classByFit",
            "causeByFit",
            "gapByFitMm",
            "gapSeMm",
            "bridgedByFit",
            "classByThreshold",
            "causeByThreshold",
            "gapByThresholdMm",
            "bridgedByThreshold",
            "change",
            "changeHu",
            "changeErrorHu",
            "software",
            "caution");

    private final String software;
    private final String caution;

    /**
     * @param software name and version of the software that measured
     * @param caution the standing text
     */
    public FaceCsv(String software, String caution) {
        this.software = Objects.requireNonNull(software, "software");
        this.caution = Objects.requireNonNull(caution, "caution");
    }

    /** Writes the map to a file, over what is there. */
    public void write(InterfaceExam part, Path file) throws IOException {
        Files.writeString(file, csv(part), StandardCharsets.UTF_8);
    }

    /** The map as text; only the header where nothing was measured. */
    public String csv(InterfaceExam part) {
        StringBuilder table = new StringBuilder();
        try (CSVPrinter printer = new CSVPrinter(table, CSVFormat.RFC4180)) {
            printer.printRecord(HEADER);
            List<PatchSample> samples = samples(part);
            for (int n = 0; n < samples.size(); n++) {
                printer.printRecord(row(part, samples.get(n), n));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e); // a StringBuilder does not fail
        }
        return table.toString();
    }

    private static List<PatchSample> samples(InterfaceExam part) {
        if (part.contact().isPresent()) {
            return part.contact().get().readings().stream()
                    .map(SampleReading::sample)
                    .toList();
        }
        return part.byFit().value().stream()
                .flatMap(fit -> fit.readings().stream())
                .map(FittedReading::sample)
                .toList();
    }

    private List<String> row(InterfaceExam part, PatchSample sample, int n) {
        List<String> cells = new ArrayList<>(List.of(
                part.examLabel(),
                part.face().id(),
                String.valueOf(sample.point().x()),
                String.valueOf(sample.point().y()),
                String.valueOf(sample.point().z()),
                String.valueOf(sample.uMm()),
                String.valueOf(sample.vMm()),
                String.valueOf(sample.areaMm2())));
        Optional<FittedReading> fit = part.byFit().value().map(f -> f.readings().get(n));
        cells.add(fit.map(f -> f.tissue().name()).orElse(""));
        cells.add(fit.flatMap(FittedReading::obstacle).map(Obstacle::words).orElse(""));
        cells.add(number(fit.map(FittedReading::gapMm)));
        cells.add(number(fit.map(FittedReading::gapSeMm)));
        cells.add(fit.map(f -> String.valueOf(f.isBridged())).orElse(""));
        Optional<SampleReading> seen = part.contact().map(c -> c.readings().get(n));
        cells.add(seen.map(s -> s.tissue().name()).orElse(""));
        cells.add(seen.flatMap(SampleReading::obstacle).map(Obstacle::words).orElse(""));
        cells.add(number(seen.map(SampleReading::gapMm)));
        cells.add(seen.map(s -> String.valueOf(s.isBridged())).orElse(""));
        Optional<ChangeReading> change =
                part.change().value().map(c -> c.readings().get(n));
        cells.add(change.map(c -> c.kind().name()).orElse(""));
        cells.add(number(change.map(ChangeReading::differenceHu)));
        cells.add(number(change.map(ChangeReading::errorHu)));
        cells.addAll(List.of(software, caution));
        return cells;
    }

    private static String number(Optional<OptionalDouble> value) {
        OptionalDouble known = value.orElse(OptionalDouble.empty());
        return known.isPresent() ? String.valueOf(known.getAsDouble()) : "";
    }
}
