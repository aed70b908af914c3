package org.holdfast.app;

import java.nio.file.Path;
import java.util.List;

/**
 * What files, folders and zips hold, in plain records for a page. Immutable.
 *
 * @param paths what was read
 * @param files how many files were looked at
 * @param patients whose images they are; empty if there are none
 * @param leftAside files that are not used, with the reason
 * @param notes what is about all of it
 * @param headers what copying takes out of the headers
 */
public record IntakeContent(
        List<Path> paths,
        int files,
        List<IntakePatient> patients,
        List<LeftAside> leftAside,
        List<IntakeNote> notes,
        HeaderChanges headers) {

    /**
     * Files that are not used for one reason.
     *
     * @param reason why, in words
     * @param files which, as a person knows them: a path, or {@code archive.zip!entry}
     */
    public record LeftAside(String reason, List<String> files) {

        public LeftAside {
            files = List.copyOf(files);
        }
    }

    public IntakeContent {
        paths = List.copyOf(paths);
        patients = List.copyOf(patients);
        leftAside = List.copyOf(leftAside);
        notes = List.copyOf(notes);
    }

    /** How many series were found. */
    public int series() {
        return patients.stream().mapToInt(patient -> patient.series().size()).sum();
    }

    /** How many exams were found. */
    public int exams() {
        return patients.stream().mapToInt(patient -> patient.exams().size()).sum();
    }

    /** How many files are not used. */
    public int filesLeftAside() {
        return leftAside.stream().mapToInt(left -> left.files().size()).sum();
    }
}
