package org.holdfast.cli;

import picocli.CommandLine.Option;

/** The option {@code --json}, for commands that can print their result as one document. */
final class JsonOption {

    @Option(names = "--json", description = "Print the result as one JSON document and nothing else.")
    private boolean wanted;

    boolean isWanted() {
        return wanted;
    }
}
