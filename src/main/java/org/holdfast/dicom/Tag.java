package org.holdfast.dicom;

import java.util.Locale;

/** Data element tags that the application knows by name, as 32-bit numbers {@code group << 16 | element} (PS3.6). */
public final class Tag {

    // File meta information
    public static final int FILE_META_GROUP_LENGTH = 0x00020000;
    public static final int FILE_META_VERSION = 0x00020001;
    public static final int MEDIA_STORAGE_SOP_CLASS_UID = 0x00020002;
    public static final int MEDIA_STORAGE_SOP_INSTANCE_UID = 0x00020003;
    public static final int TRANSFER_SYNTAX_UID = 0x00020010;
    public static final int IMPLEMENTATION_CLASS_UID = 0x00020012;
    public static final int IMPLEMENTATION_VERSION_NAME = 0x00020013;
    public static final int DIRECTORY_RECORD_SEQUENCE = 0x00041220;

    // Identification
    public static final int SPECIFIC_CHARACTER_SET = 0x00080005;
    public static final int IMAGE_TYPE = 0x00080008;
    public static final int INSTANCE_CREATION_DATE = 0x00080012;
    public static final int INSTANCE_CREATION_TIME = 0x00080013;
    public static final int SOP_CLASS_UID = 0x00080016;
    public static final int SOP_INSTANCE_UID = 0x00080018;
    public static final int STUDY_DATE = 0x00080020;
    public static final int SERIES_DATE = 0x00080021;
    public static final int ACQUISITION_DATE = 0x00080022;
    public static final int CONTENT_DATE = 0x00080023;
    public static final int ACQUISITION_DATE_TIME = 0x0008002A;
    public static final int STUDY_TIME = 0x00080030;
    public static final int SERIES_TIME = 0x00080031;
    public static final int ACQUISITION_TIME = 0x00080032;
    public static final int CONTENT_TIME = 0x00080033;
    public static final int ACCESSION_NUMBER = 0x00080050;
    public static final int MODALITY = 0x00080060;
    public static final int CONVERSION_TYPE = 0x00080064;
    public static final int PRESENTATION_INTENT_TYPE = 0x00080068;
    public static final int MANUFACTURER = 0x00080070;
    public static final int INSTITUTION_NAME = 0x00080080;
    public static final int REFERRING_PHYSICIAN_NAME = 0x00080090;
    public static final int CODE_VALUE = 0x00080100;
    public static final int CODING_SCHEME_DESIGNATOR = 0x00080102;
    public static final int CODE_MEANING = 0x00080104;
    public static final int TIMEZONE_OFFSET_FROM_UTC = 0x00080201;
    public static final int FRAME_TYPE = 0x00089007;
    public static final int PIXEL_PRESENTATION = 0x00089205;
    public static final int STATION_NAME = 0x00081010;
    public static final int STUDY_DESCRIPTION = 0x00081030;
    public static final int SERIES_DESCRIPTION = 0x0008103E;
    public static final int MANUFACTURER_MODEL_NAME = 0x00081090;
    public static final int REFERENCED_IMAGE_SEQUENCE = 0x00081140;
    public static final int REFERENCED_SOP_CLASS_UID = 0x00081150;
    public static final int REFERENCED_SOP_INSTANCE_UID = 0x00081155;
    public static final int ANATOMIC_REGION_SEQUENCE = 0x00082218;
    public static final int SOURCE_IMAGE_SEQUENCE = 0x00082112;
    public static final int DERIVATION_DESCRIPTION = 0x00082111;

    // Patient
    public static final int PATIENT_NAME = 0x00100010;
    public static final int PATIENT_ID = 0x00100020;
    public static final int PATIENT_BIRTH_DATE = 0x00100030;
    public static final int PATIENT_SEX = 0x00100040;
    public static final int PATIENT_AGE = 0x00101010;
    public static final int PATIENT_COMMENTS = 0x00104000;

    // Acquisition
    public static final int CONTRAST_BOLUS_AGENT = 0x00180010;
    public static final int BODY_PART_EXAMINED = 0x00180015;
    public static final int SCAN_OPTIONS = 0x00180022;
    public static final int SLICE_THICKNESS = 0x00180050;
    public static final int KVP = 0x00180060;
    public static final int SPACING_BETWEEN_SLICES = 0x00180088;
    public static final int DATA_COLLECTION_DIAMETER = 0x00180090;
    public static final int SECONDARY_CAPTURE_DEVICE_MANUFACTURER = 0x00181016;
    public static final int SECONDARY_CAPTURE_DEVICE_SOFTWARE_VERSIONS = 0x00181019;
    public static final int PROTOCOL_NAME = 0x00181030;
    public static final int SOFTWARE_VERSIONS = 0x00181020;
    public static final int RECONSTRUCTION_DIAMETER = 0x00181100;
    public static final int DISTANCE_SOURCE_TO_DETECTOR = 0x00181110;
    public static final int DISTANCE_SOURCE_TO_PATIENT = 0x00181111;
    public static final int ESTIMATED_RADIOGRAPHIC_MAGNIFICATION = 0x00181114;
    public static final int GANTRY_DETECTOR_TILT = 0x00181120;
    public static final int TABLE_HEIGHT = 0x00181130;
    public static final int ROTATION_DIRECTION = 0x00181140;
    public static final int EXPOSURE_TIME = 0x00181150;
    public static final int X_RAY_TUBE_CURRENT = 0x00181151;
    public static final int EXPOSURE = 0x00181152;
    public static final int FILTER_TYPE = 0x00181160;
    public static final int IMAGER_PIXEL_SPACING = 0x00181164;
    public static final int GENERATOR_POWER = 0x00181170;
    public static final int FOCAL_SPOTS = 0x00181190;
    public static final int CONVOLUTION_KERNEL = 0x00181210;
    public static final int NOMINAL_SCANNED_PIXEL_SPACING = 0x00182010;
    public static final int POSITIONER_TYPE = 0x00181508;
    public static final int PATIENT_POSITION = 0x00185100;
    public static final int VIEW_POSITION = 0x00185101;
    public static final int DETECTOR_TYPE = 0x00187004;
    public static final int FRAME_ACQUISITION_DATE_TIME = 0x00189074;
    public static final int ACQUISITION_TYPE = 0x00189302;
    public static final int RECONSTRUCTION_ALGORITHM = 0x00189315;
    public static final int CT_ADDITIONAL_X_RAY_SOURCE_SEQUENCE = 0x00189360;
    public static final int MULTI_ENERGY_CT_ACQUISITION = 0x00189361;

    // Relationship
    public static final int STUDY_INSTANCE_UID = 0x0020000D;
    public static final int SERIES_INSTANCE_UID = 0x0020000E;
    public static final int STUDY_ID = 0x00200010;
    public static final int SERIES_NUMBER = 0x00200011;
    public static final int ACQUISITION_NUMBER = 0x00200012;
    public static final int INSTANCE_NUMBER = 0x00200013;
    public static final int LATERALITY = 0x00200060;
    public static final int PATIENT_ORIENTATION = 0x00200020;
    public static final int IMAGE_POSITION_PATIENT = 0x00200032;
    public static final int IMAGE_ORIENTATION_PATIENT = 0x00200037;
    public static final int FRAME_OF_REFERENCE_UID = 0x00200052;
    public static final int IMAGE_LATERALITY = 0x00200062;
    public static final int POSITION_REFERENCE_INDICATOR = 0x00201040;
    public static final int SLICE_LOCATION = 0x00201041;
    public static final int IMAGE_COMMENTS = 0x00204000;
    public static final int TEMPORAL_POSITION_INDEX = 0x00209128;
    public static final int TEMPORAL_POSITION_IDENTIFIER = 0x00200100;
    public static final int STACK_ID = 0x00209056;
    public static final int IN_STACK_POSITION_NUMBER = 0x00209057;
    public static final int DIMENSION_INDEX_VALUES = 0x00209157;
    public static final int DIMENSION_INDEX_POINTER = 0x00209165;
    public static final int DIMENSION_INDEX_SEQUENCE = 0x00209222;
    public static final int PLANE_POSITION_SEQUENCE = 0x00209113;
    public static final int PLANE_ORIENTATION_SEQUENCE = 0x00209116;
    public static final int FRAME_CONTENT_SEQUENCE = 0x00209111;

    // Image
    public static final int SAMPLES_PER_PIXEL = 0x00280002;
    public static final int PHOTOMETRIC_INTERPRETATION = 0x00280004;
    public static final int PLANAR_CONFIGURATION = 0x00280006;
    public static final int NUMBER_OF_FRAMES = 0x00280008;
    public static final int ROWS = 0x00280010;
    public static final int COLUMNS = 0x00280011;
    public static final int PIXEL_SPACING = 0x00280030;
    public static final int PIXEL_ASPECT_RATIO = 0x00280034;
    public static final int BITS_ALLOCATED = 0x00280100;
    public static final int BITS_STORED = 0x00280101;
    public static final int HIGH_BIT = 0x00280102;
    public static final int PIXEL_REPRESENTATION = 0x00280103;
    public static final int SMALLEST_IMAGE_PIXEL_VALUE = 0x00280106;
    public static final int LARGEST_IMAGE_PIXEL_VALUE = 0x00280107;
    public static final int PIXEL_PADDING_VALUE = 0x00280120;
    public static final int PIXEL_PADDING_RANGE_LIMIT = 0x00280121;
    public static final int BURNED_IN_ANNOTATION = 0x00280301;
    public static final int PIXEL_SPACING_CALIBRATION_TYPE = 0x00280A02;
    public static final int PIXEL_SPACING_CALIBRATION_DESCRIPTION = 0x00280A04;
    public static final int PIXEL_INTENSITY_RELATIONSHIP = 0x00281040;
    public static final int PIXEL_INTENSITY_RELATIONSHIP_SIGN = 0x00281041;
    public static final int WINDOW_CENTER = 0x00281050;
    public static final int WINDOW_WIDTH = 0x00281051;
    public static final int RESCALE_INTERCEPT = 0x00281052;
    public static final int RESCALE_SLOPE = 0x00281053;
    public static final int RESCALE_TYPE = 0x00281054;
    public static final int WINDOW_EXPLANATION = 0x00281055;
    public static final int VOI_LUT_FUNCTION = 0x00281056;
    public static final int PIXEL_VALUE_TRANSFORMATION_SEQUENCE = 0x00289145;
    public static final int PIXEL_MEASURES_SEQUENCE = 0x00289110;
    public static final int LOSSY_IMAGE_COMPRESSION_RATIO = 0x00282112;
    public static final int LOSSY_IMAGE_COMPRESSION_METHOD = 0x00282114;
    public static final int LOSSY_IMAGE_COMPRESSION = 0x00282110;
    public static final int MODALITY_LUT_SEQUENCE = 0x00283000;
    public static final int LUT_DESCRIPTOR = 0x00283002;
    public static final int LUT_EXPLANATION = 0x00283003;
    public static final int MODALITY_LUT_TYPE = 0x00283004;
    public static final int LUT_DATA = 0x00283006;
    public static final int VOI_LUT_SEQUENCE = 0x00283010;

    public static final int ACQUISITION_CONTEXT_SEQUENCE = 0x00400555;

    // Multi-frame
    public static final int SHARED_FUNCTIONAL_GROUPS_SEQUENCE = 0x52009229;
    public static final int PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE = 0x52009230;
    public static final int ICON_IMAGE_SEQUENCE = 0x00880200;
    // Radiograph
    public static final int VIEW_CODE_SEQUENCE = 0x00540220;
    public static final int PRESENTATION_LUT_SHAPE = 0x20500020;

    // Pixels
    public static final int FLOAT_PIXEL_DATA = 0x7FE00008;
    public static final int DOUBLE_FLOAT_PIXEL_DATA = 0x7FE00009;
    public static final int PIXEL_DATA = 0x7FE00010;

    static final int ITEM = 0xFFFEE000;
    static final int ITEM_DELIMITATION = 0xFFFEE00D;
    static final int SEQUENCE_DELIMITATION = 0xFFFEE0DD;

    private Tag() {}

    /** The tag as the standard writes it, such as (7FE0,0010). */
    public static String format(int tag) {
        return String.format(Locale.ROOT, "(%04X,%04X)", tag >>> 16, tag & 0xFFFF);
    }

    /** Whether the group is odd: the element belongs to a manufacturer. */
    public static boolean isPrivate(int tag) {
        return (tag & 0x10000) != 0;
    }

    /** Whether the element names the owner of a private block (PS3.5, section 7.8.1). */
    public static boolean isPrivateCreator(int tag) {
        int element = tag & 0xFFFF;
        return isPrivate(tag) && element >= 0x10 && element <= 0xFF;
    }

    static boolean isPixelData(int tag) {
        return tag == PIXEL_DATA || tag == FLOAT_PIXEL_DATA || tag == DOUBLE_FLOAT_PIXEL_DATA;
    }

    /** Elements of type "US or SS", whose sign is that of the pixels (PS3.6; PS3.3, section C.7.6.3.1). */
    static boolean hasSignOfPixels(int tag) {
        return switch (tag) {
            case 0x00280104,
                    0x00280105,
                    SMALLEST_IMAGE_PIXEL_VALUE,
                    LARGEST_IMAGE_PIXEL_VALUE,
                    0x00280108,
                    0x00280109,
                    0x00280110,
                    0x00280111,
                    PIXEL_PADDING_VALUE,
                    PIXEL_PADDING_RANGE_LIMIT,
                    0x00281101,
                    0x00281102,
                    0x00281103,
                    LUT_DESCRIPTOR -> true;
            default -> false;
        };
    }

    /** Look-up table descriptors: only the second of their three values has the sign of the pixels (PS3.3, C.11.1.1). */
    static boolean isLutDescriptor(int tag) {
        return tag == LUT_DESCRIPTOR || tag >= 0x00281101 && tag <= 0x00281103;
    }
}
