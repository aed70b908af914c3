package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.LongSummaryStatistics;
import org.holdfast.cases.CaseFiles;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Real files in RLE and JPEG-LS, in one fragment or several, against values that two other toolkits agree on. */
class CompressedCasesTest {

    /** The table prints four decimals. */
    private static final double PRINTED = 5e-5;

    @ParameterizedTest
    // Source: MANIFEST.tsv, raw minimum, maximum and mean, from pydicom with gdcm and from dcmtk's raw bytes
    @CsvSource({
        "C_syntax_ct1/D_CLUNIE_CT1_RLE_FRAGS.dcm, -2000, 2278, 152.6963",
        "C_syntax_ct1/CT1_UNC.fragmented_bot_jpeg_ls.80.dcm, -2000, 2278, 152.6963",
        "D_enhanced_ct/CT0012.not_fragmented_bot_jpeg_ls.80.dcm, 0, 1196, 380.0381"
    })
    void storedValues(String file, int lowest, int highest, double mean) throws Exception {
        PixelSource source = PixelSource.of(DicomReader.read(CaseFiles.path(file)));
        PixelLayout layout = source.layout();
        short[] words = new short[Math.toIntExact(layout.frameValues())];
        int unused = Integer.SIZE - layout.bitsStored();
        LongSummaryStatistics values = new LongSummaryStatistics();
        PixelReader reader = new PixelReader();
        for (int frame = 0; frame < layout.frames(); frame++) {
            assertEquals(words.length, reader.read(source, frame, words));
            for (short word : words) {
                values.accept(layout.signed() ? word << unused >> unused : word << unused >>> unused);
            }
        }
        assertEquals(lowest, values.getMin());
        assertEquals(highest, values.getMax());
        assertEquals(mean, values.getAverage(), PRINTED);
    }
}
