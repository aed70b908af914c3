package org.holdfast.phantom;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;

/** What every simulated object says of its patient and study. */
final class SimulatedStudy {

    private SimulatedStudy() {}

    /**
     * Adds patient and study; all dates are the one day, all times the one time.
     *
     * @param patientCode study code, written as patient name and ID
     * @param description words for the study
     * @param time time of day, as DICOM writes it
     */
    static void add(
            DataSet.Builder b, String patientCode, String description, String studyUid, LocalDate day, String time) {
        String date = day.format(DateTimeFormatter.BASIC_ISO_DATE);
        b.string(Tag.STUDY_DATE, date)
                .string(Tag.SERIES_DATE, date)
                .string(Tag.ACQUISITION_DATE, date)
                .string(Tag.CONTENT_DATE, date)
                .string(Tag.STUDY_TIME, time)
                .string(Tag.SERIES_TIME, time)
                .string(Tag.ACQUISITION_TIME, time)
                .string(Tag.CONTENT_TIME, time)
                .string(Tag.ACCESSION_NUMBER, "")
                .string(Tag.REFERRING_PHYSICIAN_NAME, "")
                .string(Tag.STUDY_DESCRIPTION, description)
                .string(Tag.PATIENT_NAME, patientCode)
                .string(Tag.PATIENT_ID, patientCode)
                .string(Tag.PATIENT_BIRTH_DATE, "")
                .string(Tag.PATIENT_SEX, "")
                .string(Tag.STUDY_INSTANCE_UID, studyUid)
                .string(Tag.STUDY_ID, "1");
    }
}
