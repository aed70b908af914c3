package org.holdfast.cli;

import java.io.IOException;
import java.nio.file.NoSuchFileException;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

/** A command that ends in every way a command can end. */
@Command(name = "trial", description = "Ends as it is told.")
final class TrialCommand implements Callable<Integer> {

    enum Ending {
        DONE,
        CHECK_FAILED,
        DATA_REFUSED,
        FILE_MISSING,
        FAULT,
        OUT_OF_MEMORY
    }

    private final Terminal terminal;

    @Mixin
    private JsonOption json;

    @Parameters(description = "How to end.")
    private Ending ending;

    TrialCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws Exception {
        terminal.message("working");
        switch (ending) {
            case CHECK_FAILED -> {
                terminal.line("goal missed");
                return ExitCode.NOT_POSSIBLE;
            }
            case DATA_REFUSED -> throw new IOException("scan.dcm: (0028,0010) is missing, expected the number of rows");
            case FILE_MISSING -> throw new NoSuchFileException("nowhere/scan.dcm");
            case FAULT -> throw new IllegalStateException("index 7 of 5");
            case OUT_OF_MEMORY -> throw new OutOfMemoryError("Java heap space");
            case DONE -> say();
        }
        return ExitCode.DONE;
    }

    private void say() {
        if (json.isWanted()) {
            terminal.document("{\"done\": true}\n");
        } else {
            terminal.line("contact 76 %, gap ≥ 1.2 mm");
        }
    }
}
