package org.holdfast.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.holdfast.app.DemoSubject;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code demo subject DIR}: the invented subject of the guide. */
@Command(
        name = "subject",
        description =
                "Writes the subject folder of an invented patient: five simulated CT exams after replacement of a vertebral"
                        + " body, the construct, and what is true (truth.json).")
final class DemoSubjectCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Parameters(paramLabel = "DIR", description = "Folder to write; it must be empty or not exist.")
    private Path folder;

    @Option(names = "--small", description = "Cropped and coarser: about 23 MB instead of about 340 MB.")
    private boolean small;

    @Mixin
    private JsonOption json;

    DemoSubjectCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws IOException {
        DemoSubject.Size size = small ? DemoSubject.Size.SMALL : DemoSubject.Size.FULL;
        DemoSubject.Made made = DemoSubject.write(folder, size, terminal.progress());
        if (json.isWanted()) {
            terminal.document(made.truthJson());
        } else {
            print(made);
        }
        return ExitCode.DONE;
    }

    private void print(DemoSubject.Made made) {
        terminal.line(
                "Invented subject with simulated CT, written to " + made.folder() + ". What is true at each exam:");
        terminal.line("");
        terminal.line("exam     cranial contact  caudal gap mm  widest screw zone mm  sunk into L2 mm  broken");
        for (DemoSubject.ExamLine exam : made.exams()) {
            terminal.line(String.format(
                            Locale.ROOT,
                            "%-8s %13.1f %%  %5.1f to %3.1f  %20.1f  %15.1f  %s",
                            exam.label(),
                            100 * exam.cranialContact(),
                            exam.caudalNarrowestMm(),
                            exam.caudalWidestMm(),
                            exam.widestZoneMm(),
                            exam.sunkMm(),
                            exam.broken().isEmpty() ? "none" : String.join(", ", exam.broken()))
                    .stripTrailing());
        }
    }
}
