package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.ValueRepresentations;
import org.holdfast.dicom.Vr;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/** What de-identification leaves of a data set. */
final class DeidentifierTest {

    private static final String CT = "1.2.840.10008.5.1.4.1.1.2";
    private static final String SEGMENTATION = "1.2.840.10008.5.1.4.1.1.66.4";
    private static final String SECRET = "SECRET-7731";

    static Stream<ProfileTable.Row> rows() {
        return ProfileTableTest.singleTags().stream();
    }

    static Stream<Vr> texts() {
        return Arrays.stream(Vr.values()).filter(vr -> vr.kind() == Vr.Kind.TEXT);
    }

    @ParameterizedTest
    @MethodSource("rows")
    void doesWhatTheRowSays(ProfileTable.Row row) {
        int tag = ProfileTableTest.tag(row);
        if (tag >>> 16 < 0x0008 || tag == Tag.PATIENT_NAME || tag == Tag.PATIENT_ID || row.source() == 'M') {
            return; // file meta information and media directories are no part of a data set; the code is tested below
        }
        Vr vr = ValueRepresentations.of(tag);
        for (String sopClass : List.of(CT, SEGMENTATION)) {
            DataSet in = with(sopClass, tag, vr, vr == Vr.UI ? "1.2.3.4" : SECRET);
            DataSet out = apply(in, DateHandling.REMOVED);
            switch (row.action(sopClass.equals(CT))) {
                case REMOVE -> assertFalse(out.contains(tag));
                case EMPTY -> assertTrue(out.contains(tag) && out.isBlank(tag));
                case REPLACE -> assertTrue(tag == 0x00700001 || !out.isBlank(tag));
                case MAP_UID ->
                    assertEquals(
                            vr == Vr.SQ ? "" : PseudonymsTest.of("S-001").uid("1.2.3.4"),
                            out.string(tag).orElse(""));
                case KEEP -> assertEquals(SECRET, tag == 0x00209056 ? SECRET : text(out, tag));
            }
            if (row.action(sopClass.equals(CT)) != ProfileAction.KEEP) {
                assertFalse(bytes(out).contains(SECRET), row.toString());
            }
        }
    }

    @ParameterizedTest
    @EnumSource(DateHandling.class)
    void noElementOfTheDictionaryKeepsTextThatIsNotItsOwn(DateHandling dates) throws IOException {
        List<String> leaks = new ArrayList<>();
        for (int tag : dictionary()) {
            Vr vr = ValueRepresentations.of(tag);
            boolean kept = ProfileTable.basic()
                    .row(tag)
                    .map(row -> row.plain() == ProfileAction.KEEP)
                    .orElse(false);
            if (kept || tag >>> 16 < 0x0008) {
                continue;
            }
            for (String sopClass : List.of(CT, SEGMENTATION)) {
                if (bytes(apply(with(sopClass, tag, vr, SECRET), dates)).contains(SECRET)) {
                    leaks.add(Tag.format(tag) + " " + vr);
                }
            }
        }
        assertEquals(List.of(), leaks);
    }

    @ParameterizedTest
    @MethodSource("texts")
    void numbersWrittenAsTextDoNotStay(Vr wrong) {
        for (int tag : new int[] {Tag.KVP, Tag.ROWS, Tag.IMAGE_TYPE, Tag.PIXEL_SPACING, 0x00189306, 0x00081032}) {
            DataSet in = base(CT).bytes(tag, wrong, SECRET.getBytes(StandardCharsets.US_ASCII))
                    .build();
            assertFalse(bytes(apply(in, DateHandling.SHIFTED)).contains(SECRET), Tag.format(tag));
        }
    }

    @Test
    void unknownElementsAndUnknownRepresentationsDoNotStay() {
        byte[] secret = (SECRET + " ").getBytes(StandardCharsets.US_ASCII);
        DataSet in = base(CT).bytes(0x00189999, Vr.UN, secret)
                .bytes(0x00080071, Vr.LO, secret)
                .bytes(0x00281199 + 0x100, Vr.UN, secret)
                .bytes(Tag.SERIES_DESCRIPTION, Vr.UN, secret)
                .bytes(Tag.ROWS, Vr.UN, secret)
                .build();
        assertFalse(bytes(apply(in, DateHandling.SHIFTED)).contains(SECRET));
    }

    @Test
    void aNumberThatLostItsRepresentationStays() {
        DataSet in = base(CT).bytes(Tag.ROWS, Vr.UN, new byte[] {0, 2}).build();
        // By hand: 0x0200, little endian.
        assertEquals(512, apply(in, DateHandling.SHIFTED).integer(Tag.ROWS).orElseThrow());
    }

    @Test
    void privateElementsGoInEveryItemWithTheirCreatorOrWithout() {
        DataSet item = DataSet.builder()
                .string(0x00090010, Vr.LO, SECRET)
                .string(0x00091001, Vr.LO, SECRET)
                .string(0x00211160, Vr.LO, SECRET)
                .decimals(Tag.SLICE_THICKNESS, 1.25)
                .build();
        DataSet deep = DataSet.builder()
                .items(Tag.PIXEL_MEASURES_SEQUENCE, List.of(item))
                .build();
        DataSet out = apply(
                base(CT).items(Tag.SHARED_FUNCTIONAL_GROUPS_SEQUENCE, List.of(deep))
                        .string(0x00091001, Vr.LO, SECRET)
                        .build(),
                DateHandling.SHIFTED);
        assertFalse(bytes(out).contains(SECRET));
        assertFalse(out.tags().stream().anyMatch(Tag::isPrivate));
        DataSet kept = out.item(Tag.SHARED_FUNCTIONAL_GROUPS_SEQUENCE)
                .flatMap(each -> each.item(Tag.PIXEL_MEASURES_SEQUENCE))
                .orElseThrow();
        assertEquals(List.of(Tag.SLICE_THICKNESS), kept.tags());
    }

    @Test
    void overlaysAndCurvesGoAsAWhole() {
        DataSet out = apply(
                base(CT).integers(0x60000010, 512)
                        .string(0x60001500, Vr.LO, SECRET)
                        .bytes(0x60003000, Vr.OW, SECRET.getBytes(StandardCharsets.US_ASCII))
                        .string(0x60020022, Vr.LO, SECRET)
                        .string(0x50002600, Vr.LO, SECRET)
                        .build(),
                DateHandling.SHIFTED);
        assertFalse(out.tags().stream().anyMatch(tag -> tag >>> 24 == 0x50 || tag >>> 24 == 0x60));
    }

    @Test
    void referencesStillLeadToTheirInstances() {
        DataSet first = base(CT).string(Tag.SOP_INSTANCE_UID, "1.2.3.1").build();
        DataSet reference = DataSet.builder()
                .string(Tag.REFERENCED_SOP_CLASS_UID, CT)
                .string(Tag.REFERENCED_SOP_INSTANCE_UID, "1.2.3.1")
                .build();
        DataSet second = base(CT).string(Tag.SOP_INSTANCE_UID, "1.2.3.2")
                .items(Tag.REFERENCED_IMAGE_SEQUENCE, List.of(reference))
                .build();
        DataSet firstOut = apply(first, DateHandling.SHIFTED);
        DataSet secondOut = apply(second, DateHandling.SHIFTED);
        DataSet kept = secondOut.item(Tag.REFERENCED_IMAGE_SEQUENCE).orElseThrow();
        assertEquals(firstOut.string(Tag.SOP_INSTANCE_UID), kept.string(Tag.REFERENCED_SOP_INSTANCE_UID));
        assertEquals(Optional.of(CT), kept.string(Tag.REFERENCED_SOP_CLASS_UID));
        assertEquals(firstOut.string(Tag.STUDY_INSTANCE_UID), secondOut.string(Tag.STUDY_INSTANCE_UID));
        assertNotEquals(firstOut.string(Tag.SOP_INSTANCE_UID), secondOut.string(Tag.SOP_INSTANCE_UID));
        assertEquals(Optional.of(CT), firstOut.string(Tag.SOP_CLASS_UID));
    }

    @Test
    void shiftedDatesKeepTimesAndBirthDateGoes() {
        DataSet in = base(CT).string(Tag.STUDY_DATE, "20040301")
                .string(Tag.STUDY_TIME, "072730")
                .string(Tag.ACQUISITION_DATE_TIME, "20040301072731.5+0100")
                .string(Tag.INSTANCE_CREATION_DATE, "1993.04.30")
                .string(Tag.SERIES_DATE, Vr.DA, "2004")
                .string(Tag.PATIENT_BIRTH_DATE, "19500101")
                .string(0x00080201, Vr.SH, "+0100")
                .build();
        Deidentifier.Result result = deidentifier(DateHandling.SHIFTED).apply(in);
        DataSet out = result.dataSet();
        // Computed: Python 3.11, date(2004, 3, 1) + timedelta(-1022), the shift of PseudonymsTest.
        assertEquals("20010514", out.string(Tag.STUDY_DATE).orElseThrow());
        assertEquals("072730", out.string(Tag.STUDY_TIME).orElseThrow());
        assertEquals("20010514072731.5", out.string(Tag.ACQUISITION_DATE_TIME).orElseThrow());
        // Computed: Python 3.11, date(1993, 4, 30) + timedelta(-1022)
        assertEquals("19900713", out.string(Tag.INSTANCE_CREATION_DATE).orElseThrow());
        assertFalse(out.contains(Tag.SERIES_DATE));
        assertTrue(out.contains(Tag.PATIENT_BIRTH_DATE) && out.isBlank(Tag.PATIENT_BIRTH_DATE));
        assertFalse(out.contains(0x00080201));
        assertEquals("MODIFIED", out.string(0x00280303).orElseThrow());
        assertEquals(
                1,
                result.changes()
                        .get(new AttributeChange("(0008,0021)", "SeriesDate", AttributeChange.Kind.DATE_NOT_READ)));
    }

    @Test
    void removedDatesLeaveNone() {
        DataSet in = base(CT).string(Tag.STUDY_DATE, "20040301")
                .string(Tag.STUDY_TIME, "072730")
                .string(Tag.ACQUISITION_DATE, "20040301")
                .string(Tag.INSTANCE_CREATION_DATE, "20040301")
                .build();
        DataSet out = apply(in, DateHandling.REMOVED);
        assertTrue(out.contains(Tag.STUDY_DATE) && out.isBlank(Tag.STUDY_DATE));
        assertFalse(out.contains(Tag.ACQUISITION_DATE));
        assertFalse(out.contains(Tag.INSTANCE_CREATION_DATE));
        assertEquals("REMOVED", out.string(0x00280303).orElseThrow());
    }

    @Test
    void saysWhatWasDone() {
        DataSet out = apply(base(CT).build(), DateHandling.SHIFTED);
        assertEquals("S-001", out.string(Tag.PATIENT_NAME).orElseThrow());
        assertEquals("S-001", out.string(Tag.PATIENT_ID).orElseThrow());
        assertEquals("YES", out.string(0x00120062).orElseThrow());
        assertTrue(out.string(0x00120063).isPresent());
        // Source: DICOM PS3.16, context group 7050: 113100 basic profile, 113107 modified dates.
        assertEquals(
                List.of("113100", "113107"),
                out.items(0x00120064).stream()
                        .map(code -> code.string(Tag.CODE_VALUE).orElseThrow())
                        .toList());
        assertEquals(
                1,
                apply(base(CT).build(), DateHandling.REMOVED).items(0x00120064).size());
    }

    @Test
    void whatMeasurementNeedsStays() {
        DataSet in = base(CT).string(Tag.IMAGE_TYPE, "ORIGINAL", "PRIMARY", "AXIAL", "CT_SOM5 SPI")
                .string(Tag.MANUFACTURER_MODEL_NAME, "Model 64")
                .string(Tag.CONVOLUTION_KERNEL, "B60s")
                .decimals(Tag.KVP, 120)
                .decimals(Tag.SLICE_THICKNESS, 0.75)
                .decimals(Tag.PIXEL_SPACING, 0.4, 0.4)
                .decimals(Tag.IMAGE_POSITION_PATIENT, -100, -100, 12.5)
                .decimals(Tag.RESCALE_INTERCEPT, -1024)
                .integers(Tag.PIXEL_PADDING_VALUE, 0)
                .build();
        DataSet out = apply(in, DateHandling.SHIFTED);
        for (int tag : in.tags()) {
            boolean identity = Tag.format(tag).startsWith("(0020,000") || tag == Tag.SOP_INSTANCE_UID;
            if (!identity) {
                assertEquals(in.strings(tag), out.strings(tag), Tag.format(tag));
            }
        }
    }

    @Test
    void codesOfLocalSchemesSayNothing() {
        DataSet local = code("SECRET-7731", "99HOSPITAL", SECRET);
        DataSet published = code("T-11503", "SRT", "L3 vertebra");
        DataSet without = DataSet.builder().string(Tag.CODE_MEANING, SECRET).build();
        DataSet out = apply(
                base(CT).items(0x00082218, List.of(local, published, without)).build(), DateHandling.SHIFTED);
        assertFalse(bytes(out).contains(SECRET));
        assertEquals(
                List.of("99HOLDFAST", "SRT", "99HOLDFAST"),
                out.items(0x00082218).stream()
                        .map(code -> code.string(Tag.CODING_SCHEME_DESIGNATOR).orElseThrow())
                        .toList());
    }

    @Test
    void textInAnyCharacterSetGoes() {
        for (String set : List.of("", "ISO_IR 100", "ISO_IR 192", "GB18030", "ISO_IR 144")) {
            DataSet.Builder in = base(CT);
            if (!set.isEmpty()) {
                in.string(Tag.SPECIFIC_CHARACTER_SET, set);
            }
            in.string(Tag.PATIENT_NAME, SECRET + "^Zo").string(Tag.PATIENT_COMMENTS, SECRET);
            in.bytes(Tag.STUDY_DESCRIPTION, Vr.LO, "SECRET-7731".getBytes(StandardCharsets.UTF_16LE));
            DataSet out = apply(in.build(), DateHandling.SHIFTED);
            assertFalse(bytes(out).contains(SECRET), set);
            assertFalse(bytes(out).replace("\0", "").contains(SECRET), set);
        }
    }

    @Property(tries = 200)
    void twiceHasTheShapeOfOnce(@ForAll @IntRange(min = 0, max = 1 << 20) int seed) {
        java.util.Random random = new java.util.Random(seed);
        DataSet.Builder in = base(random.nextBoolean() ? CT : SEGMENTATION);
        List<ProfileTable.Row> rows = ProfileTableTest.singleTags();
        for (int i = 0; i < 20; i++) {
            int tag = ProfileTableTest.tag(rows.get(random.nextInt(rows.size())));
            Vr vr = ValueRepresentations.of(tag);
            if (tag >>> 16 >= 0x0008 && vr.kind() == Vr.Kind.TEXT) {
                in.bytes(tag, vr, "20040301".getBytes(StandardCharsets.US_ASCII));
            }
        }
        DateHandling dates = random.nextBoolean() ? DateHandling.SHIFTED : DateHandling.REMOVED;
        DataSet once = apply(in.build(), dates);
        DataSet twice = apply(once, dates);
        assertEquals(once.tags(), twice.tags());
        for (int tag : once.tags()) {
            assertEquals(once.vr(tag), twice.vr(tag));
            assertEquals(once.isBlank(tag), twice.isBlank(tag));
        }
        assertEquals(apply(in.build(), dates).describe(), once.describe());
    }

    private static Deidentifier deidentifier(DateHandling dates) {
        return new Deidentifier(PseudonymsTest.of("S-001"), dates);
    }

    private static DataSet apply(DataSet in, DateHandling dates) {
        return deidentifier(dates).apply(in).dataSet();
    }

    private static DataSet.Builder base(String sopClass) {
        return DataSet.builder()
                .string(Tag.SOP_CLASS_UID, sopClass)
                .string(Tag.SOP_INSTANCE_UID, "1.2.3.9")
                .string(Tag.STUDY_INSTANCE_UID, "1.2.3.8")
                .string(Tag.SERIES_INSTANCE_UID, "1.2.3.7");
    }

    private static DataSet code(String value, String scheme, String meaning) {
        return DataSet.builder()
                .string(Tag.CODE_VALUE, value)
                .string(Tag.CODING_SCHEME_DESIGNATOR, scheme)
                .string(Tag.CODE_MEANING, meaning)
                .build();
    }

    /** A data set with one more element that holds a text, as far as its representation lets it. */
    private static DataSet with(String sopClass, int tag, Vr vr, String text) {
        if (vr == Vr.SQ) {
            DataSet item = DataSet.builder()
                    .string(Tag.PATIENT_COMMENTS, text)
                    .string(0x0040A160, Vr.UT, text)
                    .string(Tag.CODE_MEANING, text)
                    .build();
            return base(sopClass).items(tag, List.of(item)).build();
        }
        int unit = Math.max(2, vr.unitBytes());
        int length = (text.length() + unit - 1) / unit * unit;
        byte[] padded = Arrays.copyOf(text.getBytes(StandardCharsets.US_ASCII), length);
        return base(sopClass).bytes(tag, vr, padded).build();
    }

    private static String text(DataSet data, int tag) {
        return String.join("\\", data.strings(tag));
    }

    /** All value fields one after the other, items included, a character a byte. */
    private static String bytes(DataSet data) {
        StringBuilder out = new StringBuilder();
        for (int tag : data.tags()) {
            data.bytes(tag).ifPresent(value -> out.append(new String(value, StandardCharsets.ISO_8859_1)));
            data.items(tag).forEach(item -> out.append(bytes(item)));
        }
        return out.toString();
    }

    private static List<Integer> dictionary() throws IOException {
        try (InputStream in = ValueRepresentations.class.getResourceAsStream("value-representations.txt");
                BufferedReader lines = new BufferedReader(new InputStreamReader(in, StandardCharsets.US_ASCII))) {
            Map<Integer, Boolean> tags = new HashMap<>();
            lines.lines()
                    .filter(line -> !line.startsWith("#"))
                    .flatMap(line -> Arrays.stream(line.split(" ")).skip(1))
                    .forEach(hex -> tags.put(Integer.parseUnsignedInt(hex, 16), true));
            tags.keySet().removeIf(tag -> (tag & 0xFFFF) == 0);
            return List.copyOf(tags.keySet());
        }
    }
}
