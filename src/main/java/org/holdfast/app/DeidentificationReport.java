package org.holdfast.app;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.holdfast.finding.Finding;

/**
 * What {@link Deidentification} did, in the shape of its JSON document. It holds nothing of the files but tags, numbers and
 * the names that the new files were given: no old value, UID, date or path.
 *
 * @param caution the standing text
 * @param software name and version
 * @param formatVersion version of this shape
 * @param profile the profile and the source of its table
 * @param methodCodes codes of PS3.16, context group 7050, that every file carries
 * @param subject the subject's code
 * @param dates shifted or removed
 * @param files what became of the files
 * @param attributes what was done, by attribute
 * @param filesToLookAt new names of the images that may show or carry text, or show a recognizable person
 * @param limits what this cannot see or do
 * @param findings what a person should look at
 */
public record DeidentificationReport(
        String caution,
        String software,
        int formatVersion,
        String profile,
        List<String> methodCodes,
        String subject,
        String dates,
        Files files,
        List<AttributeEntry> attributes,
        List<String> filesToLookAt,
        List<String> limits,
        List<Finding> findings) {

    /** Version of the shape that this record describes. */
    public static final int FORMAT_VERSION = 1;

    private static final ObjectMapper MAPPER = new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

    /**
     * What became of the files.
     *
     * @param found all that were looked at
     * @param written de-identified and written
     * @param leftOut readable but not written: text may be burned in, or a document lies inside
     * @param directories media directories, which are not needed
     * @param notWritten not DICOM, or damaged
     */
    public record Files(int found, int written, int leftOut, int directories, int notWritten) {}

    /**
     * One attribute.
     *
     * @param tag as the standard writes it, or a pattern
     * @param keyword empty where the profile's table does not name it
     * @param action what was done
     * @param files in how many files
     * @param places at how many places of them
     */
    public record AttributeEntry(String tag, String keyword, String action, int files, int places) {}

    public DeidentificationReport {
        methodCodes = List.copyOf(methodCodes);
        attributes = List.copyOf(attributes);
        filesToLookAt = List.copyOf(filesToLookAt);
        limits = List.copyOf(limits);
        findings = List.copyOf(findings);
    }

    /** The document. */
    @JsonIgnore
    public String json() {
        try {
            return MAPPER.writeValueAsString(this);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a record of plain values can always be written", e);
        }
    }

    /**
     * The table of attributes (RFC 4180), software and caution in every row as in other tables; the limits are rows whose
     * keyword is "limit".
     */
    @JsonIgnore
    public String csv() {
        StringBuilder table = new StringBuilder();
        try (CSVPrinter printer = new CSVPrinter(table, CSVFormat.RFC4180)) {
            printer.printRecord("tag", "keyword", "action", "files", "places", "software", "caution");
            for (AttributeEntry a : attributes) {
                printer.printRecord(a.tag, a.keyword, a.action, a.files, a.places, software, caution);
            }
            for (String limit : limits) {
                printer.printRecord("", "limit", limit, "", "", software, caution);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e); // a StringBuilder does not fail
        }
        return table.toString();
    }
}
