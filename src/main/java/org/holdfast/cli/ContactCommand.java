package org.holdfast.cli;

import java.util.concurrent.Callable;
import org.holdfast.app.Measurement;
import org.holdfast.app.UseCaseException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

/** {@code holdfast contact}: interface contact of a construct on serial exams. */
@Command(
        name = "contact",
        description = {
            "Measures contact at each interface of a construct, exam by exam, by threshold and by fit.",
            "The reference exam fixes the bone threshold and the edges; the others are registered to it and keep them."
        })
final class ContactCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Mixin
    private MeasurementOptions options;

    ContactCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws UseCaseException {
        return options.run(terminal, Measurement.Scope.CONTACT);
    }
}
