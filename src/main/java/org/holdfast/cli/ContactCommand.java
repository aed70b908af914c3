package org.holdfast.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.holdfast.app.ContactInputs;
import org.holdfast.app.ContactReport;
import org.holdfast.app.ExamArgument;
import org.holdfast.app.Measurement;
import org.holdfast.app.PoseFile;
import org.holdfast.app.ReportDocument;
import org.holdfast.app.SimulationTruth;
import org.holdfast.app.UseCaseException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** {@code holdfast contact}: interface contact of a construct on serial exams. */
@Command(
        name = "contact",
        description = {
            "Measures interface contact by threshold of each interface of a construct, exam by exam.",
            "The exam whose series is the construct's reference fixes the bone threshold and the edges; the others keep"
                    + " them."
        })
final class ContactCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Spec
    private CommandSpec spec;

    @Mixin
    private JsonOption json;

    @Option(names = "--construct", required = true, paramLabel = "FILE", description = "Construct document (JSON).")
    private Path construct;

    @Option(
            names = "--exam",
            required = true,
            paramLabel = "DIR[#SeriesUID][=LABEL]",
            description = "Folder of an exam, the series to take and its column label; once for each exam.")
    private List<String> exams;

    @Option(
            names = "--settings",
            paramLabel = "FILE",
            description = "Thresholds that differ from the defaults (JSON); the settings used are in the result.")
    private Path settings;

    @Option(
            names = "--poses",
            paramLabel = "FILE",
            description =
                    "Poses of exams in another position than the reference exam (JSON), until they are registered.")
    private Path poses;

    ContactCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws UseCaseException {
        ContactInputs inputs = ContactInputs.read(construct, settings);
        PoseFile given = poses == null ? PoseFile.NONE : PoseFile.read(poses);
        List<ExamArgument> named = new ArrayList<>();
        for (String exam : exams) {
            try {
                named.add(ExamArgument.parse(exam));
            } catch (UseCaseException e) {
                throw new ParameterException(spec.commandLine(), e.getMessage(), e);
            }
        }
        ContactReport report = new Measurement(
                        inputs.construct(), inputs.settings(), given, Measurement.Scope.CONTACT, terminal.progress())
                .measure(named);
        if (json.isWanted()) {
            terminal.document(new ReportDocument().write(report));
        } else {
            ContactWords.lines(report, SimulationTruth.NONE).forEach(terminal::line);
        }
        return ExitCode.DONE;
    }
}
