package org.holdfast.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** {@code demo}: makes invented data with known truth. */
@Command(name = "demo", description = "Makes invented data with known truth.")
final class DemoCommand implements Callable<Integer> {

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() {
        throw new ParameterException(spec.commandLine(), "say what to make, such as \"demo subject DIR\"");
    }
}
