package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.function.UnaryOperator;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.TransferSyntax;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeStatistics;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Stored values become HU: through writer, reader and loader. */
class VolumeLoaderTest {

    @TempDir
    Path folder;

    @ParameterizedTest
    @ValueSource(
            strings = {"1.2.840.10008.1.2", "1.2.840.10008.1.2.1", "1.2.840.10008.1.2.2", "1.2.840.10008.1.2.1.99"})
    void waterIsZeroAndAirIsMinusThousand(String syntax) throws Exception {
        short[] words = new short[CtFiles.COLUMNS * CtFiles.ROWS];
        words[0] = 1024;
        words[1] = 24;
        words[6] = 4095;
        DataSet slice =
                CtFiles.slice("water", 0, 0).words(Tag.PIXEL_DATA, words).build();
        CtFiles.write(folder, "water", slice, TransferSyntax.of(syntax));
        HuVolume volume = load().volume();
        // Source: HU = slope · stored + intercept (DICOM PS3.3, C.11.1.1.2); water 0 HU, air −1000 HU by definition of
        // CT
        assertEquals(0, volume.hu(0, 0, 0));
        assertEquals(-1000, volume.hu(1, 0, 0));
        // By hand: index 6 is column 2 of row 1.
        assertEquals(3071, volume.hu(2, 1, 0));
        assertEquals(-1024, volume.hu(3, 2, 0));
    }

    @Test
    void eachSliceHasItsOwnLineToHu() throws Exception {
        double[] slope = {1, 2, 0.5};
        double[] intercept = {-1024, -1000, 10.25};
        for (int k = 0; k < 3; k++) {
            CtFiles.write(
                    folder,
                    "s" + k,
                    CtFiles.slice("s" + k, k, 600)
                            .decimals(Tag.RESCALE_SLOPE, slope[k])
                            .decimals(Tag.RESCALE_INTERCEPT, intercept[k])
                            .build());
        }
        HuVolume volume = load().volume();
        // By hand: 600 − 1024, 2 · 600 − 1000, 0.5 · 600 + 10.25.
        assertEquals(-424, volume.hu(0, 0, 0));
        assertEquals(200, volume.hu(0, 0, 1));
        assertEquals(310.25, volume.hu(0, 0, 2));
    }

    @Test
    void paddingAndValuesBelowTissueCarryNone() throws Exception {
        short[] words = new short[CtFiles.COLUMNS * CtFiles.ROWS];
        Arrays.fill(words, (short) 1024);
        words[0] = -2000;
        words[1] = 50;
        words[2] = 55;
        words[3] = 60;
        words[4] = -1;
        CtFiles.write(
                folder,
                "padded",
                CtFiles.slice("padded", 0, 0)
                        .words(Tag.PIXEL_DATA, words)
                        .integers(Tag.PIXEL_PADDING_VALUE, 60)
                        .integers(Tag.PIXEL_PADDING_RANGE_LIMIT, 50)
                        .build());
        HuVolume volume = load().volume();
        // By hand: −3024 and −1025 HU are under −1024; stored 50 to 60 is padding; seven voxels of water are left.
        for (int i = 0; i < 4; i++) {
            assertTrue(Double.isNaN(volume.hu(i, 0, 0)));
        }
        assertTrue(Double.isNaN(volume.hu(0, 1, 0)));
        assertEquals(7, volume.statistics().validVoxels());
        assertEquals(0, volume.statistics().meanHu());
    }

    @ParameterizedTest
    @CsvSource({"12, false, 61503, 63", "12, true, 3840, -256", "10, true, 512, -512", "16, false, 65534, 65534"})
    void bitsThatDoNotCountAreMasked(int bitsStored, boolean signed, int word, int stored) throws Exception {
        CtFiles.write(
                folder,
                "bits",
                CtFiles.slice("bits", 0, word)
                        .integers(Tag.BITS_STORED, bitsStored)
                        .integers(Tag.HIGH_BIT, bitsStored - 1)
                        .integers(Tag.PIXEL_REPRESENTATION, signed ? 1 : 0)
                        .decimals(Tag.RESCALE_INTERCEPT, 0)
                        .build());
        // By hand: F03F → 03F; 0F00 with sign at bit 11 → −256; 0200 with sign at bit 9 → −512; FFFE → 65534.
        assertEquals(stored, load().volume().hu(0, 0, 0));
    }

    @Test
    void highBitAboveTheStoredOnesIsShiftedDown() throws Exception {
        CtFiles.write(
                folder,
                "shifted",
                CtFiles.slice("shifted", 0, 0x1230)
                        .integers(Tag.BITS_STORED, 12)
                        .integers(Tag.HIGH_BIT, 15)
                        .integers(Tag.PIXEL_REPRESENTATION, 0)
                        .build());
        // By hand: 1230 in the upper twelve bits is 123 hexadecimal, 291; 291 − 1024.
        assertEquals(-733, load().volume().hu(0, 0, 0));
    }

    @Test
    void eightBitSlicesLoad() throws Exception {
        byte[] bytes = new byte[CtFiles.COLUMNS * CtFiles.ROWS];
        bytes[5] = (byte) 200;
        CtFiles.write(
                folder,
                "bytes",
                CtFiles.slice("bytes", 0, 0)
                        .integers(Tag.BITS_ALLOCATED, 8)
                        .integers(Tag.BITS_STORED, 8)
                        .integers(Tag.HIGH_BIT, 7)
                        .integers(Tag.PIXEL_REPRESENTATION, 0)
                        .bytes(Tag.PIXEL_DATA, org.holdfast.dicom.Vr.OW, bytes)
                        .build());
        assertEquals(-824, load().volume().hu(1, 1, 0));
    }

    @ParameterizedTest
    @CsvSource({
        // By hand: stored − 1024, with the bits that count below junk in the high ones, and with all 32.
        "12, 0, 4095, 3071",
        "16, 1, -24, -1048",
        "32, 1, 30000, 28976",
        "32, 0, 40000, 38976"
    })
    void thirtyTwoBitSlicesLoadWhereTheirValuesFitSixteen(int bitsStored, int signed, int stored, int hu)
            throws Exception {
        int junk = bitsStored < 32 ? 0x5A << 24 : 0;
        CtFiles.write(folder, "wide", wide(bitsStored, signed, stored & -1 >>> 32 - bitsStored | junk));
        double read = load().volume().hu(2, 1, 0);
        // By hand: values under −1024 HU carry no tissue.
        assertEquals(hu < -1024 ? Double.NaN : hu, read);
    }

    @Test
    void valueBeyondSixteenBitsIsRefusedWithItsPlace() throws Exception {
        CtFiles.write(folder, "wide", wide(32, 1, 70_000));
        DicomReadException e = assertThrows(DicomReadException.class, this::load);
        assertTrue(e.reason().contains("expected a stored value of 16 bits, got 70000"), e.reason());
        assertTrue(e.offset() > 0);
    }

    private static DataSet wide(int bitsStored, int signed, int value) {
        ByteBuffer bytes =
                ByteBuffer.allocate(4 * CtFiles.COLUMNS * CtFiles.ROWS).order(ByteOrder.LITTLE_ENDIAN);
        bytes.putInt(4 * (2 + CtFiles.COLUMNS), value);
        return CtFiles.slice("wide", 0, 0)
                .integers(Tag.BITS_ALLOCATED, 32)
                .integers(Tag.BITS_STORED, bitsStored)
                .integers(Tag.HIGH_BIT, bitsStored - 1)
                .integers(Tag.PIXEL_REPRESENTATION, signed)
                .bytes(Tag.PIXEL_DATA, org.holdfast.dicom.Vr.OW, bytes.array())
                .build();
    }

    @Test
    void signedAndTwelveBitUnsignedSlicesShareOneVolume() throws Exception {
        CtFiles.write(folder, "a", CtFiles.slice("a", 0, -20).build());
        CtFiles.write(
                folder,
                "b",
                CtFiles.slice("b", 1, 0xF800)
                        .integers(Tag.BITS_STORED, 12)
                        .integers(Tag.HIGH_BIT, 11)
                        .integers(Tag.PIXEL_REPRESENTATION, 0)
                        .build());
        HuVolume volume = load().volume();
        // By hand: −20 − 1024 is under −1024; F800 masked to twelve bits is 2048; 2048 − 1024.
        assertTrue(Double.isNaN(volume.hu(0, 0, 0)));
        assertEquals(1024, volume.hu(0, 0, 1));
    }

    @Test
    void clippedScaleIsFound() throws Exception {
        for (int k = 0; k < 5; k++) {
            CtFiles.write(
                    folder,
                    "s" + k,
                    CtFiles.slice("s" + k, k, 4095)
                            .integers(Tag.BITS_STORED, 12)
                            .integers(Tag.HIGH_BIT, 11)
                            .integers(Tag.PIXEL_REPRESENTATION, 0)
                            .build());
        }
        VolumeStatistics statistics = load().volume().statistics();
        // By hand: 60 voxels at 2^12 − 1, 4095 − 1024 = 3071 HU.
        assertEquals(3071, statistics.ceilingHu().orElseThrow());
        assertEquals(60, statistics.voxelsAtMaximum());
    }

    @Test
    void extendedScaleReachesItsUpperEnd() throws Exception {
        CtFiles.write(
                folder,
                "extended",
                CtFiles.slice("extended", 0, 4095)
                        .decimals(Tag.RESCALE_SLOPE, 10)
                        .decimals(Tag.RESCALE_INTERCEPT, -10240)
                        .build());
        // By hand: 10 · 4095 − 10240.
        assertEquals(30710, load().volume().hu(0, 0, 0));
    }

    @Test
    void rowsThatAreMissingCarryNoValues() throws Exception {
        CtFiles.write(folder, "short", CtFiles.slice("short", 0, 1024).build());
        byte[] whole = Files.readAllBytes(folder.resolve("short"));
        // By hand: one row of four words less.
        Files.write(folder.resolve("short"), Arrays.copyOf(whole, whole.length - 8));
        LoadedVolume loaded = load();
        assertEquals(0, loaded.volume().hu(3, 1, 0));
        assertTrue(Double.isNaN(loaded.volume().hu(0, 2, 0)));
        assertTrue(loaded.findings().stream()
                .anyMatch(f -> f.code().equals("SLICE_CUT_SHORT") && f.text().contains("after 2 of its rows")));
    }

    @Test
    void sliceWithLittlePixelDataIsRefusedBeforeMemoryIsTaken() throws Exception {
        CtFiles.write(
                folder,
                "huge",
                CtFiles.slice("huge", 0, 0)
                        .integers(Tag.ROWS, 65535)
                        .integers(Tag.COLUMNS, 2000)
                        .build());
        Stack stack = stack();
        assertTrue(stack.whyNoHu().orElseThrow().contains("cut short"));
        assertThrows(IllegalArgumentException.class, () -> VolumeLoader.load(stack, Progress.NONE));
    }

    @Test
    void reasonsWithoutHuAreGiven() {
        assertEquals("modality MR has no HU", whyNoHu(b -> b.string(Tag.MODALITY, "MR")));
        assertEquals("RescaleType is US, not HU", whyNoHu(b -> b.string(Tag.RESCALE_TYPE, "US")));
        assertEquals("no RescaleSlope", whyNoHu(b -> b.remove(Tag.RESCALE_SLOPE)));
        assertEquals("RescaleIntercept is not a number", whyNoHu(b -> b.string(Tag.RESCALE_INTERCEPT, "x")));
        assertEquals("RescaleSlope is 0", whyNoHu(b -> b.decimals(Tag.RESCALE_SLOPE, 0)));
        assertEquals(
                "a modality look-up table instead of a line to HU",
                whyNoHu(b -> b.items(
                        Tag.MODALITY_LUT_SEQUENCE, List.of(DataSet.builder().build()))));
        assertEquals("", whyNoHu(b -> b.string(Tag.RESCALE_TYPE, "hu")));
    }

    @Test
    void progressEndsAtOne() throws Exception {
        CtFiles.writeStack(folder, "a", 5, 1, b -> b);
        double[] last = new double[1];
        Progress listening = new Progress() {
            @Override
            public synchronized void report(double fraction, String activity) {
                last[0] = Math.max(last[0], fraction);
            }

            @Override
            public boolean isCancelled() {
                return false;
            }
        };
        VolumeLoader.load(stack(), listening);
        assertEquals(1, last[0]);
    }

    @Test
    void hashChangesWithAByteAndNotWithTheName() throws Exception {
        CtFiles.writeStack(folder, "a", 2, 1, b -> b);
        String before = SeriesHash.of(stack());
        Files.move(folder.resolve("a0"), folder.resolve("z"));
        assertEquals(before, SeriesHash.of(stack()));
        byte[] bytes = Files.readAllBytes(folder.resolve("a1"));
        bytes[bytes.length - 1] ^= 1;
        Files.write(folder.resolve("a1"), bytes);
        assertTrue(!before.equals(SeriesHash.of(stack())) && before.matches("[0-9a-f]{64}"));
    }

    private static String whyNoHu(UnaryOperator<DataSet.Builder> change) {
        DataSet d = change.apply(CtFiles.slice("why", 0, 0)).build();
        return HuScale.of(d, d.string(Tag.MODALITY).orElseThrow()).whyNotHu();
    }

    private Stack stack() {
        return Intake.scan(List.of(folder), Progress.NONE)
                .series()
                .get(0)
                .stacks()
                .get(0);
    }

    private LoadedVolume load() throws Exception {
        return VolumeLoader.load(stack(), Progress.NONE);
    }
}
