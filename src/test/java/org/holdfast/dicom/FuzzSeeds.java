package org.holdfast.dicom;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/** Small files that are good, or odd in a known way, for {@link DicomFuzzTest} to damage. */
final class FuzzSeeds {

    private static final String IMPLICIT = "1.2.840.10008.1.2";
    private static final String EXPLICIT = "1.2.840.10008.1.2.1";
    private static final String RLE = "1.2.840.10008.1.2.5";
    private static final String CT = "08006000 'CS' 0200 'CT' ";
    private static final String ITEM = "FEFF00E0 FFFFFFFF ";
    private static final String ITEM_END = "FEFF0DE0 00000000 ";
    private static final String END = "FEFFDDE0 00000000 ";
    private static final String UID = "08005511 'UI' 0A00 '1.2.3.4.55' ";
    private static final String IMPLICIT_UID = "08005511 0A000000 '1.2.3.4.55' ";
    private static final long LARGEST_OUTSIDE = 100_000;

    private FuzzSeeds() {}

    /**
     * One seed.
     *
     * @param deflatedStart where its deflated data set starts; 0 if it is not deflated
     */
    record Seed(byte[] bytes, int deflatedStart) {
        static Seed of(byte[] bytes) {
            try {
                DicomFile file = DicomReader.read(Path.of("seed"), bytes);
                return new Seed(bytes, file.transferSyntax().deflated() ? (int) file.dataSetStart() : 0);
            } catch (DicomReadException e) {
                return new Seed(bytes, 0);
            }
        }
    }

    /** Seeds that are the same everywhere. */
    static List<Seed> made() throws IOException {
        List<byte[]> seeds = new ArrayList<>();
        TransferSyntax[] syntaxes = {
            TransferSyntax.IMPLICIT_LITTLE_ENDIAN,
            TransferSyntax.EXPLICIT_LITTLE_ENDIAN,
            TransferSyntax.EXPLICIT_BIG_ENDIAN,
            TransferSyntax.DEFLATED_EXPLICIT_LITTLE_ENDIAN
        };
        for (TransferSyntax syntax : syntaxes) {
            for (DicomWriter.SequenceLength lengths : DicomWriter.SequenceLength.values()) {
                seeds.add(written(DicomWriterTest.everyKindOfValue(), syntax, lengths));
                seeds.add(written(functionalGroups(), syntax, lengths));
            }
            for (int bits : new int[] {1, 8, 16, 32}) {
                seeds.add(written(image(bits), syntax, DicomWriter.SequenceLength.DEFINED));
            }
        }
        seeds.addAll(byHand());
        return seeds.stream().map(Seed::of).toList();
    }

    /** Real files where they are installed: the case files and those that come with Debian's python3-pydicom. */
    static List<Seed> found() throws IOException {
        String named = System.getenv("HOLDFAST_CASES");
        List<byte[]> seeds = new ArrayList<>();
        for (Path folder : List.of(
                named == null ? Path.of("..", "shared", "dicom-cases") : Path.of(named),
                Path.of("/usr/lib/python3/dist-packages/pydicom/data"))) {
            if (!Files.isDirectory(folder)) {
                continue;
            }
            try (Stream<Path> files = Files.walk(folder).sorted()) {
                for (Path file : files.filter(Files::isRegularFile).toList()) {
                    if (Files.size(file) < LARGEST_OUTSIDE && isDicom(file)) {
                        seeds.add(Files.readAllBytes(file));
                    }
                }
            }
        }
        return seeds.stream().map(Seed::of).toList();
    }

    private static boolean isDicom(Path file) {
        try {
            return !DicomReader.read(file).dataSet().tags().isEmpty();
        } catch (DicomReadException e) {
            return false;
        }
    }

    private static List<byte[]> byHand() {
        String meta = "02001000 'UI' 1400 '1.2.840.10008.1.2.1' 00 ";
        String fragments = "E07F1000 'OB' 0000 FFFFFFFF FEFF00E0 00000000 FEFF00E0 08000000 FEFFDDE000000000 ";
        String pixels = "28000200 'US' 0200 0100 28000400 'CS' 0C00 'MONOCHROME2 ' 28001000 'US' 0200 0200"
                + " 28001100 'US' 0200 0200 28000001 'US' 0200 0800 28000101 'US' 0200 0800 28000201 'US' 0200 0700"
                + " 28000301 'US' 0200 0000 ";
        String unknownImplicit = "09001010 'UN' 0000 FFFFFFFF " + ITEM + IMPLICIT_UID + ITEM_END + END;
        String record = "00040014 04000000 00000000 04001014 02000000 FFFF 04002014 04000000 00000000"
                + " 04003014 08000000 'PATIENT ' ";
        return List.of(
                Bytes.of(CT + UID),
                Bytes.of("08006000 02000000 'CT' " + IMPLICIT_UID),
                Bytes.of("00080060 'CS' 0002 'CT' 00280010 'US' 0002 0200"),
                Bytes.file(EXPLICIT, CT + unknownImplicit),
                Bytes.file(EXPLICIT, CT + "09001010 'UN' 0000 1A000000  FEFF00E0 12000000 " + IMPLICIT_UID),
                Bytes.file(EXPLICIT, CT + "09001010 'UN' 0000 1A000000  FEFF00E0 12000000 " + UID),
                Bytes.file(
                        EXPLICIT,
                        CT + "09001010 'UN' 0000 2A000000 FEFF00E0 22000000 09001010 1A000000 FEFF00E0 12000000 "
                                + IMPLICIT_UID),
                Bytes.file(EXPLICIT, CT + "08004011 'SQ' 0000 FFFFFFFF " + ITEM + UID + END + UID),
                Bytes.file(
                        EXPLICIT,
                        CT + ("08004011 'SQ' 0000 FFFFFFFF " + ITEM).repeat(60) + UID + (ITEM_END + END).repeat(60)),
                Bytes.file(EXPLICIT, CT + "09001010 'ZZ' 0000 04000000 'abcd' 10002000 02000000 'id'"),
                Bytes.file(IMPLICIT, "08006000 02000000 'CT' " + meta + "10002000 02000000 'id'"),
                Bytes.file(EXPLICIT, CT + meta + UID),
                Bytes.file("1.2.840.10008.1.2.4.50", CT + pixels + fragments + END),
                Bytes.file(
                        RLE,
                        CT
                                + pixels
                                + "E07F1000 'OB' 0000 FFFFFFFF FEFF00E0 04000000 00000000 FEFF00E0 46000000 01000000 40000000"
                                + "00".repeat(56)
                                + "03 01020304 00 "
                                + END),
                Bytes.file(
                        "1.2.840.10008.1.2.4.80",
                        CT + "88000002 'SQ' 0000 FFFFFFFF " + ITEM + fragments + END + ITEM_END + END + pixels
                                + fragments + fragments.substring(fragments.indexOf("FEFF")) + END),
                Bytes.file(
                        EXPLICIT,
                        "04003011 'CS' 0800 'HOLDFAST' 04000012 'UL' 0400 00000000 04002012 'SQ' 0000 FFFFFFFF "
                                + (ITEM + record.replace("04000000 0", "'UL' 0400 0") + ITEM_END).repeat(2) + END),
                Bytes.file(
                        IMPLICIT, "04003011 08000000 'HOLDFAST' 04002012 FFFFFFFF " + ITEM + record + ITEM_END + END),
                Bytes.file(
                        EXPLICIT,
                        "08000500 'CS' 1E00 'ISO 2022 IR 13\\ISO 2022 IR 87' 10001000 'PN' 1000 D4CFC0DE'^'"
                                + "1B'$B;3ED'1B'(J' 0000"),
                Bytes.file(EXPLICIT, CT + UID + CT + UID + "08000000 'UL' 0400 FFFFFF7F " + CT),
                Bytes.file(EXPLICIT, CT + "00".repeat(64)));
    }

    private static DataSet functionalGroups() {
        List<DataSet> frames = new ArrayList<>();
        for (int f = 0; f < 3; f++) {
            DataSet position = DataSet.builder()
                    .decimals(Tag.IMAGE_POSITION_PATIENT, 0, 0, f)
                    .build();
            frames.add(DataSet.builder()
                    .items(Tag.PLANE_POSITION_SEQUENCE, List.of(position))
                    .string(0x00290010, Vr.LO, "HOLDFAST")
                    .items(0x00291010, List.of(position))
                    .bytes(0x00291011, Vr.OB, new byte[] {
                        (byte) 0xFE, (byte) 0xFF, 0, (byte) 0xE0, 4, 0, 0, 0, 1, 2, 3, 4
                    })
                    .build());
        }
        return image(16).toBuilder()
                .integers(Tag.NUMBER_OF_FRAMES, 3)
                .items(Tag.SHARED_FUNCTIONAL_GROUPS_SEQUENCE, List.of(frames.get(0)))
                .items(Tag.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE, frames)
                .bytes(Tag.PIXEL_DATA, Vr.OW, new byte[48])
                .build();
    }

    private static DataSet image(int bits) {
        return DataSet.builder()
                .string(Tag.SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.2")
                .string(Tag.SOP_INSTANCE_UID, "1.2.3.4")
                .integers(Tag.SAMPLES_PER_PIXEL, 1)
                .string(Tag.PHOTOMETRIC_INTERPRETATION, "MONOCHROME2")
                .integers(Tag.ROWS, 2)
                .integers(Tag.COLUMNS, 4)
                .decimals(Tag.PIXEL_SPACING, 0.5, 0.25)
                .integers(Tag.BITS_ALLOCATED, bits)
                .integers(Tag.BITS_STORED, bits)
                .integers(Tag.HIGH_BIT, bits - 1)
                .integers(Tag.PIXEL_REPRESENTATION, 1)
                .integers(Tag.PIXEL_PADDING_VALUE, -2)
                .bytes(
                        Tag.PIXEL_DATA,
                        bits == 8 ? Vr.OB : Vr.OW,
                        "abcdefghijklmnopqrstuvwxyz012345"
                                .substring(0, Math.max(2, bits))
                                .getBytes(StandardCharsets.US_ASCII))
                .build();
    }

    private static byte[] written(DataSet dataSet, TransferSyntax syntax, DicomWriter.SequenceLength lengths)
            throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        DicomWriter.write(out, dataSet, syntax, lengths);
        return out.toByteArray();
    }
}
