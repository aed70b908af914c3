package org.holdfast.intake;

import java.util.List;
import org.holdfast.finding.Finding;

/**
 * The files that an input holds, before any was opened. Immutable.
 *
 * @param files the files, by name
 * @param unreadable files and folders that could not be reached, and why
 * @param findings what a person should know about the input
 */
record InputFiles(List<SourceFile> files, List<IntakeReport.Unreadable> unreadable, List<Finding> findings) {

    InputFiles {
        files = List.copyOf(files);
        unreadable = List.copyOf(unreadable);
        findings = List.copyOf(findings);
    }
}
