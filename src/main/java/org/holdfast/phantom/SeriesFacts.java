package org.holdfast.phantom;

import java.time.LocalDate;
import java.util.Objects;

/**
 * What the headers of a simulated CT series say beside the voxels.
 *
 * @param patientCode study code, written as patient name and ID
 * @param studyDescription words for the study
 * @param seriesDescription words for the series; "simulated " is put before them
 * @param date day of the scan
 * @param kernel name of the reconstruction kernel
 * @param kvp tube voltage that the HU stand for, kV
 * @param sliceThicknessMm nominal slice thickness, mm
 * @param noiseSdHu noise that was added, HU, told in the comment
 * @param scale HU scale of the stored values
 * @param uidSeed text from which all identifiers follow: the same text gives the same series
 */
public record SeriesFacts(
        String patientCode,
        String studyDescription,
        String seriesDescription,
        LocalDate date,
        String kernel,
        double kvp,
        double sliceThicknessMm,
        double noiseSdHu,
        HuScale scale,
        String uidSeed) {

    public SeriesFacts {
        Objects.requireNonNull(patientCode, "patientCode");
        Objects.requireNonNull(studyDescription, "studyDescription");
        Objects.requireNonNull(seriesDescription, "seriesDescription");
        Objects.requireNonNull(date, "date");
        Objects.requireNonNull(kernel, "kernel");
        Objects.requireNonNull(scale, "scale");
        Objects.requireNonNull(uidSeed, "uidSeed");
        Require.positive(kvp, "kvp");
        Require.positive(sliceThicknessMm, "sliceThicknessMm");
        Require.notNegative(noiseSdHu, "noiseSdHu");
    }

    /** Identifier of the series. */
    public String seriesUid() {
        return org.holdfast.dicom.Uid.fromName(uidSeed + "/series");
    }

    /** Identifier of the study. */
    public String studyUid() {
        return org.holdfast.dicom.Uid.fromName(uidSeed + "/study");
    }

    /** Identifier of the frame of reference. */
    public String frameOfReferenceUid() {
        return org.holdfast.dicom.Uid.fromName(uidSeed + "/frame");
    }

    /** Identifier of one image, by its number from 1. */
    String instanceUid(int instanceNumber) {
        return org.holdfast.dicom.Uid.fromName(uidSeed + "/image/" + instanceNumber);
    }
}
