package org.holdfast.dicom;

import java.util.Locale;

/** Second bytes of markers (ISO/IEC 10918-1, table B.1). */
final class JpegMarker {

    static final int BASELINE = 0xC0;
    static final int EXTENDED = 0xC1;
    static final int LOSSLESS = 0xC3;
    static final int HUFFMAN_TABLES = 0xC4;
    static final int ARITHMETIC_CONDITIONING = 0xCC;
    static final int RESTART_0 = 0xD0;
    static final int START_OF_IMAGE = 0xD8;
    static final int END_OF_IMAGE = 0xD9;
    static final int START_OF_SCAN = 0xDA;
    static final int QUANTIZATION_TABLES = 0xDB;
    static final int RESTART_INTERVAL = 0xDD;
    static final int LAST_START_OF_FRAME = 0xCF;
    static final int TEMPORARY = 0x01;

    private static final int JPEG_LS = 0xF7;

    private JpegMarker() {}

    /** Whether a frame's header follows. */
    static boolean isStartOfFrame(int marker) {
        return marker >= BASELINE && marker <= LAST_START_OF_FRAME && marker % 4 != 0
                || marker == BASELINE
                || marker == JPEG_LS;
    }

    /** Whether nothing belongs to the marker. */
    static boolean standsAlone(int marker) {
        return marker >= RESTART_0 && marker <= START_OF_IMAGE || marker == TEMPORARY;
    }

    /** The coding process that a frame's header stands for, in words. */
    static String process(int marker) {
        return switch (marker) {
            case BASELINE -> "baseline DCT (SOF0)";
            case EXTENDED -> "extended sequential DCT (SOF1)";
            case 0xC2 -> "progressive DCT (SOF2)";
            case LOSSLESS -> "lossless with Huffman coding (SOF3)";
            case 0xC5, 0xC6, 0xC7 -> "hierarchical coding (SOF" + (marker - BASELINE) + ")";
            case 0xC9 -> "extended sequential DCT with arithmetic coding (SOF9)";
            case 0xCA -> "progressive DCT with arithmetic coding (SOF10)";
            case 0xCB -> "lossless with arithmetic coding (SOF11)";
            case 0xCD, 0xCE, 0xCF -> "hierarchical, arithmetic coding (SOF" + (marker - BASELINE) + ")";
            case JPEG_LS -> "JPEG-LS (SOF55)";
            default -> name(marker);
        };
    }

    static String name(int marker) {
        return String.format(Locale.ROOT, "marker FF%02X", marker);
    }
}
