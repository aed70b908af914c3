package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;
import org.holdfast.volume.PixelScale;
import org.holdfast.volume.PixelScale.Kind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The order of scales of a radiograph, and what is no scale. */
class PixelSizesTest {

    /** Rounding of one division. */
    private static final double ROUNDING = 1e-15;

    @TempDir
    private Path folder;

    private static DataSet.Builder calibrated() {
        return DataSet.builder().decimals(Tag.IMAGER_PIXEL_SPACING, 0.2, 0.2).decimals(Tag.PIXEL_SPACING, 0.17, 0.17);
    }

    private static PixelScale scale(DataSet.Builder header) {
        return PixelSizes.of(header.build(), false);
    }

    private static void assertScale(Kind kind, double rowMm, double columnMm, PixelScale scale) {
        assertEquals(kind, scale.kind());
        assertEquals(rowMm, scale.rowMm(), ROUNDING);
        assertEquals(columnMm, scale.columnMm(), ROUNDING);
    }

    @Test
    void calibrationOnAnObjectComesFirst() {
        assertScale(
                Kind.FIDUCIAL, 0.17, 0.17, scale(calibrated().string(Tag.PIXEL_SPACING_CALIBRATION_TYPE, "FIDUCIAL")));
        assertScale(
                Kind.GEOMETRY, 0.17, 0.17, scale(calibrated().string(Tag.PIXEL_SPACING_CALIBRATION_TYPE, "GEOMETRY")));
    }

    @Test
    void aSpacingThatDiffersFromTheDetectorsIsCalibrated() {
        assertScale(Kind.CALIBRATED, 0.17, 0.17, scale(calibrated()));
        assertScale(Kind.CALIBRATED, 0.2, 0.17, scale(calibrated().decimals(Tag.PIXEL_SPACING, 0.2, 0.17)));
        assertTrue(Kind.CALIBRATED.isInPatient());
    }

    @Test
    void spacingOfZeroIsNone() {
        DataSet.Builder zero = DataSet.builder().decimals(Tag.PIXEL_SPACING, 0, 0);
        assertEquals(Kind.NONE, scale(zero).kind());
        assertTrue(Double.isNaN(scale(zero).rowMm()));
        assertEquals(
                Kind.NONE,
                scale(zero.decimals(Tag.IMAGER_PIXEL_SPACING, -0.2, 0.2)).kind());
        assertEquals(
                Kind.NONE, scale(zero.string(Tag.IMAGER_PIXEL_SPACING, "0.2")).kind());
        assertEquals(
                Kind.NONE,
                scale(zero.string(Tag.IMAGER_PIXEL_SPACING, "NaN", "NaN")).kind());
        assertEquals(Kind.NONE, scale(DataSet.builder()).kind());
        assertScale(Kind.DETECTOR, 0.2, 0.2, scale(zero.decimals(Tag.IMAGER_PIXEL_SPACING, 0.2, 0.2)));
    }

    @Test
    void magnificationBringsTheDetectorToThePatientAsAnEstimate() {
        PixelScale byFactor = scale(DataSet.builder()
                .decimals(Tag.IMAGER_PIXEL_SPACING, 0.23, 0.23)
                .decimals(Tag.ESTIMATED_RADIOGRAPHIC_MAGNIFICATION, 1.15));
        assertScale(Kind.MAGNIFIED, 0.2, 0.2, byFactor);
        // By hand: 23.0 mm at the detector are 100 pixels of 0.23 mm; 100 · 0.23 / 1.15 = 20.0 mm in the patient.
        assertEquals(20.0, 23.0 / 0.23 * byFactor.rowMm(), 1e-12);
        assertFalse(Kind.MAGNIFIED.isInPatient());
        assertEquals("detector ÷ magnification 1.15, an estimate", byFactor.words());
    }

    @Test
    void distancesGiveTheMagnificationWhereNoFactorIsWritten() {
        DataSet.Builder film = DataSet.builder()
                .decimals(Tag.IMAGER_PIXEL_SPACING, 0.23, 0.46)
                .decimals(Tag.DISTANCE_SOURCE_TO_DETECTOR, 1150)
                .decimals(Tag.DISTANCE_SOURCE_TO_PATIENT, 1000);
        // By hand: 1150 / 1000 = 1.15; 0.23 / 1.15 and 0.46 / 1.15
        assertScale(Kind.MAGNIFIED, 0.2, 0.4, scale(film));
        assertEquals(
                "detector ÷ magnification 1.15 by distances, an estimate",
                scale(film).words());
        assertEquals(
                1.2,
                scale(film.decimals(Tag.ESTIMATED_RADIOGRAPHIC_MAGNIFICATION, 1.2))
                        .magnification()
                        .orElseThrow()
                        .factor());
    }

    @Test
    void factorsThatAreNoneLeaveTheDetector() {
        for (double factor : new double[] {0, -1.2, 0.9, 1, 115}) {
            DataSet.Builder film = DataSet.builder()
                    .decimals(Tag.IMAGER_PIXEL_SPACING, 0.2, 0.2)
                    .decimals(Tag.ESTIMATED_RADIOGRAPHIC_MAGNIFICATION, factor)
                    .decimals(Tag.DISTANCE_SOURCE_TO_DETECTOR, 1000);
            assertEquals(Kind.DETECTOR, scale(film).kind(), "factor " + factor);
        }
    }

    @Test
    void spacingAloneOnARadiographIsUnknown() {
        DataSet film =
                FilmFiles.film("alone").decimals(Tag.PIXEL_SPACING, 0.15, 0.15).build();
        assertEquals(
                Kind.UNKNOWN, FilmFiles.header(folder, "alone", film).scale().kind());
    }

    @Test
    void captureIsInThePatientWherePlacedElseOfTheScannedFilm() {
        DataSet.Builder capture = FilmFiles.film("capture")
                .string(Tag.SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.7")
                .string(Tag.MODALITY, "CR")
                .decimals(Tag.NOMINAL_SCANNED_PIXEL_SPACING, 0.1, 0.1);
        assertScale(
                Kind.SCANNED,
                0.1,
                0.1,
                FilmFiles.header(folder, "scan", capture.build()).scale());
        DataSet placed = capture.decimals(Tag.IMAGE_POSITION_PATIENT, 0, 0, 0)
                .decimals(Tag.IMAGE_ORIENTATION_PATIENT, 1, 0, 0, 0, 0, -1)
                .decimals(Tag.PIXEL_SPACING, 0.3, 0.4)
                .build();
        assertScale(
                Kind.PATIENT,
                0.3,
                0.4,
                FilmFiles.header(folder, "placed", placed).scale());
    }

    @Test
    void aPlaneWrittenOnAProjectionDoesNotMakeItLieInThePatient() {
        DataSet film = FilmFiles.film("plane")
                .decimals(Tag.IMAGE_POSITION_PATIENT, 0, 0, 0)
                .decimals(Tag.IMAGE_ORIENTATION_PATIENT, 1, 0, 0, 0, 0, -1)
                .decimals(Tag.PIXEL_SPACING, 0.3, 0.4)
                .build();
        assertEquals(
                Kind.UNKNOWN, FilmFiles.header(folder, "plane", film).scale().kind());
    }
}
