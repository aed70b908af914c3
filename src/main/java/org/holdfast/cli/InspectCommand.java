package org.holdfast.cli;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.holdfast.app.Inspection;
import org.holdfast.app.Inspection.Detail;
import org.holdfast.app.InspectionReport;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code holdfast inspect}: what files and folders hold. */
@Command(
        name = "inspect",
        description =
                "Lists the exams, series and stacks in DICOM files, folders and zip archives: what would be measured and"
                        + " why, geometry, HU and what was odd.")
final class InspectCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Spec
    private CommandSpec spec;

    @Mixin
    private JsonOption json;

    @Option(names = "--files", description = "Describe every file too: stored values and what its pixel size means.")
    private boolean files;

    @Parameters(
            paramLabel = "PATH",
            arity = "1..*",
            description = "Files, folders or zip archives; folders with all that is in them.")
    private List<Path> paths;

    InspectCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws JsonProcessingException {
        if (paths.stream().anyMatch(path -> path.toString().isBlank())) {
            throw new ParameterException(spec.commandLine(), "a PATH is empty");
        }
        InspectionReport report = Inspection.inspect(paths, files ? Detail.FILES : Detail.SERIES, terminal.progress());
        if (json.isWanted()) {
            terminal.document(new ObjectMapper()
                    .enable(SerializationFeature.INDENT_OUTPUT)
                    .writeValueAsString(report));
        } else {
            InspectionWords.lines(report).forEach(terminal::line);
        }
        if (report.series().isEmpty()) {
            terminal.message(
                    report.unreadable().isEmpty()
                            ? "There are no DICOM images or objects here."
                            : "None of the files could be read as a DICOM image or object.");
            return ExitCode.NOT_POSSIBLE;
        }
        return ExitCode.DONE;
    }
}
