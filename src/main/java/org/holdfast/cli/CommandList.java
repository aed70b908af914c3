package org.holdfast.cli;

import java.util.List;
import picocli.CommandLine;

/** Every command that the program offers, in the order in which the help lists them. */
final class CommandList {

    private CommandList() {}

    /** The commands, each made anew and bound to the terminal it speaks to. To add a command, add a line. */
    static List<Object> all(Terminal terminal, WindowOpener window) {
        return List.of(
                new OpenCommand(window),
                new InspectCommand(terminal),
                new ContactCommand(terminal),
                new MeasureCommand(terminal),
                new DeidentifyCommand(terminal),
                new CommandLine(new DemoCommand())
                        .addSubcommand(new DemoSubjectCommand(terminal))
                        .addSubcommand(new DemoCourseCommand(terminal, window)),
                new CommandLine(new ExportCommand())
                        .addSubcommand(new ExportCapturesCommand(terminal))
                        .addSubcommand(new ExportSurfaceCommand(terminal)),
                ValidateCommand.of(terminal));
    }
}
