package org.holdfast.cli;

import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.concurrent.Callable;
import org.holdfast.app.CaptureExport;
import org.holdfast.app.UseCaseException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

/** {@code holdfast export captures}: figures as DICOM secondary captures. */
@Command(
        name = "captures",
        description =
                "Measures a subject and writes the face-on maps and the course as DICOM secondary captures, each with"
                        + " patient and study of its exam, for the archive that keeps the scans.")
final class ExportCapturesCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Parameters(index = "0", paramLabel = "DIR", description = "Folder with subject.json.")
    private Path folder;

    @Parameters(index = "1", paramLabel = "OUT", description = "Folder to write to; made if it is missing.")
    private Path out;

    ExportCapturesCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws UseCaseException {
        List<Path> files = CaptureExport.write(folder, out, Clock.systemDefaultZone(), terminal.progress());
        files.forEach(file -> terminal.line(file.toString()));
        if (files.isEmpty()) {
            terminal.message("No interface could be assessed: there is no figure to write.");
            return ExitCode.NOT_POSSIBLE;
        }
        return ExitCode.DONE;
    }
}
