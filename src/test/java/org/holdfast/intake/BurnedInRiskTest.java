package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.Vr;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Which images are said to carry a risk of burned-in text. */
final class BurnedInRiskTest {

    @ParameterizedTest
    @CsvSource({
        "CT, 1.2.840.10008.5.1.4.1.1.2, ORIGINAL\\PRIMARY\\AXIAL, '', false",
        "CT, 1.2.840.10008.5.1.4.1.1.2, ORIGINAL\\PRIMARY\\AXIAL, YES, true",
        "CT, 1.2.840.10008.5.1.4.1.1.2, DERIVED\\SECONDARY\\3D, '', true",
        "CT, 1.2.840.10008.5.1.4.1.1.2, DERIVED\\SECONDARY\\3D, NO, false",
        "CT, 1.2.840.10008.5.1.4.1.1.2, DERIVED\\SECONDARY\\SCREEN SAVE, '', true",
        "OT, 1.2.840.10008.5.1.4.1.1.7, DERIVED\\SECONDARY, '', true",
        "OT, 1.2.840.10008.5.1.4.1.1.7, DERIVED\\SECONDARY, NO, false",
        "US, 1.2.840.10008.5.1.4.1.1.6.1, ORIGINAL\\PRIMARY, '', true",
        "RF, 1.2.840.10008.5.1.4.1.1.12.2, ORIGINAL\\PRIMARY, '', true",
        "DX, 1.2.840.10008.5.1.4.1.1.1.1, ORIGINAL\\PRIMARY, '', false",
        "CR, 1.2.840.10008.5.1.4.1.1.1, ORIGINAL\\PRIMARY, '', false"
    })
    void followsFromWhatTheHeaderSays(String modality, String sopClass, String type, String said, boolean risk) {
        DataSet.Builder data = DataSet.builder()
                .string(Tag.MODALITY, modality)
                .string(Tag.SOP_CLASS_UID, sopClass)
                .string(Tag.IMAGE_TYPE, type.split("\\\\"));
        if (!said.isEmpty()) {
            data.string(Tag.BURNED_IN_ANNOTATION, said);
        }
        assertEquals(risk, BurnedInRisk.of(data.build()).isPresent());
    }

    @Test
    void colourConversionAndOverlayBitsAreRisks() {
        DataSet.Builder ct = DataSet.builder().string(Tag.MODALITY, "CT");
        assertTrue(BurnedInRisk.of(ct.build()).isEmpty());
        assertTrue(BurnedInRisk.of(DataSet.builder()
                        .string(Tag.MODALITY, "CT")
                        .integers(Tag.SAMPLES_PER_PIXEL, 3)
                        .build())
                .isPresent());
        assertTrue(BurnedInRisk.of(DataSet.builder()
                        .string(Tag.MODALITY, "CT")
                        .string(Tag.CONVERSION_TYPE, "WSD")
                        .build())
                .isPresent());
        assertTrue(BurnedInRisk.of(DataSet.builder()
                        .string(Tag.MODALITY, "CT")
                        .string(Tag.BURNED_IN_ANNOTATION, "NO")
                        .bytes(0x60020100, Vr.US, new byte[] {16, 0})
                        .build())
                .isPresent());
    }
}
