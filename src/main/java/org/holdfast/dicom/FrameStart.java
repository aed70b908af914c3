package org.holdfast.dicom;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;

/** Tells by its first bytes whether a fragment starts an image of its codec. */
final class FrameStart {

    /** Bytes that are looked at. */
    static final int BYTES = 12;

    /** Start of image and the first byte of the next marker (ISO/IEC 10918-1, table B.1; ISO/IEC 14495-1, table C.1). */
    private static final byte[] JPEG = {(byte) 0xFF, (byte) 0xD8, (byte) 0xFF};

    /** Start of codestream and size marker (ISO/IEC 15444-1, table A.1). */
    private static final byte[] CODESTREAM = {(byte) 0xFF, 0x4F, (byte) 0xFF, 0x51};

    /** Signature box of a JP2 file (ISO/IEC 15444-1, section I.5.1). */
    private static final byte[] BOX = {0, 0, 0, 12, 'j', 'P', ' ', ' ', 13, 10, (byte) 0x87, 10};

    private static final int RLE_HEADER = 64;

    private FrameStart() {}

    static boolean isStart(TransferSyntax syntax, PixelLayout layout, byte[] first) {
        if (syntax.uid().equals(TransferSyntax.RLE_LOSSLESS)) {
            return isRleHeader(layout, first);
        }
        return startsWith(first, JPEG) || startsWith(first, CODESTREAM) || startsWith(first, BOX);
    }

    /** A header of RLE segments (PS3.5, section G.5): their number as the layout asks, the first right behind it. */
    private static boolean isRleHeader(PixelLayout layout, byte[] first) {
        if (first.length < 8) {
            return false;
        }
        ByteBuffer b = ByteBuffer.wrap(first).order(ByteOrder.LITTLE_ENDIAN);
        return b.getInt(0) == layout.samples() * ((layout.bitsAllocated() + 7) / 8) && b.getInt(4) == RLE_HEADER;
    }

    private static boolean startsWith(byte[] bytes, byte[] start) {
        for (int i = 0; i < start.length; i++) {
            if (i >= bytes.length || bytes[i] != start[i]) {
                return false;
            }
        }
        return true;
    }
}
