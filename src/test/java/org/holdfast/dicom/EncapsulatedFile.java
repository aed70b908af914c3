package org.holdfast.dicom;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;

/** Part 10 files with compressed pixels, written by hand (PS3.5, annex A.4): just what a reader of pixels needs. */
final class EncapsulatedFile {

    private EncapsulatedFile() {}

    /**
     * A file of 16-bit pixels, an empty offset table and one fragment a frame.
     *
     * @param frames encoded frames of even length
     */
    static byte[] of(String transferSyntaxUid, int rows, int columns, int samples, boolean signed, byte[]... frames) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.writeBytes(Bytes.file(
                transferSyntaxUid,
                element("2800 0200", samples)
                        + " 2800 0400 'CS' 0C00 'MONOCHROME2 '"
                        + " 2800 0800 'IS' 0200 '" + frames.length + " '"
                        + element("2800 1000", rows)
                        + element("2800 1100", columns)
                        + element("2800 0001", 16)
                        + element("2800 0101", 16)
                        + element("2800 0201", 15)
                        + element("2800 0301", signed ? 1 : 0)
                        + " E07F 1000 'OB' 0000 FFFFFFFF FEFF00E0 00000000"));
        for (byte[] frame : frames) {
            ByteBuffer item =
                    ByteBuffer.allocate(8 + frame.length + frame.length % 2).order(ByteOrder.LITTLE_ENDIAN);
            item.putInt(0xE000FFFE).putInt(frame.length + frame.length % 2).put(frame);
            out.writeBytes(item.array());
        }
        out.writeBytes(Bytes.of("FEFFDDE0 00000000"));
        return out.toByteArray();
    }

    private static String element(String tag, int value) {
        return String.format(" %s 'US' 0200 %02X%02X", tag, value & 0xFF, value >> 8);
    }
}
