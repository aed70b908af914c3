package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.Acquisition.Known;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** How a scan was made, from attributes and from words; its date from the first attribute that has one. */
class AcquisitionFactsTest {

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "Thorax 1.0 Br60 iMAR|YES",
                "SPINE MAR|YES",
                "Bone, O-MAR|YES",
                "L SPINE SEMAR|YES",
                "metal artifact reduction|YES",
                "without MAR|NO",
                "MARROW|UNKNOWN",
                "summary 2.5|UNKNOWN"
            })
    void artefactReductionIsFoundByWholeWords(String description, Known expected) {
        assertEquals(
                expected,
                facts(b -> b.string(Tag.SERIES_DESCRIPTION, description)).artefactReduction());
    }

    @ParameterizedTest
    @CsvSource({"Mono 70 keV, 70", "VMI_130keV_Bone, 130", "40.5 keV, 40.5", "700 keV, -1", "120 kV, -1"})
    void monoenergeticImagesAreToldByTheirEnergy(String description, double expected) {
        assertEquals(
                expected,
                facts(b -> b.string(Tag.SERIES_DESCRIPTION, description))
                        .monoEnergyKeV()
                        .orElse(-1));
    }

    @ParameterizedTest
    @CsvSource({"Iodine 300, YES", "NONE, NO", "no contrast, NO", "'', UNKNOWN"})
    void contrastAgent(String agent, Known expected) {
        assertEquals(
                expected, facts(b -> b.string(Tag.CONTRAST_BOLUS_AGENT, agent)).contrastAgent());
    }

    @Test
    void attributesAreTakenAsWritten() {
        Acquisition a = facts(b -> b.decimals(Tag.KVP, 120)
                .string(Tag.CONVOLUTION_KERNEL, "Br59f", "3")
                .decimals(Tag.SLICE_THICKNESS, 0.6)
                .decimals(Tag.RECONSTRUCTION_DIAMETER, 200)
                .string(Tag.MANUFACTURER, "Maker")
                .string(Tag.MANUFACTURER_MODEL_NAME, "Model 1")
                .string(Tag.PATIENT_POSITION, "HFS"));
        assertEquals(120, a.kvp().orElseThrow());
        assertEquals("Br59f 3", a.kernel());
        assertEquals(0.6, a.sliceThicknessMm().orElseThrow());
        assertEquals(200, a.fieldOfViewMm().orElseThrow());
        assertEquals("Maker Model 1", a.scannerModel());
        assertEquals("HFS", a.posture());
        assertEquals(Known.UNKNOWN, a.coneBeam());
        assertEquals("", a.reconstruction());
    }

    @Test
    void coneBeamAndLearnedReconstructionAreFound() {
        assertEquals(
                Known.YES,
                facts(b -> b.string(Tag.SERIES_DESCRIPTION, "CBCT spine")).coneBeam());
        assertEquals(
                "DLIR", facts(b -> b.string(Tag.CONVOLUTION_KERNEL, "DLIR-H")).reconstruction());
    }

    @Test
    void dateComesFromTheFirstAttributeThatHasOne() {
        DataSet.Builder b = DataSet.builder().string(Tag.STUDY_DATE, "20040119");
        assertDate("2004-01-19", "StudyDate", b);
        assertDate("1995-07-20", "SeriesDate", b.string(Tag.SERIES_DATE, "1995.07.20"));
        assertDate("1993-04-30", "ContentDate", b.string(Tag.CONTENT_DATE, "1993.04.30"));
        assertDate(
                "1992-02-29", "AcquisitionDateTime", b.string(Tag.ACQUISITION_DATE_TIME, "19920229235959.000000+0200"));
        assertDate("1992-02-29", "AcquisitionDateTime", b.string(Tag.ACQUISITION_DATE, "19930230"));
        assertDate("1991-12-31", "AcquisitionDate", b.string(Tag.ACQUISITION_DATE, "19911231"));
    }

    @Test
    void withoutAnyDateThereIsNone() {
        assertEquals(
                Optional.empty(),
                ScanDate.of(DataSet.builder().string(Tag.STUDY_DATE, "").build())
                        .date());
    }

    @Test
    void scaleKindsInTheirOrder() {
        DataSet.Builder b = DataSet.builder();
        assertScale("NONE", Double.NaN, b);
        assertScale("NONE", Double.NaN, b.string(Tag.PIXEL_SPACING, "0", "0"));
        assertScale("DETECTOR", 0.23, b.remove(Tag.PIXEL_SPACING).decimals(Tag.IMAGER_PIXEL_SPACING, 0.23, 0.23));
        // By hand: 0.23 / 1.15.
        assertScale("MAGNIFIED", 0.2, b.decimals(Tag.ESTIMATED_RADIOGRAPHIC_MAGNIFICATION, 1.15));
        // By hand: spacing that is the detector's says nothing more, the factor still counts.
        assertScale("MAGNIFIED", 0.2, b.decimals(Tag.PIXEL_SPACING, 0.23, 0.23));
        assertScale("CALIBRATED", 0.17, b.decimals(Tag.PIXEL_SPACING, 0.17, 0.17));
        assertScale("GEOMETRY", 0.17, b.string(Tag.PIXEL_SPACING_CALIBRATION_TYPE, "GEOMETRY"));
        assertScale("FIDUCIAL", 0.17, b.string(Tag.PIXEL_SPACING_CALIBRATION_TYPE, "FIDUCIAL"));
        assertScale(
                "UNKNOWN", 0.17, b.remove(Tag.PIXEL_SPACING_CALIBRATION_TYPE).remove(Tag.IMAGER_PIXEL_SPACING));
    }

    @Test
    void rowSpacingComesFirst() {
        org.holdfast.volume.PixelScale scale = PixelSizes.of(
                DataSet.builder().decimals(Tag.PIXEL_SPACING, 1.2, 1.2012).build(), true);
        // Source: DICOM PS3.3, 10.7.1.3: the first value of PixelSpacing is the distance between rows
        assertEquals(1.2, scale.rowMm());
        assertEquals(1.2012, scale.columnMm());
    }

    @Test
    void onlyWordsAboutTheMakingAreTold() {
        DataSet d = DataSet.builder()
                .string(Tag.SERIES_DESCRIPTION, "Miller Jane L-spine iDose (3) without MAR 70 keV")
                .string(Tag.PROTOCOL_NAME, "Omar CBCT")
                .string(Tag.PATIENT_NAME, "Omar^Jane")
                .build();
        assertEquals(List.of("NO MAR", "IDOSE", "CBCT", "70 KEV"), AcquisitionFacts.tellingWords(d));
    }

    private static void assertScale(String kind, double rowMm, DataSet.Builder b) {
        org.holdfast.volume.PixelScale scale = PixelSizes.of(b.build(), false);
        assertEquals(org.holdfast.volume.PixelScale.Kind.valueOf(kind), scale.kind());
        // Rounding of one division.
        assertEquals(rowMm, scale.rowMm(), 1e-15);
    }

    private static void assertDate(String date, String source, DataSet.Builder b) {
        ScanDate found = ScanDate.of(b.build());
        assertEquals(LocalDate.parse(date), found.date().orElseThrow());
        assertEquals(source, found.source());
    }

    private static Optional<LocalDate> day(String dateTime, String zone) {
        return ScanDate.of(DataSet.builder()
                        .string(Tag.ACQUISITION_DATE_TIME, dateTime)
                        .string(Tag.TIMEZONE_OFFSET_FROM_UTC, zone)
                        .build())
                .date();
    }

    @Test
    void theDayIsThatOfThePlaceOfTheScan() {
        // By hand: 23:30 in UTC is 08:30 of the next day nine hours east, and 18:30 of the same day five hours west
        assertEquals(Optional.of(LocalDate.of(2024, 1, 2)), day("20240101233000.000000+0000", "+0900"));
        assertEquals(Optional.of(LocalDate.of(2024, 1, 1)), day("20240101233000+0000", "-0500"));
        assertEquals(Optional.of(LocalDate.of(2024, 1, 1)), day("20240101233000", "+0900"));
        assertEquals(Optional.of(LocalDate.of(2024, 1, 1)), day("20240101", "+0900"));
        assertEquals(Optional.empty(), day("20240132", "+0900"));
        assertEquals(Optional.of(LocalDate.of(2024, 1, 1)), day("20240101233000+0000", "+9999"));
    }

    @Test
    void datesFarFromTheChosenOneAreTold() {
        ScanDate date = ScanDate.of(DataSet.builder()
                .string(Tag.STUDY_DATE, "20040119")
                .string(Tag.SERIES_DATE, "1995.05.08")
                .string(Tag.CONTENT_DATE, "20040120")
                .build());
        assertEquals("ContentDate", date.source());
        assertEquals(List.of("SeriesDate 1995-05-08"), date.others());
    }

    private static Acquisition facts(java.util.function.UnaryOperator<DataSet.Builder> change) {
        DataSet d = change.apply(DataSet.builder().string(Tag.MODALITY, "CT")).build();
        return AcquisitionFacts.of(d, Identity.of(d), ScanDate.of(d), Optional.empty());
    }

    @Test
    void wordsAreUpperCaseWithOneBlankRoundEach() {
        assertEquals(" A B 1.5 ", AcquisitionFacts.words(Stream.of("a_b", "", " 1.5!")));
    }
}
