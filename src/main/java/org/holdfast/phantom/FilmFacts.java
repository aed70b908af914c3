package org.holdfast.phantom;

import java.time.LocalDate;
import java.util.Objects;

/**
 * What the header of a simulated radiograph says beside the pixels.
 *
 * @param patientCode study code, written as patient name and ID
 * @param studyDescription words for the study
 * @param date day of the film
 * @param uidSeed text from which all identifiers follow: the same text gives the same film
 */
record FilmFacts(String patientCode, String studyDescription, LocalDate date, String uidSeed) {

    FilmFacts {
        Objects.requireNonNull(patientCode, "patientCode");
        Objects.requireNonNull(studyDescription, "studyDescription");
        Objects.requireNonNull(date, "date");
        Objects.requireNonNull(uidSeed, "uidSeed");
    }
}
