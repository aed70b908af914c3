package org.holdfast.cli;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.holdfast.app.Deidentification;
import org.holdfast.app.Deidentification.Dates;
import org.holdfast.app.Deidentification.Outcome;
import org.holdfast.app.Deidentification.Request;
import org.holdfast.app.Deidentification.RiskyImages;
import org.holdfast.app.UseCaseException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code holdfast deidentify}: copies of a subject's files without identity. */
@Command(
        name = "deidentify",
        description = {
            "Copies one subject's DICOM files without identity, by the basic profile of DICOM PS3.15 annex E, with a table"
                    + " of what was done.",
            "Pixels are copied as they are: text burned into them, and faces in the voxels of head scans, stay. Look at"
                    + " the images before they leave."
        })
final class DeidentifyCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Spec
    private CommandSpec spec;

    @Parameters(index = "0", paramLabel = "IN", description = "Folder or file of one subject; it is never changed.")
    private Path in;

    @Parameters(
            index = "1",
            paramLabel = "OUT",
            description = "Folder to write; it must be empty or not exist, and not lie inside IN.")
    private Path out;

    @Option(
            names = "--subject",
            paramLabel = "CODE",
            required = true,
            description = "The study's code of the subject: 1 to 64 letters, digits, - and _.")
    private String subject;

    @Option(
            names = "--dates",
            paramLabel = "shifted|removed",
            defaultValue = "shifted",
            description = "shifted (default): all dates of the subject are moved by the same secret number of weeks,"
                    + " intervals stay true; removed: dates and times are taken out.")
    private String dates;

    @Option(
            names = "--key",
            paramLabel = "FILE",
            description = "File of the secret that new UIDs and the shift follow from; made if absent. Without it:"
                    + " Holdfast/deidentification.key in your home folder. Keep a copy in a safe place: if it is lost,"
                    + " exams that come later no longer match those before; and do not give it away with the images.")
    private Path key;

    @Option(names = "--leave-out-risky", description = "Do not write images whose pixels may show text.")
    private boolean leaveOutRisky;

    @Mixin
    private JsonOption json;

    DeidentifyCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws UseCaseException {
        if (!Deidentification.isSubjectCode(subject)) {
            throw wrongUse("--subject must be 1 to 64 letters, digits, - and _");
        }
        RiskyImages risky = leaveOutRisky ? RiskyImages.LEAVE_OUT : RiskyImages.WRITE;
        Request request = new Request(in, out, subject, dates(), risky, Optional.ofNullable(key));
        Outcome outcome = Deidentification.run(request, terminal.progress());
        if (outcome.keyIsNew()) {
            terminal.message("A new key was made: " + outcome.key()
                    + ". Keep a copy in a safe place; without it later exams will not match these.");
        }
        outcome.failures().forEach(f -> terminal.message("Not written: " + f.path() + ": " + f.reason()));
        if (json.isWanted()) {
            terminal.document(outcome.report().json());
        } else {
            DeidentificationWords.lines(outcome.report()).forEach(terminal::line);
        }
        return outcome.report().files().written() > 0 ? ExitCode.DONE : ExitCode.NOT_POSSIBLE;
    }

    private Dates dates() {
        return switch (dates.toLowerCase(Locale.ROOT)) {
            case "shifted" -> Dates.SHIFTED;
            case "removed" -> Dates.REMOVED;
            default -> throw wrongUse("--dates must be shifted or removed, got " + dates);
        };
    }

    private ParameterException wrongUse(String message) {
        return new ParameterException(spec.commandLine(), message);
    }
}
