package org.holdfast.dicom;

import java.io.IOException;

/**
 * Whether a JPEG or JPEG-LS stream carries text beside the picture: a comment, or application data other than the plain
 * JFIF header (ISO/IEC 10918-1, section B.2.4; 14495-1, annex C). Only the markers before the first scan are looked at.
 * Stateless.
 */
final class JpegComments {

    private static final int START_OF_IMAGE = 0xFFD8;
    private static final int START_OF_SCAN = 0xFFDA;
    private static final int COMMENT = 0xFFFE;
    private static final int FIRST_APPLICATION = 0xFFE0;
    private static final int LAST_APPLICATION = 0xFFEF;
    /** Application data of a thumbnail-free JFIF header, with its length. */
    private static final int JFIF_BYTES = 16;

    private JpegComments() {}

    /** Whether a fragment starts such a stream and carries text; false if it starts none. */
    static boolean in(ByteSource source, long offset, long length) throws IOException {
        long end = offset + length;
        if (length < 4 || source.unsignedShort(offset, true) != START_OF_IMAGE) {
            return false;
        }
        long at = offset + 2;
        while (end - at >= 4) {
            int marker = source.unsignedShort(at, true);
            int bytes = source.unsignedShort(at + 2, true);
            boolean header = marker > 0xFF00 && marker != START_OF_SCAN && bytes >= 2;
            if (!header) {
                return false;
            }
            boolean application = marker >= FIRST_APPLICATION && marker <= LAST_APPLICATION;
            if (marker == COMMENT && bytes > 2 || application && bytes > JFIF_BYTES) {
                return true;
            }
            at += 2 + bytes;
        }
        return false;
    }
}
