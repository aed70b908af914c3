package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.holdfast.cases.SampleSubject;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomWriter;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.TransferSyntax;
import org.holdfast.dicom.Uid;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** An enhanced multi-frame CT comes through the same door as one of single files. */
class EnhancedExamTest {

    private static final int SIDE = 6;
    private static final int FRAMES = 12;

    @TempDir
    private Path folder;

    private static DataSet group(int sequence, DataSet item) {
        return DataSet.builder().items(sequence, List.of(item)).build();
    }

    /** Frames 1.25 mm apart; the stored values of frame f are all 1024 + 10·f, HU = stored − 1024. */
    private static DataSet enhanced() {
        List<DataSet> perFrame = new ArrayList<>();
        short[] words = new short[SIDE * SIDE * FRAMES];
        for (int f = 0; f < FRAMES; f++) {
            Arrays.fill(words, f * SIDE * SIDE, (f + 1) * SIDE * SIDE, (short) (1024 + 10 * f));
            perFrame.add(group(
                    Tag.PLANE_POSITION_SEQUENCE,
                    DataSet.builder()
                            .decimals(Tag.IMAGE_POSITION_PATIENT, 0, 0, 1.25 * f)
                            .build()));
        }
        DataSet shared = group(
                        Tag.PIXEL_MEASURES_SEQUENCE,
                        DataSet.builder().decimals(Tag.PIXEL_SPACING, 0.5, 0.5).build())
                .toBuilder()
                .addAll(group(
                        Tag.PLANE_ORIENTATION_SEQUENCE,
                        DataSet.builder()
                                .decimals(Tag.IMAGE_ORIENTATION_PATIENT, 1, 0, 0, 0, 1, 0)
                                .build()))
                .addAll(group(
                        Tag.PIXEL_VALUE_TRANSFORMATION_SEQUENCE,
                        DataSet.builder()
                                .decimals(Tag.RESCALE_SLOPE, 1)
                                .decimals(Tag.RESCALE_INTERCEPT, -1024)
                                .string(Tag.RESCALE_TYPE, "HU")
                                .build()))
                .build();
        return DataSet.builder()
                .string(Tag.SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.2.1")
                .string(Tag.SOP_INSTANCE_UID, Uid.fromName("EnhancedExamTest"))
                .string(Tag.SERIES_INSTANCE_UID, Uid.fromName("EnhancedExamTest series"))
                .string(Tag.STUDY_INSTANCE_UID, Uid.fromName("EnhancedExamTest study"))
                .string(Tag.MODALITY, "CT")
                .string(Tag.IMAGE_TYPE, "ORIGINAL", "PRIMARY", "VOLUME", "NONE")
                .string(Tag.ACQUISITION_DATE_TIME, "20250312101500")
                .integers(Tag.SAMPLES_PER_PIXEL, 1)
                .string(Tag.PHOTOMETRIC_INTERPRETATION, "MONOCHROME2")
                .integers(Tag.NUMBER_OF_FRAMES, FRAMES)
                .integers(Tag.ROWS, SIDE)
                .integers(Tag.COLUMNS, SIDE)
                .integers(Tag.BITS_ALLOCATED, 16)
                .integers(Tag.BITS_STORED, 16)
                .integers(Tag.HIGH_BIT, 15)
                .integers(Tag.PIXEL_REPRESENTATION, 1)
                .items(Tag.SHARED_FUNCTIONAL_GROUPS_SEQUENCE, List.of(shared))
                .items(Tag.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE, perFrame)
                .words(Tag.PIXEL_DATA, words)
                .build();
    }

    @Test
    void isReadLikeAnyVolume() throws Exception {
        Files.createDirectories(folder.resolve("ct"));
        DicomWriter.write(folder.resolve("ct/enhanced"), enhanced(), TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
        Files.copy(SampleSubject.constructFile(), folder.resolve("construct.json"));
        Files.writeString(
                folder.resolve(SubjectFolder.DOCUMENT),
                """
                {"code": "DEMO-01", "surgeryDate": "2024-03-11", "construct": "construct.json",
                 "exams": [{"label": "12 mo", "folder": "ct"}]}
                """);
        try (ExamImages images = new ExamImages(ReviewSubject.open(folder), 1L << 30)) {
            assertEquals(Optional.empty(), images.films(0, Progress.NONE));
            ExamFacts facts = images.facts(0, Progress.NONE);
            // By hand: 11 March 2024 to 12 March 2025 is a year of 365 days and a day
            assertEquals(OptionalInt.of(366), facts.daysSinceSurgery());
            HuVolume volume = images.volume(0, Progress.NONE);
            assertEquals(FRAMES, volume.grid().slices());
            assertEquals(1.25, volume.grid().pitchMm().orElseThrow(), 1e-12);
            // By hand: stored 1024 + 10 · 7, less 1024
            assertEquals(70, volume.hu(3, 2, 7));
        }
    }
}
