package org.holdfast.intake;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;

/**
 * The day of a scan and the attribute that it was taken from: acquisition, else content, else series, else study.
 *
 * @param date the day at the place of the scan; empty if no attribute holds one
 * @param source name of the attribute; empty if there is none
 * @param others attributes that name a day more than one day away, with that day
 */
public record ScanDate(Optional<LocalDate> date, String source, List<String> others) {

    /** No day in any attribute. */
    static final ScanDate NONE = new ScanDate(Optional.empty(), "", List.of());

    private record Candidate(int tag, String name) {}

    private static final List<Candidate> IN_ORDER = List.of(
            new Candidate(Tag.ACQUISITION_DATE, "AcquisitionDate"),
            new Candidate(Tag.ACQUISITION_DATE_TIME, "AcquisitionDateTime"),
            new Candidate(Tag.FRAME_ACQUISITION_DATE_TIME, "FrameAcquisitionDateTime"),
            new Candidate(Tag.CONTENT_DATE, "ContentDate"),
            new Candidate(Tag.SERIES_DATE, "SeriesDate"),
            new Candidate(Tag.STUDY_DATE, "StudyDate"));

    /** 19930430, or 1993.04.30 of the older standard; then a time and the offset of its zone, as in DT. */
    private static final Pattern DATE =
            Pattern.compile("(\\d{4})[.\\-]?(\\d{2})[.\\-]?(\\d{2})(?:(\\d{2})(\\d{2})?[\\d.]*([+-]\\d{4})?)?.*");

    private static final Pattern OFFSET = Pattern.compile("([+-])(\\d{2})(\\d{2})");

    public ScanDate {
        others = List.copyOf(others);
    }

    /** Place of its source in the order of trust, 0 first; after the last where no day is known. */
    int sourceRank() {
        int rank = 0;
        for (Candidate candidate : IN_ORDER) {
            if (candidate.name.equals(source)) {
                return rank;
            }
            rank++;
        }
        return rank;
    }

    static ScanDate of(DataSet d) {
        Optional<ZoneOffset> zone = d.string(Tag.TIMEZONE_OFFSET_FROM_UTC).flatMap(ScanDate::offset);
        Optional<LocalDate> chosen = Optional.empty();
        String source = "";
        List<String> others = new ArrayList<>();
        for (Candidate candidate : IN_ORDER) {
            Optional<LocalDate> date = d.string(candidate.tag).flatMap(text -> parse(text, zone));
            if (date.isPresent() && chosen.isEmpty()) {
                chosen = date;
                source = candidate.name;
            } else if (date.isPresent()
                    && Math.abs(date.get().toEpochDay() - chosen.orElseThrow().toEpochDay()) > 1) {
                others.add(candidate.name + " " + date.get());
            }
        }
        return new ScanDate(chosen, source, others);
    }

    static Optional<LocalDate> parse(String text) {
        return parse(text, Optional.empty());
    }

    /**
     * The day that a DA or DT value names. One whose time has an offset of its own is brought to the zone of the header's
     * other times, so that a scan late in the evening does not move to another day.
     *
     * @param zone TimezoneOffsetFromUTC of the header
     */
    static Optional<LocalDate> parse(String text, Optional<ZoneOffset> zone) {
        Matcher m = DATE.matcher(text);
        if (!m.matches()) {
            return Optional.empty();
        }
        try {
            LocalDate day = LocalDate.of(
                    Integer.parseInt(m.group(1)), Integer.parseInt(m.group(2)), Integer.parseInt(m.group(3)));
            Optional<ZoneOffset> own = Optional.ofNullable(m.group(6)).flatMap(ScanDate::offset);
            if (own.isEmpty() || zone.isEmpty()) {
                return Optional.of(day);
            }
            int minute = m.group(5) == null ? 0 : Integer.parseInt(m.group(5));
            return Optional.of(LocalDateTime.of(day, LocalTime.of(Integer.parseInt(m.group(4)), minute))
                    .atOffset(own.get())
                    .withOffsetSameInstant(zone.get())
                    .toLocalDate());
        } catch (DateTimeException e) {
            return Optional.empty();
        }
    }

    private static Optional<ZoneOffset> offset(String text) {
        Matcher m = OFFSET.matcher(text);
        if (!m.matches()) {
            return Optional.empty();
        }
        int sign = m.group(1).equals("-") ? -1 : 1;
        try {
            return Optional.of(ZoneOffset.ofHoursMinutes(
                    sign * Integer.parseInt(m.group(2)), sign * Integer.parseInt(m.group(3))));
        } catch (DateTimeException e) {
            return Optional.empty();
        }
    }
}
