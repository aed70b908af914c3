package org.holdfast.dicom;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.holdfast.cases.CaseFiles;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Odd real files: each is read, or refused with a message, in bounded time and memory. */
class CaseFilesReadingTest {

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                // Source: the names that these public test files are made of (MANIFEST.tsv, character sets)
                "chrFren.dcm|Buc^Jérôme",
                "chrGreek.dcm|Διονυσιος",
                "chrX1.dcm|Wang^XiaoDong=王^小東=",
                "chrJapMulti.dcm|やまだ^たろう"
            })
    void readsNames(String file, String expected) throws Exception {
        DataSet d = read("G_parser/charset/" + file).dataSet();
        assertEquals(expected, d.string(Tag.PATIENT_NAME).orElseThrow());
    }

    @Test
    void itemHasItsOwnCharacterSet() throws Exception {
        DataSet item = read("G_parser/charset/chrSQEncoding.dcm")
                .dataSet()
                .item(0x00321064)
                .orElseThrow();
        // Source: DICOM PS3.5, H.3.2, which the file repeats
        assertEquals("ﾔﾏﾀﾞ^ﾀﾛｳ=山田^太郎=やまだ^たろう", item.string(Tag.PATIENT_NAME).orElseThrow());
    }

    @Test
    void unknownSequenceIsReadAsItems() throws Exception {
        DataSet d = read("G_parser/UN_sequence.dcm").dataSet();
        long sequences =
                d.tags().stream().filter(tag -> !d.items(tag).isEmpty()).count();
        // Computed: dcmdump 3.6.7 shows one sequence, (4453,100c)
        assertEquals(1, sequences);
        assertEquals(1, d.items(0x4453100C).size());
    }

    @Test
    void fileWithoutMetaIsSniffed() throws Exception {
        DicomFile file = read("G_parser/no_meta.dcm");
        assertEquals("CT", file.dataSet().string(Tag.MODALITY).orElseThrow());
        assertEquals(128, file.dataSet().integer(Tag.ROWS).orElseThrow());
        assertEquals(
                "RTPLAN",
                read("G_parser/ExplVR_LitEndNoMeta.dcm")
                        .dataSet()
                        .string(Tag.MODALITY)
                        .orElseThrow());
        // Source: MANIFEST.tsv: ACR-NEMA, 440 × 440, 10 of 16 bits
        assertEquals(
                440,
                read("E_radiograph/CR-MONO1-10-chest")
                        .dataSet()
                        .integer(Tag.ROWS)
                        .orElseThrow());
    }

    @Test
    void truncatedPixelsAreSaidAndNotAllocated() throws Exception {
        // Source: MANIFEST.tsv: 3 GB in a 100 kB file; MR_truncated has 8130 of 8192 bytes
        PixelLocation huge = read("G_parser/3gb-bulk-data-truncated").pixels().orElseThrow();
        assertTrue(huge.isTruncated() && huge.length() == 3L << 30 && huge.available() < 100_000);
        PixelLocation shortened = read("G_parser/MR_truncated.dcm").pixels().orElseThrow();
        assertEquals(8192, shortened.length());
        assertEquals(8130, shortened.available());
    }

    @Test
    void illegalRepresentationDoesNotDerailTheParser() throws Exception {
        DicomFile file = read("G_parser/badVR.dcm");
        assertEquals("RTDOSE", file.dataSet().string(Tag.MODALITY).orElseThrow());
        // Computed: dcmdump 3.6.7 shows NumberOfFrames as [1A]
        DicomReadException e = assertThrows(DicomReadException.class, () -> PixelLayout.of(file));
        assertEquals("(0028,0008): expected a whole number, got 1A", e.reason());
    }

    @Test
    void mainImageComesAfterTheIcon() throws Exception {
        DicomFile file = read("G_parser/JPEGwithIcon.dcm");
        assertEquals(1, file.dataSet().items(Tag.ICON_IMAGE_SEQUENCE).size());
        assertEquals(-1, file.pixels().orElseThrow().length());
        PixelSource pixels = PixelSource.of(file);
        // Computed: dcmdump 3.6.7: 600 × 600 pixels of three samples; the icon has 64 × 64 of one
        assertEquals(600 * 600 * 3, pixels.layout().frameValues());
        short[] words = new short[600 * 600 * 3];
        assertEquals(words.length, new PixelReader().read(pixels, 0, words));
    }

    @Test
    void bombIsRefusedSoon() {
        Path bomb = CaseFiles.path("Z_made_here/deflate_bomb_1GiB.dcm");
        DicomReadException e = assertTimeoutPreemptively(
                Duration.ofSeconds(10), () -> assertThrows(DicomReadException.class, () -> DicomReader.read(bomb)));
        assertTrue(
                e.getMessage().contains("ratio of at most 200")
                        && e.getMessage().contains("refused"),
                e.getMessage());
    }

    @Test
    void everyFileIsReadOrRefusedWithItsName() throws Exception {
        List<Path> files = new ArrayList<>();
        try (Stream<Path> all = Files.walk(CaseFiles.folder())) {
            all.filter(Files::isRegularFile).forEach(files::add);
        }
        int read = 0;
        for (Path file : files) {
            try {
                DicomReader.read(file).dataSet().describe();
                read++;
            } catch (DicomReadException e) {
                assertTrue(e.getMessage().startsWith(file.toString()));
            }
        }
        // By hand: all but two tables, a text file and the bomb.
        assertEquals(files.size() - 4, read);
    }

    private static DicomFile read(String name) throws DicomReadException {
        return DicomReader.read(CaseFiles.path(name));
    }
}
