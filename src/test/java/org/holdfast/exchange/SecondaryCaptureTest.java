package org.holdfast.exchange;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomFile;
import org.holdfast.dicom.DicomReader;
import org.holdfast.dicom.PixelReader;
import org.holdfast.dicom.PixelSource;
import org.holdfast.dicom.Tag;
import org.holdfast.figure.Picture;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SecondaryCaptureTest {

    private static final Picture PICTURE = new Picture(3, 2, new int[] {0x000000, 0xFFFFFF, 0x102030, 1, 2, 0xFE0000});

    private static final DataSet STUDY = DataSet.builder()
            .string(Tag.PATIENT_NAME, "S-014")
            .string(Tag.PATIENT_ID, "S-014")
            .string(Tag.STUDY_INSTANCE_UID, "2.25.77")
            .string(Tag.STUDY_DATE, "20310203")
            .string(Tag.STUDY_DESCRIPTION, "Wirbelsäule")
            .build();

    @TempDir
    Path folder;

    private Path write(DataSet study) throws Exception {
        Path file = folder.resolve("capture.dcm");
        new SecondaryCapture("2.25.5", "Holdfast interface contact", 9001, 2, "Figure of apparent contact")
                .write(PICTURE, study, "2.25.6", "Holdfast test", LocalDateTime.of(2031, 3, 4, 5, 6, 7), file);
        return file;
    }

    @Test
    void keepsEveryColour() throws Exception {
        DicomFile file = DicomReader.read(write(STUDY));
        short[] words = new short[18];
        new PixelReader().read(PixelSource.of(file), 0, words);

        // By hand: red, green and blue of the six colours of PICTURE, row by row
        assertArrayEquals(new short[] {0, 0, 0, 255, 255, 255, 0x10, 0x20, 0x30, 0, 0, 1, 0, 0, 2, 0xFE, 0, 0}, words);
    }

    @Test
    void belongsToTheStudyAndToASeriesOfItsOwn() throws Exception {
        DataSet d = DicomReader.read(write(STUDY)).dataSet();

        assertEquals(Optional.of("2.25.77"), d.string(Tag.STUDY_INSTANCE_UID));
        assertEquals(Optional.of("S-014"), d.string(Tag.PATIENT_ID));
        assertEquals(Optional.of("Wirbelsäule"), d.string(Tag.STUDY_DESCRIPTION));
        assertEquals(Optional.of("2.25.5"), d.string(Tag.SERIES_INSTANCE_UID));
        assertEquals(Optional.of("20310304"), d.string(Tag.CONTENT_DATE));
        assertFalse(d.contains(Tag.ACQUISITION_DATE));
    }

    @Test
    void refusesADescriptionThatNoFileCanHold() {
        String tooLong = "x".repeat(65);
        assertThrows(IllegalArgumentException.class, () -> new SecondaryCapture("2.25.5", tooLong, 1, 1, ""));
    }

    @ParameterizedTest
    @ValueSource(strings = {"en", "de", "ar-u-nu-arab", "th-TH-u-nu-thai"})
    @org.junit.jupiter.api.Tag("outside-tool")
    void conformsToItsDefinitionWhateverTheLanguage(String language) throws Exception {
        boolean there =
                Stream.of("/usr/bin", "/usr/local/bin").anyMatch(dir -> Files.isExecutable(Path.of(dir, "dciodvfy")));
        Assumptions.assumeTrue(there, "skipped: dciodvfy of dicom3tools is not installed");
        Locale usual = Locale.getDefault();
        Path file;
        try {
            Locale.setDefault(Locale.forLanguageTag(language));
            file = write(STUDY);
        } finally {
            Locale.setDefault(usual);
        }
        Process process = new ProcessBuilder("dciodvfy", file.toString())
                .redirectErrorStream(true)
                .start();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        process.waitFor(1, TimeUnit.MINUTES);

        // Source: the validator's own rule: the definition's name, and no line that begins with Error
        assertEquals(
                "SCImage",
                said.lines().filter(line -> line.matches("\\w+")).findFirst().orElse(said));
        assertFalse(said.contains("Error -"), said);
    }
}
