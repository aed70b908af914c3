package org.holdfast.cli;

import java.util.concurrent.Callable;
import org.holdfast.app.Measurement;
import org.holdfast.app.UseCaseException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

/** {@code holdfast measure}: all that can be measured of a construct on serial exams. */
@Command(
        name = "measure",
        description = {
            "Measures a construct, exam by exam: contact at its interfaces, zones round its screws, breaks of screws and"
                    + " rods, migration against the bones.",
            "The exams are registered to the reference exam."
        })
final class MeasureCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Mixin
    private MeasurementOptions options;

    MeasureCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws UseCaseException {
        return options.run(terminal, Measurement.Scope.ALL);
    }
}
