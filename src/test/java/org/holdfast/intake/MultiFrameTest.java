package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.Vr;
import org.holdfast.finding.Finding;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Multi-frame objects become the stacks that their functional groups describe (PS3.3, section C.7.6.16). */
class MultiFrameTest {

    private static final int PIXEL_VALUE_TRANSFORMATION = Tag.PIXEL_VALUE_TRANSFORMATION_SEQUENCE;
    private static final int X_RAY_DETAILS = 0x00189325;
    private static final int UNASSIGNED_SHARED_CONVERTED_ATTRIBUTES = 0x00209170;
    private static final int CT_IMAGE_FRAME_TYPE_SEQUENCE = 0x00189329;
    private static final int VALUES = CtFiles.COLUMNS * CtFiles.ROWS;

    @TempDir
    Path folder;

    private static DataSet one(int sequence, DataSet item) {
        return DataSet.builder().items(sequence, List.of(item)).build();
    }

    private static DataSet rescale(double slope, double intercept, String type) {
        return DataSet.builder()
                .decimals(Tag.RESCALE_SLOPE, slope)
                .decimals(Tag.RESCALE_INTERCEPT, intercept)
                .string(Tag.RESCALE_TYPE, type)
                .build();
    }

    private static DataSet position(double zMm) {
        return DataSet.builder().decimals(Tag.IMAGE_POSITION_PATIENT, 0, 0, zMm).build();
    }

    private static DataSet.Builder shared() {
        return DataSet.builder()
                .items(
                        Tag.PIXEL_MEASURES_SEQUENCE,
                        List.of(DataSet.builder()
                                .decimals(Tag.PIXEL_SPACING, 0.7, 0.5)
                                .decimals(Tag.SLICE_THICKNESS, 0.75)
                                .build()))
                .items(
                        Tag.PLANE_ORIENTATION_SEQUENCE,
                        List.of(DataSet.builder()
                                .decimals(Tag.IMAGE_ORIENTATION_PATIENT, 1, 0, 0, 0, 1, 0)
                                .build()))
                .items(PIXEL_VALUE_TRANSFORMATION, List.of(rescale(1, -1024, "HU")));
    }

    private static DataSet frame(double zMm) {
        return one(Tag.PLANE_POSITION_SEQUENCE, position(zMm));
    }

    /** An enhanced CT object; the stored values of frame f are all 1000 + 10·f. */
    private static DataSet.Builder object(DataSet shared, List<DataSet> perFrame, int frames) {
        short[] words = new short[VALUES * frames];
        for (int f = 0; f < frames; f++) {
            Arrays.fill(words, f * VALUES, (f + 1) * VALUES, (short) (1000 + 10 * f));
        }
        return CtFiles.slice("enhanced", 0, 0)
                .string(Tag.SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.2.1")
                .remove(Tag.IMAGE_POSITION_PATIENT)
                .remove(Tag.IMAGE_ORIENTATION_PATIENT)
                .remove(Tag.PIXEL_SPACING)
                .remove(Tag.RESCALE_SLOPE)
                .remove(Tag.RESCALE_INTERCEPT)
                .integers(Tag.NUMBER_OF_FRAMES, frames)
                .items(Tag.SHARED_FUNCTIONAL_GROUPS_SEQUENCE, List.of(shared))
                .items(Tag.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE, perFrame)
                .words(Tag.PIXEL_DATA, words);
    }

    private Series read(DataSet.Builder object) {
        CtFiles.write(folder, "enhanced", object.build());
        List<Series> series = Intake.scan(List.of(folder), Progress.NONE).series();
        assertEquals(1, series.size());
        return series.get(0);
    }

    private static List<String> codes(Series series) {
        return series.findings().stream().map(Finding::code).toList();
    }

    @Test
    void framesLieWhereTheirGroupsSay() throws Exception {
        Series series = read(object(shared().build(), List.of(frame(2.5), frame(0), frame(1.25)), 3));
        Stack stack = series.stacks().get(0);
        HuVolume hu = VolumeLoader.load(stack, Progress.NONE).volume();

        // By hand: ascending z is frame 1, 2, 0; stored 1010, 1020, 1000 less 1024
        assertEquals(1.25, stack.grid().pitchMm().orElseThrow(), 1e-12);
        assertEquals(0.7, stack.grid().rowSpacingMm());
        assertEquals(-14, hu.hu(0, 0, 0));
        assertEquals(-4, hu.hu(0, 0, 1));
        assertEquals(-24, hu.hu(3, 2, 2));
        assertEquals(OptionalDouble.of(0.75), stack.acquisition().sliceThicknessMm());
        assertEquals(
                List.of(1, 2, 0), stack.slices().stream().map(Slice::frameIndex).toList());
    }

    @Test
    void aFramesOwnGroupCountsBeforeTheShared() throws Exception {
        DataSet own = DataSet.builder()
                .items(Tag.PLANE_POSITION_SEQUENCE, List.of(position(1)))
                .items(PIXEL_VALUE_TRANSFORMATION, List.of(rescale(2, -1000, "HU")))
                .build();
        Stack stack = read(object(shared().build(), List.of(frame(0), own), 2))
                .stacks()
                .get(0);
        HuVolume hu = VolumeLoader.load(stack, Progress.NONE).volume();

        // By hand: 1000 − 1024; 2 · 1010 − 1000
        assertEquals(-24, hu.hu(0, 0, 0));
        assertEquals(1020, hu.hu(0, 0, 1));
    }

    @Test
    void attributesOfConvertedObjectsAreFound() {
        DataSet groups = shared().items(
                        X_RAY_DETAILS,
                        List.of(DataSet.builder().decimals(Tag.KVP, 120).build()))
                .items(
                        UNASSIGNED_SHARED_CONVERTED_ATTRIBUTES,
                        List.of(DataSet.builder()
                                .string(Tag.SCAN_OPTIONS, "HELIX")
                                .string(Tag.CONVOLUTION_KERNEL, "B60")
                                .build()))
                .build();
        Stack stack =
                read(object(groups, List.of(frame(0), frame(1)), 2)).stacks().get(0);

        assertEquals(OptionalDouble.of(120), stack.acquisition().kvp());
        assertEquals("B60", stack.acquisition().kernel());
    }

    @Test
    void stacksOfOneObjectAreToldApart() {
        List<DataSet> frames = new ArrayList<>();
        for (String id : List.of("1", "2")) {
            for (int k = 0; k < 3; k++) {
                frames.add(DataSet.builder()
                        .items(Tag.PLANE_POSITION_SEQUENCE, List.of(position(k)))
                        .items(
                                Tag.FRAME_CONTENT_SEQUENCE,
                                List.of(DataSet.builder()
                                        .string(Tag.STACK_ID, id)
                                        .build()))
                        .build());
            }
        }
        Series series = read(object(shared().build(), frames, 6));

        assertEquals(2, series.stacks().size());
        assertEquals(3, series.stacks().get(1).grid().slices());
        assertTrue(codes(series).contains("SPLIT_BY_ATTRIBUTE"));
    }

    @Test
    void framesOfSeveralTimesAreToldApartByTheirDimensionIndex() {
        int pointer = Tag.DIMENSION_INDEX_POINTER;
        List<DataSet> dimensions = List.of(
                DataSet.builder()
                        .bytes(pointer, Vr.AT, new byte[] {0x18, 0, 0x20, (byte) 0x90})
                        .build(),
                DataSet.builder()
                        .bytes(pointer, Vr.AT, new byte[] {0x20, 0, 0x57, (byte) 0x90})
                        .build());
        List<DataSet> frames = new ArrayList<>();
        for (int time = 1; time <= 2; time++) {
            for (int k = 1; k <= 3; k++) {
                frames.add(DataSet.builder()
                        .items(Tag.PLANE_POSITION_SEQUENCE, List.of(position(k)))
                        .items(
                                Tag.FRAME_CONTENT_SEQUENCE,
                                List.of(DataSet.builder()
                                        .integers(Tag.DIMENSION_INDEX_VALUES, time, k)
                                        .build()))
                        .build());
            }
        }
        Series series = read(object(shared().build(), frames, 6).items(Tag.DIMENSION_INDEX_SEQUENCE, dimensions));

        // By hand: two times of three places each
        assertEquals(
                List.of(3, 3),
                series.stacks().stream().map(s -> s.grid().slices()).toList());
        assertTrue(series.findings().stream().anyMatch(f -> f.text().contains("DimensionIndexValues")));
    }

    @Test
    void framesWithoutGroupsMakeNoStack() {
        Series series = read(object(shared().build(), List.of(frame(0), frame(1)), 3));

        assertEquals(List.of(), series.stacks());
        assertTrue(series.findings().stream()
                .anyMatch(
                        f -> f.code().equals("FRAMES_NOT_DESCRIBED") && f.text().contains("3 frames")));
    }

    @Test
    void aFrameWithoutPlaceIsLeftOutAndSaid() {
        Series series = read(
                object(shared().build(), List.of(frame(0), DataSet.builder().build(), frame(1)), 3));

        assertEquals(2, series.stacks().get(0).grid().slices());
        assertTrue(codes(series).contains("FRAMES_NOT_PLACED"));
    }

    @Test
    void mapsOfSomethingElseHaveNoHu() {
        DataSet units = shared().items(PIXEL_VALUE_TRANSFORMATION, List.of(rescale(1, -1024, "US")))
                .build();
        DataSet flow = shared().items(
                        CT_IMAGE_FRAME_TYPE_SEQUENCE,
                        List.of(DataSet.builder()
                                .string(Tag.FRAME_TYPE, "DERIVED", "PRIMARY", "PERFUSION", "RCBF")
                                .build()))
                .build();

        assertTrue(whyNoHu(units, "a").contains("RescaleType is US"), whyNoHu(units, "a"));
        assertTrue(whyNoHu(flow, "b").contains("ImageType PERFUSION"), whyNoHu(flow, "b"));
    }

    private String whyNoHu(DataSet groups, String name) {
        Path own = folder.resolve(name);
        own.toFile().mkdirs();
        CtFiles.write(
                own, "enhanced", object(groups, List.of(frame(0), frame(1)), 2).build());
        return Intake.scan(List.of(own), Progress.NONE)
                .series()
                .get(0)
                .stacks()
                .get(0)
                .whyNoHu()
                .orElseThrow();
    }

    @Test
    void theHashOfASeriesCountsAFileOnce() throws Exception {
        Stack stack = read(object(shared().build(), List.of(frame(0), frame(1)), 2))
                .stacks()
                .get(0);
        Stack turned = read(object(shared().build(), List.of(frame(1), frame(0)), 2))
                .stacks()
                .get(0);

        assertEquals(64, SeriesHash.of(stack).length());
        assertTrue(!SeriesHash.of(stack).equals(SeriesHash.of(turned)));
    }
}
