package org.holdfast.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.holdfast.app.DemoSubject;
import org.holdfast.app.SubjectCourse;
import org.holdfast.app.UseCaseException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code holdfast demo course}: the main job on an invented subject. */
@Command(
        name = "course",
        description =
                "Makes the demo subject (unless the folder already holds it), measures interface contact on all its"
                        + " exams, prints the table with the truth beside it, and writes course.csv, course.png and face-on"
                        + " maps.")
final class DemoCourseCommand implements Callable<Integer> {

    private final Terminal terminal;
    private final WindowOpener window;

    @Parameters(paramLabel = "DIR", description = "Folder of the demo subject; made if it does not exist.")
    private Path folder;

    @Option(names = "--small", description = "If the subject has to be made: cropped and coarser.")
    private boolean small;

    @Option(names = "--open", description = "Then open the window on it, if there is a display.")
    private boolean open;

    DemoCourseCommand(Terminal terminal, WindowOpener window) {
        this.terminal = terminal;
        this.window = window;
    }

    @Override
    public Integer call() throws UseCaseException, IOException {
        DemoSubject.Size size = small ? DemoSubject.Size.SMALL : DemoSubject.Size.FULL;
        SubjectCourse course = SubjectCourse.demo(folder, size, terminal.progress());
        ReportWords.lines(course.report(), course.truth()).forEach(terminal::line);
        terminal.line("");
        terminal.line("Written: " + course.files().get(0) + ", "
                + course.files().get(1) + " and " + (course.files().size() - 2) + " more under " + folder);
        if (!open) {
            return ExitCode.DONE;
        }
        if (!window.hasDisplay()) {
            terminal.message(
                    "There is no display; where there is one, \"holdfast open " + folder + "\" opens the window.");
            return ExitCode.DONE;
        }
        terminal.finish();
        return window.open(Optional.of(folder));
    }
}
