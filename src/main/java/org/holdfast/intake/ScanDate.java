package org.holdfast.intake;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;

/**
 * The day of a scan and the attribute that it was taken from: acquisition, else content, else series, else study.
 *
 * @param date the day; empty if no attribute holds one
 * @param source name of the attribute; empty if there is none
 */
record ScanDate(Optional<LocalDate> date, String source) {

    private record Candidate(int tag, String name) {}

    private static final List<Candidate> IN_ORDER = List.of(
            new Candidate(Tag.ACQUISITION_DATE, "AcquisitionDate"),
            new Candidate(Tag.ACQUISITION_DATE_TIME, "AcquisitionDateTime"),
            new Candidate(Tag.CONTENT_DATE, "ContentDate"),
            new Candidate(Tag.SERIES_DATE, "SeriesDate"),
            new Candidate(Tag.STUDY_DATE, "StudyDate"));

    /** 19930430, or 1993.04.30 of the older standard. */
    private static final Pattern DATE = Pattern.compile("(\\d{4})[.\\-]?(\\d{2})[.\\-]?(\\d{2}).*");

    static ScanDate of(DataSet d) {
        for (Candidate candidate : IN_ORDER) {
            Optional<LocalDate> date = d.string(candidate.tag).flatMap(ScanDate::parse);
            if (date.isPresent()) {
                return new ScanDate(date, candidate.name);
            }
        }
        return new ScanDate(Optional.empty(), "");
    }

    static Optional<LocalDate> parse(String text) {
        Matcher m = DATE.matcher(text);
        if (!m.matches()) {
            return Optional.empty();
        }
        try {
            return Optional.of(LocalDate.of(
                    Integer.parseInt(m.group(1)), Integer.parseInt(m.group(2)), Integer.parseInt(m.group(3))));
        } catch (DateTimeException e) {
            return Optional.empty();
        }
    }
}
