package org.holdfast.dicom;

import java.nio.ByteBuffer;

/**
 * Puts right what would be refused at the start of a codestream though its samples are whole (ISO/IEC 15444-1, A.5.1): a
 * profile that the library does not know, and a width or height that is more than DICOM can have but right in its lower 16
 * bits. Such damage occurs, and everything else is still checked.
 */
final class Jpeg2000Repair {

    /** Where the profile stands; then come width and height, then where both begin. */
    private static final int PROFILE = 6;

    private static final int WIDTH = 8;
    private static final int ORIGIN = 16;

    /** Bits of the profile that say another coding: extensions of part 2, high throughput of part 15. */
    private static final int EXTENSIONS = 0x8000;

    private static final int HIGH_THROUGHPUT = 0x4000;

    private Jpeg2000Repair() {}

    /** The frame as it is, or a repaired copy. */
    static byte[] repaired(byte[] frame, PixelLayout layout) throws CorruptFrameException {
        int start = Jpeg2000Size.codestream(frame);
        if (start < 0 || frame.length - start < Jpeg2000Size.FIXED) {
            return frame;
        }
        ByteBuffer said = ByteBuffer.wrap(frame);
        boolean damaged = isDamaged(said, start + WIDTH, layout.columns())
                || isDamaged(said, start + WIDTH + Integer.BYTES, layout.rows());
        int profile = said.getShort(start + PROFILE) & 0xFFFF;
        if (!damaged && (profile & (EXTENSIONS | HIGH_THROUGHPUT)) != 0) {
            throw new CorruptFrameException(
                    start + PROFILE,
                    "a JPEG 2000 codestream of part 1",
                    (profile & HIGH_THROUGHPUT) != 0
                            ? "High-Throughput JPEG 2000, which this version does not read"
                            : "extensions of part 2, which this version does not read");
        }
        if (!damaged && profile == 0) {
            return frame;
        }
        byte[] copy = frame.clone();
        ByteBuffer repaired = ByteBuffer.wrap(copy).putShort(start + PROFILE, (short) 0);
        if (damaged) {
            repaired.putInt(start + WIDTH, layout.columns());
            repaired.putInt(start + WIDTH + Integer.BYTES, layout.rows());
        }
        return copy;
    }

    private static boolean isDamaged(ByteBuffer said, int at, int extent) {
        boolean fromZero = said.getInt(at + ORIGIN - WIDTH) == 0;
        return fromZero && said.getInt(at) != extent && (said.getInt(at) & 0xFFFF) == extent;
    }
}
