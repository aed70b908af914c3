package org.holdfast.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** {@code export}: results in forms that other systems take. */
@Command(name = "export", description = "Writes results in forms that other systems take.")
final class ExportCommand implements Callable<Integer> {

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() {
        throw new ParameterException(
                spec.commandLine(),
                "say what to export, such as \"export captures DIR OUT\" or \"export surface DIR OUT.ply\"");
    }
}
