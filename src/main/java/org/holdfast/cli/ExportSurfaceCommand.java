package org.holdfast.cli;

import java.nio.file.Path;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.holdfast.app.ExamArgument;
import org.holdfast.app.SurfaceExport;
import org.holdfast.app.UseCaseException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code holdfast export surface}: the metal's surface in a scan as a mesh file. */
@Command(
        name = "surface",
        description = {
            "Writes the surface of the metal in a scan as a mesh (PLY, mm, patient space), closed, cavities filled.",
            "A custom body of a construct can be laid out from it: the line that its document needs is printed."
        })
final class ExportSurfaceCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Spec
    private CommandSpec spec;

    @Parameters(index = "0", paramLabel = "DIR[#SeriesUID]", description = "Folder of the exam and the series to take.")
    private String exam;

    @Parameters(index = "1", paramLabel = "OUT.ply", description = "File to write; must not be there yet.")
    private Path out;

    @Option(
            names = "--level",
            paramLabel = "HU",
            defaultValue = "2500",
            description = "HU of the surface (default: ${DEFAULT-VALUE}; about 1100 for a porous face).")
    private double level;

    @Option(
            names = "--least",
            paramLabel = "MM3",
            defaultValue = "100",
            description = "Pieces that enclose less are left out (default: ${DEFAULT-VALUE}).")
    private double least;

    ExportSurfaceCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws UseCaseException {
        ExamArgument named;
        try {
            named = ExamArgument.parse(exam);
        } catch (UseCaseException e) {
            throw new ParameterException(spec.commandLine(), e.getMessage(), e);
        }
        SurfaceExport made = SurfaceExport.write(named, level, least, out, terminal.progress());
        terminal.line(String.format(
                Locale.ROOT, "%s: %d triangles, %.0f mm³", made.file(), made.triangles(), made.volumeMm3()));
        terminal.line(
                "\"mesh\": {\"file\": \"" + made.file().getFileName() + "\", \"sha256\": \"" + made.sha256() + "\"}");
        return ExitCode.DONE;
    }
}
