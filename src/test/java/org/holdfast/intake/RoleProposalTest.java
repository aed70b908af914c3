package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.Uid;
import org.holdfast.intake.RoleReason.Bearing;
import org.holdfast.progress.Progress;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** One stack of an exam is measured, few series confirm, the rest is viewed, and each role has its reasons. */
class RoleProposalTest {

    private static final UnaryOperator<DataSet.Builder> BONE = b -> b.string(Tag.CONVOLUTION_KERNEL, "BONE");
    private static final UnaryOperator<DataSet.Builder> EXTENDED =
            b -> BONE.apply(b).decimals(Tag.RESCALE_SLOPE, 10).decimals(Tag.RESCALE_INTERCEPT, -10240);

    @TempDir
    Path folder;

    @Test
    void aThinBoneKernelIsMeasuredThoughASoftOneIsThinner() {
        series("bone", 12, 0.6, BONE);
        series("soft", 12, 0.5, b -> b);
        assertMeasured("bone", "soft", "soft kernel B30; the measured one: bone kernel BONE");
    }

    @Test
    void aThickBoneKernelIsNotMeasuredWhereAThinSoftOneIs() {
        series("bone", 12, 3, BONE);
        series("soft", 12, 0.6, b -> b);
        assertMeasured("soft", "bone", "slices of 3.00 mm; the measured one: slices of 0.600 mm");
    }

    @Test
    void anExtendedScaleIsMeasuredBeforeAClippedOne() {
        series("clipped", 12, 0.6, b -> BONE.apply(b)
                .integers(Tag.BITS_STORED, 12)
                .integers(Tag.HIGH_BIT, 11));
        series("extended", 12, 0.6, EXTENDED);
        // By hand: 12 bits signed hold up to 2047 stored, with intercept −1024 1023 HU.
        assertMeasured(
                "extended",
                "clipped",
                "the scale ends at 1023 HU: metal is clipped; the measured one: extended scale, up to 317430 HU");
    }

    @Test
    void anUnknownKernelIsNeutral() {
        series("unknown", 12, 0.6, b -> b.string(Tag.CONVOLUTION_KERNEL, "XYZ"));
        series("standard", 12, 0.6, b -> b.string(Tag.CONVOLUTION_KERNEL, "STANDARD"));
        SeriesUse viewed = uses().get(1);
        assertEquals("as good as the measured one", viewed.reasons().get(0).text());
    }

    @Test
    void holesLossUnevenStepsAndReformatsAreWorse() {
        series("good", 12, 1, BONE);
        series("lossy", 12, 0.5, b -> BONE.apply(b).string(Tag.LOSSY_IMAGE_COMPRESSION, "01"));
        series("reformat", 12, 0.5, b -> BONE.apply(b).string(Tag.IMAGE_TYPE, "DERIVED", "SECONDARY", "MPR"));
        seriesAt("holes", new double[] {0, 1, 2, 3, 4, 5, 6, 7, 8, 12, 13, 14}, BONE);
        seriesAt("uneven", new double[] {0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10.3, 11}, BONE);
        Map<String, String> first = firstReasons();
        assertEquals("good", measured());
        assertEquals("compressed with loss; the measured one: without loss", first.get("lossy"));
        assertEquals("axial reformat; the measured one: axial slices", first.get("reformat"));
        assertEquals("holes; the measured one: no holes", first.get("holes"));
        assertEquals("uneven spacing; the measured one: even spacing", first.get("uneven"));
    }

    @Test
    void artefactReductionOfTheSameScanConfirms() {
        series("plain", 12, 0.6, EXTENDED);
        series("reduced", 12, 0.6, b -> EXTENDED.apply(b).string(Tag.SERIES_DESCRIPTION, "spine iMAR"));
        SeriesUse reduced = use("reduced");
        assertEquals(ExamRole.CONFIRM, reduced.role());
        assertEquals("Artefact reduced", reduced.name());
        assertTrue(texts(reduced).contains("same slices as the measured one"));
        assertTrue(texts(reduced).contains("artefact-reduced: can draw or hide a break, a zone or bone at metal"));
    }

    @Test
    void artefactReductionAloneIsMeasuredWithTheReasonAgainst() {
        series("reduced", 12, 0.6, b -> EXTENDED.apply(b).string(Tag.SERIES_DESCRIPTION, "spine iMAR"));
        RoleReason first = use("reduced").reasons().get(0);
        assertEquals(Bearing.AGAINST, first.bearing());
        assertTrue(first.text().startsWith("artefact-reduced"), first.text());
    }

    @Test
    void everyCriterionOfTheMeasuredOneIsNamed() {
        series("bone", 12, 0.6, b -> EXTENDED.apply(b).string(Tag.SERIES_DESCRIPTION, "spine no MAR"));
        // By hand: 2^15 − 1 = 32767 stored; 10 · 32767 − 10240 = 317430 HU.
        assertEquals(
                List.of(
                        "12 slices",
                        "no artefact reduction",
                        "not compressed with loss",
                        "no slices missing",
                        "even spacing",
                        "axial slices",
                        "thin: slices of 0.600 mm",
                        "bone kernel BONE",
                        "extended scale, up to 317430 HU"),
                texts(use("bone")));
    }

    @Test
    void energiesDirectionsAndPicturesAreToldApart() {
        series("plain", 12, 0.6, BONE);
        series("energy", 12, 0.6, b -> BONE.apply(b).string(Tag.SERIES_DESCRIPTION, "mono 130 keV"));
        for (int k = 0; k < 12; k++) {
            int x = k;
            seriesAt("sagittal", new double[] {100 + k}, b -> BONE.apply(b)
                    .string(Tag.SOP_INSTANCE_UID, Uid.fromName("sagittal " + x))
                    .string(Tag.IMAGE_TYPE, "DERIVED", "SECONDARY", "MPR")
                    .decimals(Tag.IMAGE_POSITION_PATIENT, x, 0, 0)
                    .decimals(Tag.IMAGE_ORIENTATION_PATIENT, 0, 1, 0, 0, 0, -1));
        }
        series("scout", 1, 1, b -> b.string(Tag.IMAGE_TYPE, "ORIGINAL", "PRIMARY", "LOCALIZER"));
        series("dose", 1, 1, b -> b.string(Tag.SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.7")
                .string(Tag.SERIES_DESCRIPTION, "Dose Report"));
        series("film", 1, 1, b -> b.string(Tag.MODALITY, "DX").string(0x00185101, "AP"));
        series("breast", 1, 1, b -> b.string(Tag.MODALITY, "MG"));
        series("mr", 3, 1, b -> b.string(Tag.MODALITY, "MR"));
        Map<String, String> names =
                uses().stream().collect(Collectors.toMap(this::nameOf, use -> use.role() + " " + use.name()));
        assertEquals(
                Map.of(
                        "plain", "MEASURE Bone kernel",
                        "energy", "VIEW Monoenergetic, 130 keV",
                        "sagittal", "VIEW Sagittal reformat",
                        "scout", "VIEW Overview",
                        "dose", "VIEW Dose sheet",
                        "film", "CONFIRM X-ray, front",
                        "breast", "VIEW X-ray",
                        "mr", "VIEW MR slices"),
                names);
    }

    @Test
    void aFilmSaysWhatItsScaleIs() {
        series("film", 1, 1, b -> b.string(Tag.MODALITY, "DX").remove(Tag.PIXEL_SPACING));
        assertEquals(List.of("angles, ratios and breaks", "scale: none, ratios and angles only"), texts(use("film")));
    }

    private void assertMeasured(String best, String other, String whyNot) {
        assertEquals(best, measured());
        assertEquals(whyNot, firstReasons().get(other));
        assertEquals(ExamRole.VIEW, use(other).role());
    }

    private String measured() {
        return nameOf(exam().measured().orElseThrow());
    }

    private Map<String, String> firstReasons() {
        return uses().stream()
                .collect(Collectors.toMap(
                        this::nameOf, use -> use.reasons().get(0).text()));
    }

    private SeriesUse use(String name) {
        return uses().stream()
                .filter(use -> nameOf(use).equals(name))
                .findFirst()
                .orElseThrow();
    }

    private String nameOf(SeriesUse use) {
        return NAMES.stream()
                .filter(name -> Uid.fromName(name).equals(use.series().seriesInstanceUid()))
                .findFirst()
                .orElseThrow();
    }

    private static final List<String> NAMES = List.of(
            "bone",
            "soft",
            "clipped",
            "extended",
            "unknown",
            "standard",
            "good",
            "lossy",
            "reformat",
            "holes",
            "uneven",
            "plain",
            "reduced",
            "energy",
            "sagittal",
            "scout",
            "dose",
            "film",
            "breast",
            "mr");

    private static List<String> texts(SeriesUse use) {
        return use.reasons().stream().map(RoleReason::text).toList();
    }

    private List<SeriesUse> uses() {
        return exam().uses();
    }

    private FoundExam exam() {
        List<FoundExam> exams = Intake.scan(List.of(folder), Progress.NONE).exams();
        assertEquals(1, exams.size());
        return exams.get(0);
    }

    private void series(String name, int slices, double pitchMm, UnaryOperator<DataSet.Builder> change) {
        double[] z = new double[slices];
        for (int k = 0; k < slices; k++) {
            z[k] = k * pitchMm;
        }
        seriesAt(name, z, change);
    }

    private void seriesAt(String name, double[] zMm, UnaryOperator<DataSet.Builder> change) {
        for (int k = 0; k < zMm.length; k++) {
            DataSet.Builder b =
                    CtFiles.slice(name + k, zMm[k], 10 + k).string(Tag.SERIES_INSTANCE_UID, Uid.fromName(name));
            CtFiles.write(folder, name + zMm[k], change.apply(b).build());
        }
    }
}
