package org.holdfast.dicom;

import java.util.Locale;

/** Walks along the marker segments of a JPEG-LS frame (ISO/IEC 14495-1, section C.1). Not thread-safe. */
final class JpegLsSegments {

    static final int START_OF_IMAGE = 0xD8;
    static final int END_OF_IMAGE = 0xD9;
    static final int START_OF_SCAN = 0xDA;
    static final int FIRST_RESTART = 0xD0;
    static final int RESTARTS = 8;

    private static final int TEMPORARY = 0x01;

    private final byte[] frame;
    private int at;
    private int end;

    JpegLsSegments(byte[] frame) {
        this.frame = frame;
    }

    /** Goes on to the next marker behind this segment, and into its segment; returns the marker's second byte. */
    int next() throws CorruptFrameException {
        at = end;
        end = frame.length;
        int marker = at;
        if (unsigned8() != 0xFF) {
            throw new CorruptFrameException(marker, "a JPEG-LS marker", hex(frame[marker] & 0xFF));
        }
        int code = 0xFF;
        while (code == 0xFF) {
            code = unsigned8();
        }
        if (standsAlone(code)) {
            end = at;
            return code;
        }
        int length = unsigned16();
        if (length < 2 || length - 2 > frame.length - at) {
            throw new CorruptFrameException(
                    at - 2, "a marker segment of 2 to " + (frame.length - at + 2) + " bytes", length + " bytes");
        }
        end = at + length - 2;
        return code;
    }

    /** Next byte of the segment. */
    int unsigned8() throws CorruptFrameException {
        if (at >= end) {
            throw new CorruptFrameException(at, "a further byte of a marker segment", "its end");
        }
        return frame[at++] & 0xFF;
    }

    /** Next two bytes of the segment, high byte first. */
    int unsigned16() throws CorruptFrameException {
        return unsigned8() << 8 | unsigned8();
    }

    /** Where the next byte is. */
    int offset() {
        return at;
    }

    /** First byte behind the segment. */
    int end() {
        return end;
    }

    /** Leaves coded data: the next marker is at an offset. */
    void leaveTo(int offset) {
        end = offset;
    }

    /** Offset of the first marker in coded data, where a byte FF is never followed by one of 80 or more (section C.1). */
    static int endOfCodedData(byte[] frame, int from) {
        for (int i = from; i + 1 < frame.length; i++) {
            if (frame[i] == (byte) 0xFF && frame[i + 1] < 0) {
                return i;
            }
        }
        return frame.length;
    }

    static String hex(int value) {
        return String.format(Locale.ROOT, "%02X", value);
    }

    private static boolean standsAlone(int code) {
        return code == START_OF_IMAGE
                || code == END_OF_IMAGE
                || code == TEMPORARY
                || code >= FIRST_RESTART && code < FIRST_RESTART + RESTARTS;
    }
}
