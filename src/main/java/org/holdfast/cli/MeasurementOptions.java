package org.holdfast.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.app.ContactInputs;
import org.holdfast.app.ContactReport;
import org.holdfast.app.ExamArgument;
import org.holdfast.app.MapFiles;
import org.holdfast.app.Measurement;
import org.holdfast.app.PoseFile;
import org.holdfast.app.ReportDocument;
import org.holdfast.app.SimulationTruth;
import org.holdfast.app.UseCaseException;
import org.holdfast.measure.SettingsPreset;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** What {@code contact} and {@code measure} are told, and what they do with it. */
final class MeasurementOptions {

    @Spec(Spec.Target.MIXEE)
    private CommandSpec spec;

    @Mixin
    private JsonOption json;

    @Option(names = "--construct", required = true, paramLabel = "FILE", description = "Construct document (JSON).")
    private Path construct;

    @Option(
            names = "--reference",
            paramLabel = "DIR[#SeriesUID][=LABEL]",
            description = "The reference exam; without it, the exam whose series the construct was laid out on.")
    private String reference;

    @Option(
            names = "--exam",
            paramLabel = "DIR[#SeriesUID][=LABEL]",
            description = "Folder of an exam, the series to take and its column label; once for each exam.")
    private List<String> exams = List.of();

    @Option(
            names = "--settings",
            paramLabel = "FILE",
            description = "Thresholds that differ from the defaults (JSON); the settings used are in the result.")
    private Path settings;

    @Option(
            names = "--preset",
            paramLabel = "NAME",
            description = "Thresholds by what they are for: titanium-porous, titanium-solid, cobalt-chromium-or-steel,"
                    + " clipped-data. A settings document names its preset itself.")
    private String preset;

    @Option(
            names = "--poses",
            paramLabel = "FILE",
            description = "Poses of exams that were set by hand (JSON); the others are registered.")
    private Path poses;

    @Option(
            names = "--map",
            paramLabel = "DIR",
            description = "Write the face-on maps there, as PNG and as CSV with every sample.")
    private Path maps;

    int run(Terminal terminal, Measurement.Scope scope) throws UseCaseException {
        if (exams.isEmpty() && reference == null) {
            throw wrongUse("name at least one exam with --exam");
        }
        List<ExamArgument> named = new ArrayList<>();
        for (String exam : exams) {
            named.add(parse(exam));
        }
        Optional<ExamArgument> fixing = reference == null ? Optional.empty() : Optional.of(parse(reference));
        ContactInputs inputs = inputs();
        PoseFile given = poses == null ? PoseFile.NONE : PoseFile.read(poses);
        ContactReport report = new Measurement(inputs.construct(), inputs.settings(), given, scope, terminal.progress())
                .measure(fixing, named);
        if (maps != null) {
            int count = new MapFiles(report).write(maps).size();
            terminal.message(count + " files of maps written to " + maps);
        }
        if (json.isWanted()) {
            terminal.document(new ReportDocument().write(report));
        } else {
            ReportWords.lines(report, SimulationTruth.NONE).forEach(terminal::line);
        }
        return ExitCode.DONE;
    }

    private ContactInputs inputs() throws UseCaseException {
        if (preset == null) {
            return ContactInputs.read(construct, settings);
        }
        if (settings != null) {
            throw wrongUse("give --preset or --settings, not both; a settings document may name its preset");
        }
        try {
            return ContactInputs.read(construct, SettingsPreset.ofWord(preset));
        } catch (IllegalArgumentException e) {
            throw new ParameterException(spec.commandLine(), e.getMessage(), e);
        }
    }

    private ExamArgument parse(String exam) {
        try {
            return ExamArgument.parse(exam);
        } catch (UseCaseException e) {
            throw new ParameterException(spec.commandLine(), e.getMessage(), e);
        }
    }

    private ParameterException wrongUse(String message) {
        return new ParameterException(spec.commandLine(), message);
    }
}
