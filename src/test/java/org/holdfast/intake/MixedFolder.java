package org.holdfast.intake;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.UnaryOperator;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.Uid;

/** Data sets of two patients and several visits, of every kind that is told apart. */
final class MixedFolder {

    private static final String CAPTURE = "1.2.840.10008.5.1.4.1.1.7";
    private static final String ENHANCED_CT = "1.2.840.10008.5.1.4.1.1.2.1";

    private final List<DataSet.Builder> all = new ArrayList<>();

    private MixedFolder() {}

    static List<DataSet.Builder> dataSets() {
        MixedFolder m = new MixedFolder();
        m.series("bone", 12, 0.6, b -> b.string(Tag.CONVOLUTION_KERNEL, "BONE"));
        m.series("soft", 12, 0.6, b -> b);
        m.series("reduced", 12, 0.6, b -> b.string(Tag.SERIES_DESCRIPTION, "spine iMAR"));
        m.series("thick", 11, 3, b -> b);
        m.series("twice", 6, 1, b -> b.integers(Tag.ACQUISITION_NUMBER, 1));
        m.series("again", 6, 1, b -> b.integers(Tag.ACQUISITION_NUMBER, 2)
                .string(Tag.SERIES_INSTANCE_UID, Uid.fromName("twice"))
                .words(Tag.PIXEL_DATA, CtFiles.filled(77)));
        m.series("bone", 3, 0.6, b -> b.string(Tag.CONVOLUTION_KERNEL, "BONE"));
        m.series("scout", 1, 1, b -> b.string(Tag.IMAGE_TYPE, "ORIGINAL", "PRIMARY", "LOCALIZER"));
        m.series("dose", 1, 1, b -> b.string(Tag.SOP_CLASS_UID, CAPTURE).string(Tag.SERIES_DESCRIPTION, "Dose"));
        m.series("film", 2, 1, b -> b.string(Tag.MODALITY, "DX"));
        m.series("report", 1, 1, b -> b.string(Tag.MODALITY, "SR").remove(Tag.PIXEL_DATA));
        m.series("mr", 5, 2, b -> b.string(Tag.MODALITY, "MR"));
        m.series("later", 12, 1, b -> b.string(Tag.ACQUISITION_DATE, "20260415")
                .string(Tag.STUDY_INSTANCE_UID, Uid.fromName("later study")));
        m.series("undated", 12, 1, b -> b.remove(Tag.ACQUISITION_DATE));
        m.series("other patient", 12, 1, b -> b.string(Tag.PATIENT_ID, "B").string(Tag.PATIENT_NAME, "Roe^Ann"));
        m.series("other name", 2, 1, b -> b.string(Tag.PATIENT_NAME, "Poe^Eve"));
        m.series("nowhere", 1, 1, b -> b.remove(Tag.SERIES_INSTANCE_UID).remove(Tag.STUDY_INSTANCE_UID));
        m.enhanced();
        return m.all;
    }

    private void series(String name, int slices, double pitchMm, UnaryOperator<DataSet.Builder> change) {
        for (int k = 0; k < slices; k++) {
            all.add(change.apply(CtFiles.slice(name + k, k * pitchMm, 1000 + k)
                    .string(Tag.SERIES_INSTANCE_UID, Uid.fromName(name))
                    .string(Tag.PATIENT_ID, "A")
                    .string(Tag.PATIENT_NAME, "Doe^Jane")
                    .integers(Tag.INSTANCE_NUMBER, slices - k)));
        }
    }

    private void enhanced() {
        int frames = 5;
        int values = CtFiles.COLUMNS * CtFiles.ROWS;
        short[] words = new short[values * frames];
        List<DataSet> perFrame = new ArrayList<>();
        for (int f = 0; f < frames; f++) {
            Arrays.fill(words, f * values, (f + 1) * values, (short) (1000 + 10 * f));
            DataSet position = DataSet.builder()
                    .decimals(Tag.IMAGE_POSITION_PATIENT, 0, 0, -1.5 * f)
                    .build();
            perFrame.add(DataSet.builder()
                    .items(Tag.PLANE_POSITION_SEQUENCE, List.of(position))
                    .build());
        }
        DataSet measures =
                DataSet.builder().decimals(Tag.PIXEL_SPACING, 0.7, 0.5).build();
        DataSet orientation = DataSet.builder()
                .decimals(Tag.IMAGE_ORIENTATION_PATIENT, 1, 0, 0, 0, 1, 0)
                .build();
        DataSet line = DataSet.builder()
                .decimals(Tag.RESCALE_SLOPE, 1)
                .decimals(Tag.RESCALE_INTERCEPT, -1024)
                .string(Tag.RESCALE_TYPE, "HU")
                .build();
        DataSet shared = DataSet.builder()
                .items(Tag.PIXEL_MEASURES_SEQUENCE, List.of(measures))
                .items(Tag.PLANE_ORIENTATION_SEQUENCE, List.of(orientation))
                .items(Tag.PIXEL_VALUE_TRANSFORMATION_SEQUENCE, List.of(line))
                .build();
        all.add(CtFiles.slice("enhanced", 0, 0)
                .string(Tag.SERIES_INSTANCE_UID, Uid.fromName("enhanced"))
                .string(Tag.PATIENT_ID, "A")
                .string(Tag.PATIENT_NAME, "DOE JANE")
                .string(Tag.SOP_CLASS_UID, ENHANCED_CT)
                .remove(Tag.IMAGE_POSITION_PATIENT)
                .remove(Tag.IMAGE_ORIENTATION_PATIENT)
                .remove(Tag.PIXEL_SPACING)
                .remove(Tag.RESCALE_SLOPE)
                .remove(Tag.RESCALE_INTERCEPT)
                .integers(Tag.INSTANCE_NUMBER, 9)
                .integers(Tag.NUMBER_OF_FRAMES, frames)
                .items(Tag.SHARED_FUNCTIONAL_GROUPS_SEQUENCE, List.of(shared))
                .items(Tag.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE, perFrame)
                .words(Tag.PIXEL_DATA, words));
    }
}
