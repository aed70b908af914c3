package org.holdfast.intake;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomFile;
import org.holdfast.dicom.Tag;
import org.holdfast.finding.Finding;

/**
 * What the directory of a medium (PS3.3, annex F) names. It is a hint only: nothing is opened because it names it; what it
 * names is compared with what is there. Immutable.
 *
 * @param name the directory's file as a person knows it
 * @param files files that it names, relative to its folder, upper case, with slashes
 * @param findings what was odd about the directory itself
 */
record MediumDirectory(String name, Set<String> files, List<Finding> findings) {

    private static final int REFERENCED_FILE_ID = 0x00041500;
    private static final String DIRECTORY_CLASS = "1.2.840.10008.1.3.10";

    MediumDirectory {
        files = Set.copyOf(files);
        findings = List.copyOf(findings);
    }

    static boolean isDirectory(DicomFile file) {
        return file.dataSet().contains(Tag.DIRECTORY_RECORD_SEQUENCE)
                || file.meta()
                        .string(Tag.MEDIA_STORAGE_SOP_CLASS_UID)
                        .orElse("")
                        .equals(DIRECTORY_CLASS);
    }

    static MediumDirectory of(DicomFile file, String name) {
        Set<String> files = new HashSet<>();
        for (DataSet record : file.dataSet().items(Tag.DIRECTORY_RECORD_SEQUENCE)) {
            List<String> id = record.strings(REFERENCED_FILE_ID);
            if (!id.isEmpty()) {
                files.add(normal(String.join("/", id)));
            }
        }
        List<Finding> findings = file.findings().stream()
                .map(f -> new Finding(f.code(), f.severity(), f.text(), name))
                .toList();
        return new MediumDirectory(name, files, findings);
    }

    /**
     * What it names and is not there, and what is there and it does not name.
     *
     * @param everything names of all files that were found
     * @param images names of those that were read as DICOM, without directories
     */
    List<Finding> compared(List<String> everything, List<String> images) {
        List<Finding> out = new ArrayList<>(findings);
        out.add(Finding.info(
                "DIRECTORY_IGNORED", "a DICOM directory is a hint only; the files themselves were read", name));
        if (files.isEmpty()) {
            return out;
        }
        Set<String> there = new HashSet<>();
        everything.stream().filter(this::isBeside).map(this::relative).forEach(there::add);
        List<String> missing =
                files.stream().filter(file -> !there.contains(file)).sorted().toList();
        if (!missing.isEmpty()) {
            out.add(Finding.warning(
                    "DIRECTORY_FILES_MISSING",
                    missing.size() + " of the " + files.size()
                            + " files that the medium's directory names are not there," + " the first is "
                            + missing.get(0),
                    name));
        }
        List<String> unnamed = images.stream()
                .filter(this::isBeside)
                .map(this::relative)
                .filter(image -> !files.contains(image))
                .sorted()
                .toList();
        if (!unnamed.isEmpty()) {
            out.add(Finding.info(
                    "DIRECTORY_FILES_NOT_NAMED",
                    unnamed.size()
                            + " files are there that the medium's directory does not name; they were taken, the first"
                            + " is " + unnamed.get(0),
                    name));
        }
        return out;
    }

    private boolean isBeside(String file) {
        return file.length() > base() && file.startsWith(name.substring(0, base()));
    }

    private String relative(String file) {
        return normal(file.substring(base()));
    }

    /** Length of the folder's part of its own name, separator included. */
    private int base() {
        return 1 + Math.max(name.lastIndexOf('!'), Math.max(name.lastIndexOf('/'), name.lastIndexOf('\\')));
    }

    /** Media have upper-case names and may end them with a version; copies on a disk need not. */
    private static String normal(String file) {
        return file.replace('\\', '/').toUpperCase(Locale.ROOT).replaceAll("\\.?;1$", "");
    }
}
